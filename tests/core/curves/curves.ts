/** Curves and values of the tests: text in, exact values out. */

import Fraction from 'fraction.js';
import { inputAt, isCurveProblem, makeCurve, valueAt } from '../../../language/src/core/curves/curve.js';
import type { Curve, CurveShape } from '../../../language/src/core/curves/curve-shape.js';
import { contains, type Interval } from '../../../language/src/core/quantities/intervals.js';
import { exact } from '../quantities/read.js';

const zeroCelsius = new Fraction(27315n, 100n);

/** The curve of a shape that has one. */
export function curveOf(shape: CurveShape, within?: Interval): Curve {
    const made = makeCurve(shape, within);
    if (isCurveProblem(made)) {
        throw new Error(`the test uses a curve that cannot be: ${made.problem}`);
    }
    return made;
}

/** A temperature in degrees Celsius as an absolute one. */
export function kelvins(celsius: number | string): Fraction {
    return exact(String(celsius)).add(zeroCelsius);
}

/** The stretch from one value to another, ends included. */
export function stretch(low: Fraction, high: Fraction): Interval {
    return { low: { value: low, closed: true }, high: { value: high, closed: true } };
}

/** A table of decimal texts. */
export function table(
    rows: readonly (readonly [string, string])[],
    interpolation: 'linear' | 'logarithmic',
): CurveShape {
    return {
        sort: 'table',
        rows: rows.map(([input, output]) => ({ input: exact(input), output: exact(output) })),
        interpolation,
    };
}

/** The output as it would be printed with so many decimals, in a unit that is so many coherent units; `none` outside the curve. */
export function printed(curve: Curve, input: Fraction, decimals: number, unit = '1'): string {
    const output = valueAt(curve, input);
    return output === undefined ? 'none' : fixed(output.div(exact(unit)), decimals);
}

/** The temperature for an output in degrees Celsius, as it would be printed. */
export function printedCelsius(curve: Curve, output: Fraction, decimals: number): string {
    const input = inputAt(curve, output);
    return input === undefined ? 'none' : fixed(input.sub(zeroCelsius), decimals);
}

function fixed(value: Fraction, decimals: number): string {
    const text = value.abs().round(decimals).valueOf().toFixed(decimals);
    return value.s < 0n && Number(text) !== 0 ? `-${text}` : text;
}

/** True when the interval is there and holds the value. */
export function holds(interval: Interval | undefined, value: Fraction | undefined): boolean {
    return interval !== undefined && value !== undefined && contains(interval, value);
}
