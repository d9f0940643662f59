// Bands of readings as they are written, turned into exact intervals.

import type Fraction from 'fraction.js';

import { decimalToFraction } from './decimal.js';
import { type Dimension, dimensions, sameDimensions } from './dimensions.js';
import { type End, type Interval, isEmpty } from './intervals.js';
import { display, type Quantity } from './quantity.js';
import type { Unit } from './unit.js';
import { convertible, differenceToCoherent, toCoherent } from './unit-conversion.js';

/** A band as it is written, with its quantities read. */
export type QuantityBand =
    /** `< 3 V`, `<= 3 V`, `> 2 kΩ`, `>= 2 kΩ` */
    | { readonly sort: 'limit'; readonly comparison: Comparison; readonly value: Quantity }
    /** `21.6 V .. 26.4 V`; with an open end `200 kPa .. < 230 kPa` or `> 200 kPa .. 230 kPa` */
    | {
          readonly sort: 'range';
          readonly from: Quantity;
          readonly fromOpen: boolean;
          readonly to: Quantity;
          readonly toOpen: boolean;
      }
    /** `24 V ± 2 V` or `24 V ± 10 %`; without a tolerance `0 V` */
    | { readonly sort: 'around'; readonly value: Quantity; readonly tolerance: Quantity | undefined };

export type Comparison = '<' | '<=' | '>' | '>=';

/** Why a band is no interval, with the quantity to point at. */
export type BandProblem =
    | { readonly kind: 'unknown-unit'; readonly at: Quantity }
    | { readonly kind: 'units-differ'; readonly at: Quantity; readonly other: Quantity }
    | { readonly kind: 'unit-missing'; readonly at: Quantity; readonly other: Quantity }
    | { readonly kind: 'negative-tolerance'; readonly at: Quantity }
    | { readonly kind: 'empty'; readonly at: Quantity; readonly other: Quantity };

/** The interval in the coherent SI unit of its dimension, or what stands in the way. */
export type BandInterval =
    | {
          readonly interval: Interval;
          readonly dimension: Dimension;
          readonly unit: Unit | undefined;
          readonly problem?: undefined;
      }
    | { readonly problem: BandProblem };

/**
 * The values that a band holds, exactly, in the coherent SI unit: `24 V ± 10 %` is 21.6 V to 26.4 V.
 * The ends of a range and of a tolerance belong to it unless they are written as open.
 * With `asDifference`, temperatures are taken as differences. `unit` is the unit that the writer thinks in, for messages.
 *
 * A tolerance in percent is a share of the middle value, as the number stands in its own unit; where the middle value is itself a ratio
 * in the same unit (`50 % ± 5 %`), it is added to and taken from it: 45 % to 55 %.
 * The low end of a range and the middle of a tolerance may leave out the unit that follows (`21.6 .. 26.4 V`).
 */
export function bandInterval(band: QuantityBand, asDifference = false): BandInterval {
    switch (band.sort) {
        case 'limit':
            return limitInterval(band.comparison, band.value, asDifference);
        case 'range':
            return rangeInterval(band, asDifference);
        case 'around':
            return band.tolerance === undefined
                ? rangeInterval({ from: band.value, fromOpen: false, to: band.value, toOpen: false }, asDifference)
                : toleranceInterval(band.value, band.tolerance, asDifference);
    }
}

/** The band as it is shown: `< 3 V`, `21.6 V .. 26.4 V`, `24 V ± 10 %`. */
export function displayBand(band: QuantityBand): string {
    switch (band.sort) {
        case 'limit':
            return `${band.comparison} ${display(band.value)}`;
        case 'range': {
            const from = (band.fromOpen ? '> ' : '') + display(band.from);
            return `${from} .. ${band.toOpen ? '< ' : ''}${display(band.to)}`;
        }
        case 'around':
            return display(band.value) + (band.tolerance === undefined ? '' : ` ± ${display(band.tolerance)}`);
    }
}

function limitInterval(comparison: Comparison, limit: Quantity, asDifference: boolean): BandInterval {
    const problem = unknownUnit(limit);
    if (problem !== undefined) {
        return { problem };
    }
    const end: End = { value: valueOf(limit, asDifference), closed: comparison.endsWith('=') };
    return success(comparison.startsWith('<') ? { high: end } : { low: end }, limit);
}

