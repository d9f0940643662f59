// The resistance of a thermistor that falls as it gets warmer, by one constant or by three.

import { type Interval, intersection } from '../quantities/intervals.js';
import { type Law, nearly } from './law.js';
import { celsiusInterval } from './polynomials.js';
import { fromNumber, toNumber, withinReach } from './rounding.js';

// Colder or hotter than this no thermistor is used (common practice, no source). What a sensor is really good for is much less;
// its maker says it, and the author writes it behind `within`.
const coldest = -200;
const hottest = 1000;

const widest = celsiusInterval(coldest, hottest);

/**
 * The law R = R₁·exp(β·(1/T − 1/T₁)), with R₁ in ohms at T₁ in kelvins and β in kelvins, all above zero;
 * undefined where the resistances are too large or too small to compute with.
 */
export function betaLaw(resistance: number, temperature: number, beta: number): Law | undefined {
    return thermistorLaw(
        widest,
        kelvins => resistance * Math.exp(beta * (1 / kelvins - 1 / temperature)),
        ohms => 1 / (1 / temperature + Math.log(ohms / resistance) / beta),
    );
}

/**
 * The law 1/T = a + b·ln R + c·(ln R)³, R in ohms and T in kelvins, where the resistance falls as the temperature rises.
 * (J. S. Steinhart and S. R. Hart, Deep-Sea Research 15, 1968, 497; from memory.)
 */
export function steinhartHartLaw(a: number, b: number, c: number): Law | 'not-falling' | 'out-of-reach' {
    const largest = largestLogarithm(b, c);
    const rise = (logarithm: number): number => b * logarithm + c * logarithm ** 3;
    const highestRise = Number.isFinite(largest) ? rise(largest) : Number.POSITIVE_INFINITY;
    const domain = b >= 0 && (b > 0 || c > 0) ? fallingPart(a, highestRise) : undefined;
    if (domain === undefined) {
        return 'not-falling';
    }
    const law = thermistorLaw(
        domain,
        kelvins => Math.exp(solveRising(rise, 1 / kelvins - a, largest)),
        ohms => 1 / (a + rise(Math.log(ohms))),
    );
    return law ?? 'out-of-reach';
}

function thermistorLaw(
    domain: Interval,
    ohms: (kelvins: number) => number,
    kelvins: (ohms: number) => number,
): Law | undefined {
    const ends = [domain.low, domain.high].map(end => (end === undefined ? Number.NaN : ohms(toNumber(end.value))));
    return ends.every(end => end > 0 && withinReach(end))
        ? {
              domain,
              course: 'falling',
              corners: [],
              outputAt: input => nearly(fromNumber(ohms(toNumber(input)))),
              inputAt: output => nearly(fromNumber(kelvins(toNumber(output)))),
          }
        : undefined;
}

// With a negative c the curve turns back at some large resistance. Near there a small change of temperature is a large one of
// resistance, and binary numbers do not hold enough digits; so it is followed only so far.
function largestLogarithm(b: number, c: number): number {
    return c < 0 ? 0.95 * Math.sqrt(b / (-3 * c)) : Number.POSITIVE_INFINITY;
}

// The temperatures with 1/T from a − rise to a + rise.
function fallingPart(a: number, rise: number): Interval | undefined {
    if (!(a + rise > 0)) {
        return undefined;
    }
    const low = { value: fromNumber(1 / (a + rise)), closed: true };
    return intersection(
        widest,
        a > rise ? { low, high: { value: fromNumber(1 / (a - rise)), closed: true } } : { low },
    );
}

/** The number between −`largest` and `largest` from which on the rising function reaches `wanted`, as near as binary numbers go. */
function solveRising(rising: (x: number) => number, wanted: number, largest: number): number {
    let size = Math.min(1, largest);
    while (size < largest && (rising(size) < wanted || rising(-size) > wanted)) {
        size = Math.min(2 * size, largest);
    }
    let low = -size;
    let high = size;
    for (let middle = 0; low < middle && middle < high; middle = low + (high - low) / 2) {
        if (rising(middle) < wanted) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}
