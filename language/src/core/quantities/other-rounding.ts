// How finely a converted number is shown: as finely as it was written, no finer and no coarser.
//
// Converting makes digits that the writer never meant: 36 ft is 10.9728 m, yet nobody measured tenths of a millimeter.
// NIST SP 811, B.7.2 (seen second-hand) asks that the rounding error of the result match that of the value as it was written.

import Fraction from 'fraction.js';

import { type Decimal, decimalFromFraction, decimalToFraction, roundToPower } from './decimal.js';

/** A number to show: exactly what it was in its own unit, or rounded. */
export interface RoundedNumber {
    readonly number: Decimal;
    /** False where the shown number is not exactly the value. */
    readonly exact: boolean;
}

/**
 * The power of ten of the last digit that a writer vouches for: `21.6` is sure to tenths (-1), `24` to ones (0).
 * Zeros that end a whole number only hold its place, so `3000` is sure to hundreds (2); but two digits always count: `30` is sure to ones.
 * A number with an exponent shows its digits by its fraction: `2.50e3` is sure to tens (1).
 */
export function lastSurePower({ digits, exponent }: Decimal): number {
    if (exponent < 0) {
        return exponent;
    }
    const sure = exponent > 0 ? digits.length : digits.replace(/0+$/, '').length;
    return digits.length + exponent - Math.max(sure, Math.min(2, digits.length + exponent));
}

/** The largest power of ten that is no larger than this number above zero: 6.89 gives 0, 0.069 gives -2. */
export function powerWithin(value: Fraction): number {
    // The lengths give it to within one.
    const guess = value.n.toString().length - value.d.toString().length;
    return powerOfTen(guess).compare(value) > 0 ? guess - 1 : guess;
}

/**
 * The power at which numbers are rounded together: `power`, or finer until none of `sized` but zero is moved by more than
 * two hundredths of itself, and no two different ones of `apart` become one.
 */
export function powerKeeping(sized: readonly Fraction[], apart: readonly Fraction[], power: number): number {
    let finer = power;
    while (!sized.every(number => staysNear(number, finer)) || !stayApart(apart, finer)) {
        finer -= 1;
    }
    return finer;
}

/** The number rounded at this power of ten. One that is exact without zeros after its point drops them when `plain`. */
export function roundAt(value: Fraction, power: number, plain: boolean): RoundedNumber {
    const rounded = roundToPower(value, power);
    const exact = decimalToFraction(rounded).equals(value);
    const bare = exact && plain ? decimalFromFraction(value) : undefined;
    return { number: bare ?? rounded, exact };
}

/** The nearest half of one (22, 22.5, 23); halves of that go away from zero. */
export function roundToHalf(value: Fraction): RoundedNumber {
    const doubled = decimalToFraction(roundToPower(value.mul(2n), 0));
    const half = doubled.div(2n);
    return { number: decimalFromFraction(half) ?? roundToPower(half, -1), exact: half.equals(value) };
}

const mostMoved = new Fraction(1n, 50n);

function staysNear(number: Fraction, power: number): boolean {
    const moved = decimalToFraction(roundToPower(number, power)).sub(number).abs();
    return moved.compare(number.abs().mul(mostMoved)) <= 0;
}

function stayApart(numbers: readonly Fraction[], power: number): boolean {
    const rounded = new Set(numbers.map(number => roundToPower(number, power).text));
    return rounded.size === new Set(numbers.map(number => number.toFraction())).size;
}

/** Ten to this power, exactly. */
export function powerOfTen(power: number): Fraction {
    return power < 0 ? new Fraction(1n, 10n ** BigInt(-power)) : new Fraction(10n ** BigInt(power), 1n);
}
