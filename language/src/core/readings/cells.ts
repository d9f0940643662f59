// The elementary cells between the ends of bands: each end by itself, and what lies between two. No band begins or ends inside one.
//
// The ends are put in order once, exactly. From then on a cell is a number: 2k + 1 is the end k by itself, 2k is what lies below it, and the
// last one lies above all ends. A band is the first and the last cell that it holds, so whether it holds a value, and what lies beside it,
// are comparisons of small whole numbers.

import type Fraction from 'fraction.js';

import { compareNear, nearestFloat } from '../quantities/exact-order.js';
import type { End, Interval } from '../quantities/intervals.js';

/** The cells that the ends of intervals divide all numbers into, numbered from low to high. */
export interface Cells {
    /** The ends, each once, from low to high. */
    readonly ends: readonly Fraction[];
    /** Where each of the intervals lies, in the order in which they were given. */
    readonly places: readonly CellPlace[];
}

/** The first and the last cell of an interval that is not empty. */
export interface CellPlace {
    readonly first: number;
    readonly last: number;
}

interface Mark {
    readonly value: Fraction;
    readonly near: number;
    /** Which of the distinct ends it is, from low to high. */
    rank: number;
}

/** The cells between the ends of these intervals, of which none may be empty. */
export function cellsBetween(intervals: readonly Interval[]): Cells {
    const marks: Mark[] = [];
    const markOf = (end: Interval['low']): Mark | undefined => {
        if (!end) return undefined;
        const mark = { value: end.value, near: nearestFloat(end.value), rank: 0 };
        marks.push(mark);
        return mark;
    };
    const marked = intervals.map(({ low, high }) => ({ low: markOf(low), high: markOf(high) }));
    const ends = rank(marks);
    const places = intervals.map(({ low, high }, index): CellPlace => {
        const marksHere = marked[index];
        const [lowRank = 0, highRank = 0] = [marksHere?.low?.rank, marksHere?.high?.rank];
        return {
            first: low ? 2 * lowRank + (low.closed ? 1 : 2) : 0,
            last: high ? 2 * highRank + (high.closed ? 1 : 0) : 2 * ends.length,
        };
    });
    return { ends, places };
}

function rank(marks: readonly Mark[]): Fraction[] {
    const order = (one: Mark, other: Mark) => compareNear(one.value, one.near, other.value, other.near);
    const ends: Fraction[] = [];
    let before: Mark | undefined;
    for (const mark of [...marks].sort(order)) {
        if (!before || order(before, mark) !== 0) ends.push(mark.value);
        mark.rank = ends.length - 1;
        before = mark;
    }
    return ends;
}

/** The last cell, which lies above all ends. */
export function lastCell({ ends }: Pick<Cells, 'ends'>): number {
    return 2 * ends.length;
}

/** Whether a cell is a single value. */
function isSingle(cell: number): boolean {
    return cell % 2 === 1;
}

/** Whether an interval holds a cell. */
export function holdsCell({ first, last }: CellPlace, cell: number): boolean {
    return first <= cell && cell <= last;
}

/** All that lies from one cell to another. */
export function stretchOf({ ends }: Pick<Cells, 'ends'>, first: number, last = first): Interval {
    const low = endAt(ends[(first - 1) >> 1], isSingle(first));
    const high = endAt(ends[last >> 1], isSingle(last));
    return { ...(low ? { low } : {}), ...(high ? { high } : {}) };
}

function endAt(value: Fraction | undefined, closed: boolean): End | undefined {
    return value && { value, closed };
}
