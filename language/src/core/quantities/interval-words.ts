// Intervals shown in a writer's unit, and a plain reading inside one to serve as an example.

import Fraction from 'fraction.js';

import { type Decimal, decimalFromFraction, decimalToFraction, printFraction, roundFraction } from './decimal.js';
import { contains, type End, type Interval, isEmpty, isPoint } from './intervals.js';
import { displayNumber } from './quantity.js';
import type { Unit } from './unit.js';
import { differenceFromCoherent, fromCoherent } from './unit-conversion.js';

/** How an interval in the coherent SI unit is shown. */
export interface IntervalUnit {
    /** The unit to show it in; undefined for plain numbers. */
    readonly unit: Unit | undefined;
    /** True for differences of temperatures. */
    readonly asDifference?: boolean;
}

/** The interval in this unit: `18 V .. 19 V`, `> 18 V .. < 19 V`, `< 3 V`, `0 V`, `any value`. A rounded end begins with `about`. */
export function displayInterval(interval: Interval, shown: IntervalUnit): string {
    const { low, high } = interval;
    if (isEmpty(interval)) {
        return 'no value';
    }
    if (low === undefined && high === undefined) {
        return 'any value';
    }
    if (low === undefined) {
        return high === undefined ? '' : `${high.closed ? '<=' : '<'} ${displayEnd(high, shown)}`;
    }
    if (high === undefined) {
        return `${low.closed ? '>=' : '>'} ${displayEnd(low, shown)}`;
    }
    if (isPoint(interval)) {
        return displayEnd(low, shown);
    }
    return `${low.closed ? '' : '> '}${displayEnd(low, shown)} .. ${high.closed ? '' : '< '}${displayEnd(high, shown)}`;
}

/**
 * A reading inside the interval, with as few digits as there can be in this unit: between 18 V and 19 V, both open, it is 18.5 V.
 * Undefined for an empty interval, and for a single value that this unit cannot give exactly.
 */
export function exampleWithin(interval: Interval, shown: IntervalUnit): Decimal | undefined {
    const inUnit = intervalInUnit(interval, shown);
    if (isEmpty(inUnit)) {
        return undefined;
    }
    const { low, high } = inUnit;
    if (low !== undefined && high !== undefined) {
        return isPoint(inUnit)
            ? decimalFromFraction(low.value)
            : shortestBetween(inUnit, low.value.add(high.value).div(2n), high.value.sub(low.value));
    }
    const end = low ?? high;
    const nearby = end === undefined ? zero : end.value;
    // Beyond a single limit the example steps away by the limit's own size, so that it stands clear of it.
    const step = nearby.n === 0n ? new Fraction(1n, 1n) : nearby.abs();
    const direction = low === undefined ? step.neg() : step;
    return shortestBetween(inUnit, end === undefined ? zero : nearby.add(direction.div(2n)), step);
}

const zero = new Fraction(0n, 1n);

function intervalInUnit(interval: Interval, shown: IntervalUnit): Interval {
    return {
        ...(interval.low === undefined ? {} : { low: { ...interval.low, value: inUnit(interval.low.value, shown) } }),
        ...(interval.high === undefined
            ? {}
            : { high: { ...interval.high, value: inUnit(interval.high.value, shown) } }),
    };
}

// Zero is the plainest of readings; otherwise digits are added to the middle value until the rounded number lies inside.
function shortestBetween(interval: Interval, middle: Fraction, width: Fraction): Decimal | undefined {
    if (contains(interval, zero)) {
        return decimalFromFraction(zero);
    }
    const most = digitsNeeded(middle, width);
    for (let digits = 1; digits <= most; digits += 1) {
        const candidate = roundFraction(middle, digits);
        if (contains(interval, decimalToFraction(candidate))) {
            return candidate;
        }
    }
    return undefined;
}

// One digit finer than the width of the interval always lands inside it.
function digitsNeeded(middle: Fraction, width: Fraction): number {
    const size = (value: Fraction): number => value.n.toString().length - value.d.toString().length;
    return Math.max(1, size(middle) - size(width) + 4);
}

function displayEnd(end: End, shown: IntervalUnit): string {
    const printed = printFraction(inUnit(end.value, shown), 6, 12);
    return (printed.exact ? '' : 'about ') + displayNumber(printed.text, shown.unit?.symbol ?? '');
}

function inUnit(value: Fraction, { unit, asDifference }: IntervalUnit): Fraction {
    if (unit === undefined) {
        return value;
    }
    return asDifference === true ? differenceFromCoherent(value, unit) : fromCoherent(value, unit);
}
