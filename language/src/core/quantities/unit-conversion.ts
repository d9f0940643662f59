// Exact conversion of values and differences between units.

import type Fraction from 'fraction.js';

import { sameDimensions } from './dimensions.js';
import { type Unit, unitFactor, unitOffset } from './unit.js';

/** True when both units measure the same sort of thing, so that their numbers can be compared; any two currencies are alike in this. */
export function sameDimension(a: Unit, b: Unit): boolean {
    return sameDimensions(a.dimension, b.dimension);
}

/** True when a number in one unit can be turned into the other: the same sort of thing and, for money, the same currency. */
export function convertible(from: Unit, to: Unit): boolean {
    return from === to || (sameDimension(from, to) && !from.money);
}

/** A value in another unit, exactly (77 °F is 25 °C); undefined where the units do not fit each other. */
export function convert(value: Fraction, from: Unit, to: Unit): Fraction | undefined {
    if (from === to) {
        return value;
    }
    return convertible(from, to) ? fromCoherent(toCoherent(value, from), to) : undefined;
}

/** A difference of two values in another unit (a difference of 9 °F is one of 5 K); undefined where the units do not fit each other. */
export function convertDifference(value: Fraction, from: Unit, to: Unit): Fraction | undefined {
    if (from === to) {
        return value;
    }
    return convertible(from, to) ? differenceFromCoherent(differenceToCoherent(value, from), to) : undefined;
}

/** A value in the coherent SI unit: volts, pascals, kelvins, cubic meters per second. */
export function toCoherent(value: Fraction, unit: Unit): Fraction {
    return differenceToCoherent(unit.offset === undefined ? value : value.add(unitOffset(unit)), unit);
}

/** A value in this unit, from the coherent SI unit. */
export function fromCoherent(value: Fraction, unit: Unit): Fraction {
    const number = differenceFromCoherent(value, unit);
    return unit.offset === undefined ? number : number.sub(unitOffset(unit));
}

/** A difference in the coherent SI unit; unlike a value it takes no notice of where the scale begins. */
export function differenceToCoherent(value: Fraction, unit: Unit): Fraction {
    return unit.factor === '1' ? value : value.mul(unitFactor(unit));
}

/** A difference in this unit, from the coherent SI unit. */
export function differenceFromCoherent(value: Fraction, unit: Unit): Fraction {
    return unit.factor === '1' ? value : value.div(unitFactor(unit));
}
