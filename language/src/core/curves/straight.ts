// The laws that are straight lines: windings and current loops.

import Fraction from 'fraction.js';

import type { Interval } from '../quantities/intervals.js';
import { exactly, type Law } from './law.js';
import { celsiusInterval, zeroCelsius } from './polynomials.js';
import { fromNumber } from './rounding.js';

// Copper and aluminum follow a straight line over the temperatures of windings; these are wider (common practice, no source).
const coldestWinding = -100;
const hottestWinding = 500;

/** The current at the low end of the input, and at its high end: IEC 60381-1, from memory. */
const lowCurrent = new Fraction(4n, 1000n);
const highCurrent = new Fraction(20n, 1000n);

/** The currents that stand for a value: NAMUR NE 43, seen second-hand. Below and above a loop is at its limit, or says that it has failed. */
const leastCurrent = new Fraction(38n, 10_000n);
const mostCurrent = new Fraction(205n, 10_000n);

/**
 * The law of a winding, R = R₁·(k + t)/(k + t₁): absolute temperature to ohms. `resistance` is R₁ in ohms, above zero, at
 * `temperature` in kelvins, which is above -k °C; `constant` is k in °C.
 * IEC 60034-1 has k = 235 for copper, IEEE 112 has 234.5, both have 225 for aluminum; from memory.
 */
export function metalLaw(resistance: number, temperature: number, constant: number): Law {
    const nothing = zeroCelsius.sub(fromNumber(constant));
    const slope = fromNumber(resistance).div(fromNumber(temperature).sub(nothing));
    const { low, high } = celsiusInterval(coldestWinding, hottestWinding);
    const domain = { low: low.value.compare(nothing) > 0 ? low : { value: nothing, closed: false }, high };
    return straightLaw(domain, nothing, new Fraction(0n, 1n), slope);
}

/** The law of a loop that sends 4 mA for `low` and 20 mA for `high`: the input to amperes. The two must differ. */
export function loopLaw(low: Fraction, high: Fraction): Law {
    const slope = highCurrent.sub(lowCurrent).div(high.sub(low));
    const inputFor = (current: Fraction): Fraction => low.add(current.sub(lowCurrent).div(slope));
    const [first, last] = slope.s > 0n ? [leastCurrent, mostCurrent] : [mostCurrent, leastCurrent];
    const domain = {
        low: { value: inputFor(first), closed: true },
        high: { value: inputFor(last), closed: true },
    };
    return straightLaw(domain, low, lowCurrent, slope);
}

function straightLaw(domain: Interval, input: Fraction, output: Fraction, slope: Fraction): Law {
    return {
        domain,
        course: slope.s > 0n ? 'rising' : 'falling',
        corners: [],
        outputAt: given => exactly(output.add(given.sub(input).mul(slope))),
        inputAt: given => exactly(input.add(given.sub(output).div(slope))),
    };
}
