// What every law of a curve can be asked.

import type Fraction from 'fraction.js';

import type { Interval } from '../quantities/intervals.js';

/** A value that a law gives, before it is rounded. */
export interface Computed {
    readonly value: Fraction;
    /** False where it was computed with logarithms, powers or a search, and must be rounded before anybody sees it. */
    readonly exact: boolean;
    /** The power of ten of the last place that means anything, for values near zero; 12 significant digits count in any case. */
    readonly finest?: number;
}

/** One quantity from another, in coherent units. */
export interface Law {
    /** The inputs that the law holds for. */
    readonly domain: Interval;
    /** Whether the output grows or falls with the input; undefined for a table, whose rows say it. */
    readonly course: 'rising' | 'falling' | undefined;
    /** The output for an input in the domain. */
    readonly outputAt: (input: Fraction) => Computed;
    /** The input in this part of the domain, over which the law rises or falls strictly, that comes nearest to giving the output. */
    readonly inputAt: (output: Fraction, within: Interval) => Computed;
    /** The inputs at which the course can turn, in rising order. */
    readonly corners: readonly Fraction[];
}

/** A value that needs no rounding. */
export function exactly(value: Fraction): Computed {
    return { value, exact: true };
}

/** A value that is right to more than 12 significant digits. */
export function nearly(value: Fraction, finest?: number): Computed {
    return finest === undefined ? { value, exact: false } : { value, exact: false, finest };
}
