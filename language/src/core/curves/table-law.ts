// The law of an author's table.

import type Fraction from 'fraction.js';

import type { Interval } from '../quantities/intervals.js';
import type { CurveProblem, CurveRow, Interpolation } from './curve-shape.js';
import { type Computed, exactly, type Law, nearly } from './law.js';
import { fromNumber, keptDigits, powerOfFirstDigit, toNumber } from './rounding.js';

// Where an input passes through zero, its last places are noise of the larger inputs beside it.
const digitsOfLargest = keptDigits + 2;

/** What is wrong with the rows of a table, in the order in which they are written; undefined where nothing is. */
export function tableProblem(rows: readonly CurveRow[], interpolation: Interpolation): CurveProblem | undefined {
    if (rows.length < 2) {
        return { problem: 'too-few-rows' };
    }
    const firstWith = new Map<string, number>();
    const course = Math.sign(inputOf(rows, 1).compare(inputOf(rows, 0)));
    for (const [row, { input, output }] of rows.entries()) {
        const first = firstWith.get(input.toFraction());
        if (first !== undefined) {
            return { problem: 'repeated-input', row, first };
        }
        firstWith.set(input.toFraction(), row);
        if (row > 0 && Math.sign(input.compare(inputOf(rows, row - 1))) !== course) {
            return { problem: 'row-order', row };
        }
        if (interpolation === 'logarithmic' && output.compare(0) <= 0) {
            return { problem: 'output-not-positive', row };
        }
    }
    return undefined;
}

function inputOf(rows: readonly CurveRow[], row: number): Fraction {
    return (rows[row] as CurveRow).input;
}

/** The law of a table without problems. */
export function tableLaw(written: readonly CurveRow[], interpolation: Interpolation): Law {
    const rows = inputOf(written, 0).compare(inputOf(written, 1)) < 0 ? written : [...written].reverse();
    const first = inputOf(rows, 0);
    const last = inputOf(rows, rows.length - 1);
    const finest = finestPlace(first, last);
    const between = interpolation === 'linear' ? linear : logarithmic(finest);
    return {
        domain: { low: { value: first, closed: true }, high: { value: last, closed: true } },
        course: undefined,
        corners: rows.map(({ input }) => input),
        outputAt: input => {
            const at = rowBefore(rows, input);
            return between.output(rows[at] as CurveRow, rows[at + 1] as CurveRow, input);
        },
        inputAt: (output, within) => inputWithin(rows, output, within, between),
    };
}

interface Between {
    readonly output: (low: CurveRow, high: CurveRow, input: Fraction) => Computed;
    readonly input: (low: CurveRow, high: CurveRow, output: Fraction) => Computed;
}

const linear: Between = {
    output: (low, high, input) => exactly(low.output.add(high.output.sub(low.output).mul(shareOf(low, high, input)))),
    input: (low, high, output) => {
        const share = output.sub(low.output).div(high.output.sub(low.output));
        return exactly(low.input.add(high.input.sub(low.input).mul(share)));
    },
};

function logarithmic(finest: number): Between {
    return {
        output: (low, high, input) => {
            const share = toNumber(shareOf(low, high, input));
            return nearly(low.output.mul(fromNumber(Math.exp(share * logarithmOfRatio(low.output, high.output)))));
        },
        input: (low, high, output) => {
            const share = logarithmOfRatio(low.output, output) / logarithmOfRatio(low.output, high.output);
            return nearly(low.input.add(high.input.sub(low.input).mul(fromNumber(share))), finest);
        },
    };
}

function shareOf(low: CurveRow, high: CurveRow, input: Fraction): Fraction {
    return input.sub(low.input).div(high.input.sub(low.input));
}

/** ln(to/from), to all digits also where the two are nearly the same. */
function logarithmOfRatio(from: Fraction, to: Fraction): number {
    return Math.log1p(toNumber(to.sub(from).div(from)));
}

// The last row at or before the input, but never the last of all.
function rowBefore(rows: readonly CurveRow[], input: Fraction): number {
    let low = 0;
    let high = rows.length - 1;
    while (high - low > 1) {
        const middle = Math.floor((low + high) / 2);
        if (inputOf(rows, middle).compare(input) <= 0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

// Where the table turns outside `within`, other rows may give the output too; so only what lies within is searched.
function inputWithin(rows: readonly CurveRow[], output: Fraction, within: Interval, between: Between): Computed {
    const stretch = pairsWithin(rows, within);
    const rising = stretch.every(([low, high]) => low.output.compare(high.output) < 0);
    const pair =
        stretch.find(([, high]) => (rising ? output.compare(high.output) <= 0 : output.compare(high.output) >= 0)) ??
        stretch.at(-1);
    return between.input(...(pair as Pair), output);
}

type Pair = readonly [CurveRow, CurveRow];

// Neighboring rows with inputs of the interval between them.
function pairsWithin(rows: readonly CurveRow[], { low, high }: Interval): readonly Pair[] {
    const first = low === undefined ? 0 : rowBefore(rows, low.value);
    const last = high === undefined ? -1 : rows.findIndex(({ input }) => input.compare(high.value) >= 0);
    const inside = rows.slice(first, last < 0 ? rows.length : last + 1);
    return inside.slice(1).map((row, at) => [inside[at] as CurveRow, row]);
}

function finestPlace(first: Fraction, last: Fraction): number {
    return powerOfFirstDigit(first.abs().compare(last.abs()) > 0 ? first : last) - digitsOfLargest + 1;
}
