// The resistance of a platinum sensor.

import Fraction from 'fraction.js';

import { exactly, type Law, nearly } from './law.js';
import { celsiusInterval, inUnits, polynomialAt, searchCelsius, unitsInOne, zeroCelsius } from './polynomials.js';
import { fromNumber } from './rounding.js';

// IEC 60751, clause 4: R(t) = R₀(1 + At + Bt²) from 0 °C to 850 °C, and R(t) = R₀(1 + At + Bt² + C(t − 100 °C)t³) from -200 °C to 0 °C;
// A = 3.9083 × 10⁻³ °C⁻¹, B = -5.775 × 10⁻⁷ °C⁻², C = -4.183 × 10⁻¹² °C⁻⁴. Coefficients seen second-hand.
const coldest = -200;
const hottest = 850;
const a = 3.9083e-3;
const b = -5.775e-7;
const c = -4.183e-12;

const above = [1, a, b];
const below = [1, a, b, 4.183e-10, c];
const exactAbove = above.map(fromNumber);
const exactBelow = below.map(fromNumber);
const unitsAbove = above.map(inUnits);
const unitsBelow = below.map(inUnits);

/** The law of a sensor with this resistance at 0 °C. */
export function platinumLaw(atZero: number): Law {
    const resistanceAtZero = fromNumber(atZero);
    return {
        domain: celsiusInterval(coldest, hottest),
        course: 'rising',
        corners: [],
        outputAt: temperature => exactly(resistanceAtZero.mul(exactRatio(temperature.sub(zeroCelsius)))),
        inputAt: resistance => {
            const ratio = resistance.div(resistanceAtZero);
            const wanted = (ratio.s * ratio.n * unitsInOne) / ratio.d;
            const celsius = searchCelsius(coldest, hottest, tried => ratioInUnits(tried) >= wanted);
            return nearly(celsius.add(zeroCelsius));
        },
    };
}

function exactRatio(celsius: Fraction): Fraction {
    const coefficients = celsius.s < 0n ? exactBelow : exactAbove;
    return coefficients.reduceRight((sum, coefficient) => sum.mul(celsius).add(coefficient), new Fraction(0n, 1n));
}

function ratioInUnits(celsius: Fraction): bigint {
    return polynomialAt(celsius.s < 0n ? unitsBelow : unitsAbove, celsius);
}