interface Range {
    readonly from: Quantity;
    readonly fromOpen: boolean;
    readonly to: Quantity;
    readonly toOpen: boolean;
}

function rangeInterval({ from, fromOpen, to, toOpen }: Range, asDifference: boolean): BandInterval {
    const low = withUnitOf(from, to);
    const problem = unknownUnit(low) ?? unknownUnit(to) ?? unlike(low, to);
    if (problem !== undefined) {
        return { problem };
    }
    const interval = {
        low: { value: valueOf(low, asDifference), closed: !fromOpen },
        high: { value: valueOf(to, asDifference), closed: !toOpen },
    };
    return isEmpty(interval) ? { problem: { kind: 'empty', at: from, other: to } } : success(interval, low);
}

function toleranceInterval(middle: Quantity, tolerance: Quantity, asDifference: boolean): BandInterval {
    const problem = unknownUnit(middle) ?? unknownUnit(tolerance);
    if (problem !== undefined) {
        return { problem };
    }
    if (tolerance.number.negative) {
        return { problem: { kind: 'negative-tolerance', at: tolerance } };
    }
    const relative = isShareOf(tolerance, middle);
    const whole = relative ? middle : withUnitOf(middle, tolerance);
    const added = relative ? tolerance : withUnitOf(tolerance, middle);
    const mismatch = relative ? undefined : unlike(whole, added);
    if (mismatch !== undefined) {
        return { problem: mismatch };
    }
    const center = valueOf(whole, asDifference);
    const halfWidth = relative ? shareOf(tolerance, middle) : valueOf(added, true);
    const low = { value: center.sub(halfWidth), closed: true };
    const high = { value: center.add(halfWidth), closed: true };
    return success({ low, high }, whole);
}

function success(interval: Interval, quantity: Quantity): BandInterval {
    return { interval, dimension: quantity.unit?.dimension ?? dimensions.ratio, unit: quantity.unit };
}

// The share is taken of the number as written: ten percent of 20 °C is 2 K, not ten percent of 293.15 K.
function shareOf(tolerance: Quantity, middle: Quantity): Fraction {
    const share = valueOf(tolerance, true);
    const number = decimalToFraction(middle.number).abs().mul(share);
    return middle.unit === undefined ? number : differenceToCoherent(number, middle.unit);
}

/** True when a tolerance is a share of the middle value (`24 V ± 10 %`), not an amount of the same sort (`50 % ± 5 %`). */
export function isShareOf(tolerance: Quantity, middle: Quantity): boolean {
    const unit = tolerance.unit;
    const isRatio =
        unit !== undefined && sameDimensions(unit.dimension, dimensions.ratio) && unit.usedFor === undefined;
    return isRatio && unit !== middle.unit;
}

/** The quantity with the unit of the other where it has none itself: `21.6` of `21.6 .. 26.4 V` is 21.6 V. */
export function withUnitOf(quantity: Quantity, other: Quantity): Quantity {
    return quantity.unitText === '' ? { ...quantity, unit: other.unit, unitText: other.unitText } : quantity;
}

function unknownUnit(quantity: Quantity): BandProblem | undefined {
    return quantity.unit === undefined && quantity.unitText !== '' ? { kind: 'unknown-unit', at: quantity } : undefined;
}

function unlike(a: Quantity, b: Quantity): BandProblem | undefined {
    if (a.unit === b.unit) {
        return undefined;
    }
    if (a.unit === undefined || b.unit === undefined) {
        return a.unit === undefined
            ? { kind: 'unit-missing', at: a, other: b }
            : { kind: 'unit-missing', at: b, other: a };
    }
    return convertible(a.unit, b.unit) ? undefined : { kind: 'units-differ', at: b, other: a };
}

function valueOf(quantity: Quantity, asDifference: boolean): Fraction {
    const number = decimalToFraction(quantity.number);
    if (quantity.unit === undefined) {
        return number;
    }
    return asDifference ? differenceToCoherent(number, quantity.unit) : toCoherent(number, quantity.unit);
}
