// Intervals of exact numbers with open or closed ends, and what they share or leave out.

import type Fraction from 'fraction.js';

import { compareExactly } from './exact-order.js';

/** One end of an interval; a closed end belongs to it. */
export interface End {
    readonly value: Fraction;
    readonly closed: boolean;
}

/** A range of numbers. Without a low or a high end it goes on without limit on that side. */
export interface Interval {
    readonly low?: End;
    readonly high?: End;
}

/** Two of several intervals, by their places in the list, and the values that both hold. */
export interface Overlap {
    readonly first: number;
    readonly second: number;
    readonly shared: Interval;
}

/** All numbers. */
export const everything: Interval = {};

/** The same text for intervals that hold the same numbers. */
export function intervalKey({ low, high }: Interval): string {
    const keyOf = (end: End | undefined) =>
        end ? `${end.closed ? '=' : ''}${end.value.s * end.value.n}/${end.value.d}` : '';
    return `${keyOf(low)}..${keyOf(high)}`;
}

/** True when no number lies in the interval. */
export function isEmpty(interval: Interval): boolean {
    if (interval.low === undefined || interval.high === undefined) {
        return false;
    }
    const order = compareExactly(interval.low.value, interval.high.value);
    return order > 0 || (order === 0 && !(interval.low.closed && interval.high.closed));
}

/** True when exactly one number lies in the interval. */
export function isPoint(interval: Interval): boolean {
    return (
        interval.low !== undefined &&
        interval.high !== undefined &&
        !isEmpty(interval) &&
        compareExactly(interval.low.value, interval.high.value) === 0
    );
}

/** True when the number lies in the interval. */
export function contains(interval: Interval, value: Fraction): boolean {
    return reaches(interval.low, value, 1) && reaches(interval.high, value, -1);
}

/** True when every number of `inner` lies in `outer`; an empty interval lies in all. */
export function containsInterval(outer: Interval, inner: Interval): boolean {
    return isEmpty(inner) || (compareLow(outer.low, inner.low) <= 0 && compareHigh(outer.high, inner.high) >= 0);
}

/** The numbers that both intervals hold, or undefined where they share none. */
export function intersection(a: Interval, b: Interval): Interval | undefined {
    const low = compareLow(a.low, b.low) >= 0 ? a.low : b.low;
    const high = compareHigh(a.high, b.high) <= 0 ? a.high : b.high;
    const shared = makeInterval(low, high);
    return isEmpty(shared) ? undefined : shared;
}

/** Every pair of intervals that share a number, in the order of the list. */
export function overlaps(intervals: readonly Interval[]): readonly Overlap[] {
    const found: Overlap[] = [];
    intervals.forEach((a, first) => {
        intervals.slice(first + 1).forEach((b, offset) => {
            const shared = intersection(a, b);
            if (shared !== undefined) {
                found.push({ first, second: first + 1 + offset, shared });
            }
        });
    });
    return found;
}

/** The parts of `within` that none of the intervals holds, from low to high. */
export function gaps(intervals: readonly Interval[], within: Interval = everything): readonly Interval[] {
    if (isEmpty(within)) {
        return [];
    }
    const sorted = intervals.filter(interval => !isEmpty(interval)).sort((a, b) => compareLow(a.low, b.low));
    const found: Interval[] = [];
    let low = within.low;
    for (const interval of sorted) {
        const before =
            interval.low === undefined ? undefined : intersection(makeInterval(low, opposite(interval.low)), within);
        if (before !== undefined) {
            found.push(before);
        }
        if (interval.high === undefined) {
            return found;
        }
        const after = opposite(interval.high);
        low = compareLow(low, after) >= 0 ? low : after;
    }
    const rest = intersection(makeInterval(low, within.high), within);
    return rest === undefined ? found : [...found, rest];
}

/** The numbers strictly between two intervals that do not touch, or undefined where they touch or overlap. */
export function gapBetween(a: Interval, b: Interval): Interval | undefined {
    if (isEmpty(a) || isEmpty(b)) {
        return undefined;
    }
    const [first, second] = compareLow(a.low, b.low) <= 0 ? [a, b] : [b, a];
    if (first.high === undefined || second.low === undefined) {
        return undefined;
    }
    const between = { low: opposite(first.high), high: opposite(second.low) };
    return isEmpty(between) ? undefined : between;
}

function makeInterval(low: End | undefined, high: End | undefined): Interval {
    return { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
}

// The end of what lies on the other side: where one interval holds its end, its neighbor does not.
function opposite(end: End): End {
    return { value: end.value, closed: !end.closed };
}

function reaches(end: End | undefined, value: Fraction, side: 1 | -1): boolean {
    if (end === undefined) {
        return true;
    }
    const order = compareExactly(value, end.value) * side;
    return order > 0 || (order === 0 && end.closed);
}

// A closed low end begins earlier than an open one at the same number; no low end begins before all.
function compareLow(a: End | undefined, b: End | undefined): number {
    if (a === undefined || b === undefined) {
        return Number(a !== undefined) - Number(b !== undefined);
    }
    return compareExactly(a.value, b.value) || Number(b.closed) - Number(a.closed);
}

// A closed high end goes further than an open one at the same number; no high end goes further than all.
function compareHigh(a: End | undefined, b: End | undefined): number {
    if (a === undefined || b === undefined) {
        return Number(a === undefined) - Number(b === undefined);
    }
    return compareExactly(a.value, b.value) || Number(a.closed) - Number(b.closed);
}
