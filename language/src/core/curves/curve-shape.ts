// The laws that a curve can follow, as plain data.

import type Fraction from 'fraction.js';

import type { Interval } from '../quantities/intervals.js';

/**
 * What a curve follows. Every amount is in the coherent SI unit: ohms, kelvins, volts, amperes.
 * A temperature is absolute, in kelvins; only the constant of a metal is in degrees Celsius, as handbooks print it.
 */
export type CurveShape =
    /** A platinum sensor (IEC 60751): temperature to resistance. `atZero` is the resistance at 0 °C, in ohms. */
    | { readonly sort: 'platinum'; readonly atZero: number }
    /** A thermistor whose resistance falls as it gets warmer: temperature to resistance, R = R₁·exp(β·(1/T − 1/T₁)). */
    | { readonly sort: 'ntc'; readonly resistance: number; readonly temperature: number; readonly beta: number }
    /** The same by three constants: temperature to resistance, 1/T = a + b·ln R + c·(ln R)³, R in ohms and T in kelvins. */
    | { readonly sort: 'steinhart-hart'; readonly a: number; readonly b: number; readonly c: number }
    /** A thermocouple whose reference junction is at 0 °C (ITS-90): temperature to voltage. */
    | { readonly sort: 'thermocouple'; readonly type: ThermocoupleType }
    /** A winding: temperature to resistance, R = R₁·(k + t)/(k + t₁). `constant` is k in °C: 234.5 or 235 for copper, 225 for aluminum. */
    | {
          readonly sort: 'metal';
          readonly resistance: number;
          readonly temperature: number;
          readonly constant: number;
      }
    /** A current loop: the input that the current of 4 mA stands for, and that of 20 mA; the input to the current in amperes. */
    | { readonly sort: 'loop'; readonly low: Fraction; readonly high: Fraction }
    /** An author's table, and how it goes on between two rows. */
    | { readonly sort: 'table'; readonly rows: readonly CurveRow[]; readonly interpolation: Interpolation };

/** The thermocouples whose reference functions are known here, by their letters in IEC 60584-1. */
export type ThermocoupleType = 'E' | 'J' | 'K' | 'N' | 'T';

/** One row of a table, in coherent units. */
export interface CurveRow {
    readonly input: Fraction;
    readonly output: Fraction;
}

/** Between two rows: a straight line of the output, or a straight line of the logarithm of the output. */
export type Interpolation = 'linear' | 'logarithmic';

/** A law with the inputs that it is used for, and what follows from them. */
export interface Curve {
    readonly shape: CurveShape;
    /** The inputs that the curve gives a value for. */
    readonly domain: Interval;
    /** The outputs that it gives for them; the ends are rounded outward where they are not exact. */
    readonly range: Interval;
    /** Whether the output grows or falls strictly all the way; with `neither` no input can be read back from an output. */
    readonly course: Course;
}

export type Course = 'rising' | 'falling' | 'neither';

/** Why there is no such curve. Rows are counted from 0. */
export type CurveProblem =
    /** An amount that must be above zero is not. */
    | { readonly problem: 'not-positive'; readonly amount: PositiveAmount }
    /** With these three constants the resistance does not fall as the thermistor gets warmer. */
    | { readonly problem: 'not-falling' }
    /** The values that the curve would give are too large or too small for any calculation. */
    | { readonly problem: 'out-of-reach' }
    /** A loop that stands for the same input at 4 mA and at 20 mA. */
    | { readonly problem: 'same-ends' }
    /** A table of one row or none. */
    | { readonly problem: 'too-few-rows' }
    /** The input of this row is on the wrong side of the row before: the inputs go neither up nor down all the way. */
    | { readonly problem: 'row-order'; readonly row: number }
    /** The input of this row is that of the earlier row `first`. */
    | { readonly problem: 'repeated-input'; readonly row: number; readonly first: number }
    /** The output of this row is zero or less, and has no logarithm. */
    | { readonly problem: 'output-not-positive'; readonly row: number }
    /** None of the inputs asked for is one that this law holds for; `domain` says which it does. */
    | { readonly problem: 'nothing-within'; readonly domain: Interval };

/** The amounts of a shape that must be above zero; a `temperature` is in kelvins, a metal's is counted from its −k °C. */
export type PositiveAmount = 'resistance' | 'temperature' | 'beta';

/** What a curve gives for a stretch. */
export interface Image {
    /** Encloses every value; undefined where the curve gives none for any of the stretch. */
    readonly outputs: Interval | undefined;
    /** True when a part of the stretch lies outside the curve, where there is no value. */
    readonly beyond: boolean;
}
