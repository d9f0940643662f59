// Between exact fractions and binary floating point numbers, and rounding to the digits that are kept.

import Fraction from 'fraction.js';

import { roundFraction } from '../quantities/decimal.js';
import type { Computed } from './law.js';

/** Which way a value goes that has more digits than are kept. */
export type Rounding = 'nearest' | 'down' | 'up';

/** How many significant digits are kept of what was not computed exactly. */
export const keptDigits = 12;

/** The largest power of ten, up or down, that an amount or a result of a curve may have. */
export const largestPower = 99;

// A binary number is right to nearly 16 digits. What lies closer than this share of the last kept place to a value of 12 digits is
// that value, and only noise holds it off; rounding it outward would show 9999.99999999 for 10000.
const noise = 50n;

/** The number nearest to the fraction, however many digits it has. */
export function toNumber(value: Fraction): number {
    return Number(roundFraction(value, 17).text);
}

/** The fraction with the shortest decimals that stand for this number, as 0.1 stands for one tenth. The number must be finite. */
export function fromNumber(value: number): Fraction {
    const [digits = '0', power = '0'] = value.toExponential().split('e');
    const [whole = '0', decimals = ''] = digits.split('.');
    return timesPowerOfTen(BigInt(whole + decimals), Number(power) - decimals.length);
}

/** True for a number that is neither too large nor too small to compute with. */
export function withinReach(value: number): boolean {
    const size = Math.abs(value);
    return size === 0 || (size >= 10 ** -largestPower && size <= 10 ** largestPower);
}

/** The value as it is given out: as it is where it is exact, else with 12 significant digits. */
export function rounded({ value, exact, finest }: Computed, rounding: Rounding): Fraction {
    if (exact || value.n === 0n) {
        return value;
    }
    const place = Math.max(powerOfFirstDigit(value) - keptDigits + 1, finest ?? Number.NEGATIVE_INFINITY);
    const numerator = value.s * value.n * (place < 0 ? 10n ** BigInt(-place) : 1n);
    const denominator = value.d * (place > 0 ? 10n ** BigInt(place) : 1n);
    return timesPowerOfTen(wholeNumber(numerator, denominator, rounding), place);
}

function wholeNumber(numerator: bigint, denominator: bigint, rounding: Rounding): bigint {
    const truncated = numerator / denominator;
    const below = numerator < truncated * denominator ? truncated - 1n : truncated;
    const rest = numerator - below * denominator;
    switch (rounding) {
        case 'nearest':
            return 2n * rest >= denominator ? below + 1n : below;
        case 'down':
            return noise * rest >= (noise - 1n) * denominator ? below + 1n : below;
        case 'up':
            return noise * rest <= denominator ? below : below + 1n;
    }
}

/** The power of ten of the first digit: 2 for 375, −1 for 0.2. The value must not be zero. */
export function powerOfFirstDigit(value: Fraction): number {
    const power = value.n.toString().length - value.d.toString().length;
    const smaller = power < 0 ? value.n * 10n ** BigInt(-power) < value.d : value.n < value.d * 10n ** BigInt(power);
    return smaller ? power - 1 : power;
}

function timesPowerOfTen(whole: bigint, power: number): Fraction {
    return power < 0 ? new Fraction(whole, 10n ** BigInt(-power)) : new Fraction(whole * 10n ** BigInt(power), 1n);
}
