// Polynomials of a temperature in degrees Celsius, to far more digits than a binary number holds.
//
// The polynomials of thermocouples near -270 °C take numbers from each other that are ten thousand times as large as the result;
// in binary numbers this leaves noise in the twelfth digit.

import Fraction from 'fraction.js';

import { fromNumber } from './rounding.js';

/** The polynomials below count in units of 10⁻⁶⁰. */
export const unitsInOne = 10n ** 60n;

/** 0 °C in kelvins: SI brochure (9th edition), 2.3.1, from memory. */
export const zeroCelsius = new Fraction(27315n, 100n);

// A search ends at this many steps in one kelvin.
const stepsInKelvin = 10n ** 12n;

/** The number in units of 10⁻⁶⁰. */
export function inUnits(value: number): bigint {
    const { s, n, d } = fromNumber(value);
    return (s * n * unitsInOne) / d;
}

/** The value of the polynomial c₀ + c₁t + c₂t² + …, its coefficients and the result in units of 10⁻⁶⁰. */
export function polynomialAt(coefficients: readonly bigint[], celsius: Fraction): bigint {
    const numerator = celsius.s * celsius.n;
    return coefficients.reduceRight((sum, coefficient) => (sum * numerator) / celsius.d + coefficient, 0n);
}

/**
 * The lowest temperature from `low` to `high`, in degrees Celsius and to 10⁻¹² K, from which on `reached` is true;
 * `high` where it is true nowhere before. Both ends are whole numbers.
 */
export function searchCelsius(low: number, high: number, reached: (celsius: Fraction) => boolean): Fraction {
    let before = BigInt(low) * stepsInKelvin;
    let after = BigInt(high) * stepsInKelvin;
    if (reached(new Fraction(before, stepsInKelvin))) {
        return new Fraction(before, stepsInKelvin);
    }
    while (after - before > 1n) {
        const middle = (before + after) / 2n;
        if (reached(new Fraction(middle, stepsInKelvin))) {
            after = middle;
        } else {
            before = middle;
        }
    }
    return new Fraction(after, stepsInKelvin);
}

/** The temperatures from one to another, both in whole degrees Celsius, as an interval in kelvins. */
export function celsiusInterval(low: number, high: number) {
    return {
        low: { value: zeroCelsius.add(low), closed: true },
        high: { value: zeroCelsius.add(high), closed: true },
    };
}
