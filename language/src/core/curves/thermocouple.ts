// The voltage of a thermocouple whose reference junction is at 0 °C.
//
// With a reference junction at another temperature, add the voltage for that temperature to the voltage that is measured, and look up
// the sum: temperatures must not be added. (NIST Monograph 175, from memory.)

import Fraction from 'fraction.js';

import type { ThermocoupleType } from './curve-shape.js';
import { type Law, nearly } from './law.js';
import { celsiusInterval, inUnits, polynomialAt, searchCelsius, unitsInOne, zeroCelsius } from './polynomials.js';
import { toNumber } from './rounding.js';
import { referenceFunctions, type ReferencePiece } from './thermocouple-functions.js';

// Of a voltage nothing below one femtovolt is told; the two stretches of type K meet to within 2 picovolts only.
const finestVoltage = -15;
const millivoltsInVolt = 1000n;
// The part with the exponential is taken from a binary number with this many units in one.
const binaryUnits = 1e18;

interface Stretch {
    readonly coefficients: readonly bigint[];
    readonly bump: ReferencePiece['bump'];
}

/** The law of a thermocouple of this type: absolute temperature to volts. */
export function thermocoupleLaw(type: ThermocoupleType): Law {
    const [cold, warm] = referenceFunctions[type];
    const stretches = [stretchOf(cold), stretchOf(warm)] as const;
    // Where the stretches meet the lower one counts: that of type K gives exactly nothing at 0 °C.
    const millivolts = (celsius: Fraction): bigint =>
        millivoltsAt(celsius.compare(cold.to) <= 0 ? stretches[0] : stretches[1], celsius);
    return {
        domain: celsiusInterval(cold.from, warm.to),
        course: 'rising',
        corners: [],
        outputAt: temperature => {
            const units = millivolts(temperature.sub(zeroCelsius));
            return nearly(new Fraction(units, unitsInOne * millivoltsInVolt), finestVoltage);
        },
        inputAt: voltage => {
            const wanted = (voltage.s * voltage.n * millivoltsInVolt * unitsInOne) / voltage.d;
            const celsius = searchCelsius(cold.from, warm.to, tried => millivolts(tried) >= wanted);
            return nearly(celsius.add(zeroCelsius));
        },
    };
}

function stretchOf({ coefficients, bump }: ReferencePiece): Stretch {
    return { coefficients: coefficients.map(inUnits), bump };
}

function millivoltsAt({ coefficients, bump }: Stretch, celsius: Fraction): bigint {
    const sum = polynomialAt(coefficients, celsius);
    if (bump === undefined) {
        return sum;
    }
    const added = bump.height * Math.exp(bump.rate * (toNumber(celsius) - bump.center) ** 2);
    return sum + BigInt(Math.round(added * binaryUnits)) * (unitsInOne / BigInt(binaryUnits));
}
