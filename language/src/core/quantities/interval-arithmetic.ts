// Sums, differences, products and quotients of intervals: all that can come out where each of the two values may lie anywhere in its own.
//
// The results are the smallest intervals that hold all of it (R. E. Moore, Interval Analysis, 1966; from memory). Where the two values hang
// on each other less may come out.

import Fraction from 'fraction.js';

import { type End, type Interval, intersection } from './intervals.js';

/** A number or the infinite on one side; an infinite end is never closed. */
interface Reach {
    readonly value: Fraction | 'below' | 'above';
    readonly closed: boolean;
}

const zero = new Fraction(0n);
const one = new Fraction(1n);

/** What the sum of two values can be. */
export function sumOfIntervals(left: Interval, right: Interval): Interval {
    return made(added(left.low, right.low), added(left.high, right.high));
}

/** The interval with every sign turned. */
export function negated({ low, high }: Interval): Interval {
    return made(high && { ...high, value: high.value.neg() }, low && { ...low, value: low.value.neg() });
}

/** What the difference of two values can be. */
export function differenceOfIntervals(left: Interval, right: Interval): Interval {
    return sumOfIntervals(left, negated(right));
}

/** What the product of two values can be. */
export function productOfIntervals(left: Interval, right: Interval): Interval {
    const corners = reachesOf(left).flatMap(a => reachesOf(right).map(b => timesReach(a, b)));
    return hullOf(corners);
}

/** What a quotient can be. */
export interface Quotient {
    /** Undefined where the divisor is always zero. */
    readonly interval: Interval | undefined;
    /** True where the divisor can be zero: there is no value then. */
    readonly mayLackValue: boolean;
    /** False where only a part of the interval can come out, because the divisor lies on both sides of zero. */
    readonly isTight: boolean;
}

/** What the quotient of two values can be. */
export function quotientOfIntervals(left: Interval, right: Interval): Quotient {
    const mayLackValue = intersection(right, { low: closed(zero), high: closed(zero) }) !== undefined;
    const parts = [reciprocal(right, 'below'), reciprocal(right, 'above')].filter(part => part !== undefined);
    const quotients = parts.map(part => productOfIntervals(left, part));
    const [first, second] = quotients;
    if (!first || !second) return { interval: first, mayLackValue, isTight: true };
    const interval = hullOf([...reachesOf(first), ...reachesOf(second)]);
    return { interval, mayLackValue, isTight: intersection(first, second) !== undefined };
}

/** The smallest interval that holds them all; undefined for none. */
export function hullOfIntervals(intervals: readonly Interval[]): Interval | undefined {
    return intervals.length === 0 ? undefined : hullOf(intervals.flatMap(reachesOf));
}

/** One divided by what of the interval lies on one side of zero; undefined where nothing does. */
function reciprocal(interval: Interval, side: 'below' | 'above'): Interval | undefined {
    const half = side === 'above' ? { low: open(zero) } : { high: open(zero) };
    const part = intersection(interval, half);
    if (!part) return undefined;
    const turned = (end: End | undefined) =>
        end && end.value.n !== 0n ? { value: one.div(end.value), closed: end.closed } : undefined;
    const [low, high] = [turned(part.high), turned(part.low)];
    // What goes on without end comes near to zero, and what comes near to zero goes on without end.
    return side === 'above' ? made(low ?? open(zero), high) : made(low, high ?? open(zero));
}

function added(left: End | undefined, right: End | undefined): End | undefined {
    return left && right && { value: left.value.add(right.value), closed: left.closed && right.closed };
}

function reachesOf({ low, high }: Interval): readonly [Reach, Reach] {
    return [low ?? { value: 'below', closed: false }, high ?? { value: 'above', closed: false }];
}

function timesReach(a: Reach, b: Reach): Reach {
    const [signA, signB] = [signOf(a), signOf(b)];
    // Zero times whatever the other is, is zero; it comes out where zero itself can.
    if (signA === 0 || signB === 0) {
        const isAttained = (signA === 0 && a.closed) || (signB === 0 && b.closed);
        return { value: zero, closed: isAttained };
    }
    if (typeof a.value === 'string' || typeof b.value === 'string') {
        return { value: signA === signB ? 'above' : 'below', closed: false };
    }
    return { value: a.value.mul(b.value), closed: a.closed && b.closed };
}

function signOf({ value }: Reach): number {
    if (typeof value === 'string') return value === 'below' ? -1 : 1;
    return value.compare(0);
}

function hullOf(reaches: readonly Reach[]): Interval {
    return made(furthest(reaches, 'below'), furthest(reaches, 'above'));
}

function furthest(reaches: readonly Reach[], side: 'below' | 'above'): End | undefined {
    const sign = side === 'below' ? -1 : 1;
    let far: End | undefined;
    for (const { value, closed: isClosed } of reaches) {
        if (value === side) return undefined;
        if (typeof value === 'string') continue;
        const order = far ? value.compare(far.value) * sign : 1;
        if (order > 0 || (order === 0 && isClosed)) far = { value, closed: isClosed };
    }
    return far;
}

function made(low: End | undefined, high: End | undefined): Interval {
    return { ...(low ? { low } : {}), ...(high ? { high } : {}) };
}

function closed(value: Fraction): End {
    return { value, closed: true };
}

function open(value: Fraction): End {
    return { value, closed: false };
}
