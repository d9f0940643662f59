/** Text in, values out: the helpers of the tests of quantities. */

import type Fraction from 'fraction.js';
import {
    bandInterval,
    type BandInterval,
    type Comparison,
    type QuantityBand,
} from '../../../language/src/core/quantities/bands.js';
import { decimalToFraction, parseDecimal } from '../../../language/src/core/quantities/decimal.js';
import type { Interval } from '../../../language/src/core/quantities/intervals.js';
import { parseQuantity, type Quantity } from '../../../language/src/core/quantities/quantity.js';
import type { Unit } from '../../../language/src/core/quantities/unit.js';
import { findUnit } from '../../../language/src/core/quantities/unit-spellings.js';

/** The exact value of a decimal text. */
export function exact(text: string): Fraction {
    const decimal = parseDecimal(text);
    if (decimal === undefined) {
        throw new Error(`the test uses ${text} as a number`);
    }
    return decimalToFraction(decimal);
}

/** The unit that a test names. */
export function unitOf(spelling: string): Unit {
    const unit = findUnit(spelling);
    if (unit === undefined) {
        throw new Error(`the test uses ${spelling} as a unit`);
    }
    return unit;
}

/** The quantity that a test names. */
export function quantity(text: string): Quantity {
    const read = parseQuantity(text);
    if (read === undefined) {
        throw new Error(`the test uses ${text} as a quantity`);
    }
    return read;
}

/** A band as a writer spells it. */
export function band(text: string): QuantityBand {
    const [, comparison, limit = ''] = /^(<=|>=|<|>)\s*((?:(?!\.\.).)*)$/.exec(text) ?? [];
    if (comparison !== undefined) {
        return { sort: 'limit', comparison: comparison as Comparison, value: quantity(limit) };
    }
    const [first = '', second] = text.split(/\s*\.\.\s*/);
    if (second !== undefined) {
        const from = quantity(first.replace(/^>\s*/, ''));
        const to = quantity(second.replace(/^<\s*/, ''));
        return { sort: 'range', from, fromOpen: first.startsWith('>'), to, toOpen: second.startsWith('<') };
    }
    const [value = '', tolerance] = text.split(/\s*±\s*/);
    return {
        sort: 'around',
        value: quantity(value),
        tolerance: tolerance === undefined ? undefined : quantity(tolerance),
    };
}

/** What a band written as text holds. */
export function readBand(text: string, asDifference = false): BandInterval {
    return bandInterval(band(text), asDifference);
}

/** The interval of a band that is in order. */
export function interval(text: string, asDifference = false): Interval {
    const read = readBand(text, asDifference);
    if (read.problem !== undefined) {
        throw new Error(`the test uses ${text} as a band`);
    }
    return read.interval;
}

/** An interval in mathematical notation: `[21.6, 26.4]`, `(0, …`. */
export function notation({ low, high }: Interval): string {
    const from = low === undefined ? '…' : `${low.closed ? '[' : '('}${low.value.toFraction()}`;
    const to = high === undefined ? '…' : `${high.value.toFraction()}${high.closed ? ']' : ')'}`;
    return `${from}, ${to}`;
}
