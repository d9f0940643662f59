// The mean, the largest, the smallest, the deviation and the unbalance of values that may lie anywhere in their intervals.
//
// All of them are the smallest intervals that hold what can come out, if the ends belong to them; the proof for the last two is beside
// them. Only the unbalance of values that may be below zero is an enclosure that may be too wide.

import Fraction from 'fraction.js';

import { productOfIntervals, quotientOfIntervals, sumOfIntervals } from '../quantities/interval-arithmetic.js';
import type { End, Interval } from '../quantities/intervals.js';

const zero = new Fraction(0n);
const one = new Fraction(1n);

/** The mean of values. */
export function meanOf(values: readonly Interval[]): Interval {
    const sum = values.reduce(sumOfIntervals, point(zero));
    return productOfIntervals(sum, point(one.div(Math.max(values.length, 1))));
}

/** The largest of values. */
export function largestOf(values: readonly Interval[]): Interval {
    return made(extreme(values, 'low', 'largest'), extreme(values, 'high', 'largest'));
}

/** The smallest of values. */
export function smallestOf(values: readonly Interval[]): Interval {
    return made(extreme(values, 'low', 'smallest'), extreme(values, 'high', 'smallest'));
}

/**
 * The largest distance of a value from the mean of all.
 *
 * Largest: for one value the distance above the mean is x(1 − 1/n) less the others' share, so it is largest with x at its high end and the
 * others at their low ends; below the mean the other way round.
 * Smallest: zero where all values can be alike. Else the highest low end L lies above the lowest high end U; the value that must be L at
 * least and the one that must be U at most stand there, the others between them, and the mean as near to the middle as they let it come.
 */
export function deviationOf(values: readonly Interval[]): Interval {
    if (values.length < 2) return point(zero);
    const isUnbounded = values.some(({ low, high }) => !low || !high);
    const high = isUnbounded ? undefined : furthestFromMean(values);
    const between = apart(values);
    if (!between) return made(closed(zero), high && closed(high));
    const { lower, upper, mean } = between;
    return made(closed(larger(upper.sub(mean), mean.sub(lower))), high && closed(high));
}

/**
 * The deviation as a share of the mean's size. For values that are never below zero it is what can come out, by the same reasoning as for
 * the deviation: with the others as they are, the share of the highest value grows with it. Else it is an enclosure.
 */
export function unbalanceOf(values: readonly Interval[]): {
    readonly interval: Interval | undefined;
    readonly isTight: boolean;
} {
    if (values.length < 2) return { interval: point(zero), isTight: true };
    if (values.some(({ low }) => !low || low.value.compare(0) < 0)) {
        const { interval } = quotientOfIntervals(deviationOf(values), sizeOf(meanOf(values)));
        return { interval, isTight: false };
    }
    const between = apart(values);
    const low = between
        ? larger(between.upper.div(between.mean).sub(1n), one.sub(between.lower.div(between.mean)))
        : zero;
    return { interval: made(closed(low), largestShare(values)), isTight: true };
}

/** How large a value is without its sign. */
function sizeOf({ low, high }: Interval): Interval {
    const turned = {
        ...(high ? { low: { ...high, value: high.value.neg() } } : {}),
        ...(low ? { high: { ...low, value: low.value.neg() } } : {}),
    };
    if (low && low.value.compare(0) >= 0) return made(low, high);
    if (high && high.value.compare(0) <= 0) return turned;
    const far = low && high ? { value: larger(low.value.neg(), high.value), closed: true } : undefined;
    return made(closed(zero), far);
}

function furthestFromMean(values: readonly Interval[]): Fraction {
    const [lows, highs] = [endsOf(values, 'low'), endsOf(values, 'high')];
    const count = values.length;
    const distances = values.flatMap((_, index) => {
        const above = distance(highs, lows, index, count);
        const below = distance(lows, highs, index, count);
        return [above, below.neg()];
    });
    return distances.reduce(larger, zero);
}

/** How far one value lies above the mean with all others at these ends. */
function distance(own: readonly Fraction[], others: readonly Fraction[], index: number, count: number): Fraction {
    const value = own[index] ?? zero;
    return value.sub(sumWith(own, others, index).div(count));
}

function sumWith(own: readonly Fraction[], others: readonly Fraction[], index: number): Fraction {
    return others.reduce((sum, other, at) => sum.add(at === index ? (own[index] ?? zero) : other), zero);
}

function endsOf(values: readonly Interval[], side: 'low' | 'high'): readonly Fraction[] {
    return values.map(value => value[side]?.value ?? zero);
}

interface Apart {
    readonly lower: Fraction;
    readonly upper: Fraction;
    /** The mean that lies nearest to the middle of the two. */
    readonly mean: Fraction;
}

/** The two values that can come no nearer to each other; undefined where all values can be alike. */
function apart(values: readonly Interval[]): Apart | undefined {
    const upper = extreme(
        values.filter(({ low }) => low),
        'low',
        'largest',
    )?.value;
    const lower = extreme(
        values.filter(({ high }) => high),
        'high',
        'smallest',
    )?.value;
    if (!upper || !lower || upper.compare(lower) <= 0) return undefined;
    const highest = values.findIndex(({ low }) => low?.value.equals(upper));
    const lowest = values.findIndex(({ high }) => high?.value.equals(lower));
    const others = values.filter((_, index) => index !== highest && index !== lowest);
    const least = others.reduce((sum, { low }) => sum.add(low ? larger(low.value, lower) : lower), upper.add(lower));
    const most = others.reduce((sum, { high }) => sum.add(high ? smaller(high.value, upper) : upper), upper.add(lower));
    const middle = upper.add(lower).div(2n);
    const mean = smaller(larger(middle, least.div(values.length)), most.div(values.length));
    return { lower, upper, mean };
}

/** The largest share of the mean by which a value can lie from it; of values that are never below zero. */
function largestShare(values: readonly Interval[]): End | undefined {
    const count = new Fraction(values.length);
    const [lows, highs] = [endsOf(values, 'low'), endsOf(values, 'high')];
    const shares = values.flatMap(({ high }, index): End[] => {
        const sum = sumWith(highs, lows, index);
        const above = high
            ? sum.n === 0n
                ? []
                : [closed((highs[index] ?? zero).mul(count).div(sum).sub(1n))]
            : [{ value: count.sub(1n), closed: false }];
        const isEndless = values.some(({ high: end }, at) => at !== index && !end);
        const whole = sumWith(lows, highs, index);
        const own = (lows[index] ?? zero).mul(count);
        const below = isEndless
            ? [{ value: one, closed: own.n === 0n }]
            : whole.n === 0n
              ? []
              : [closed(one.sub(own.div(whole)))];
        return [...above, ...below];
    });
    return shares.reduce<End | undefined>((most, share) => {
        const order = most ? share.value.compare(most.value) : 1;
        return order > 0 || (order === 0 && share.closed) ? share : most;
    }, undefined);
}

/** The largest or the smallest of the ends on one side; undefined where one without an end goes further. */
function extreme(values: readonly Interval[], side: 'low' | 'high', which: 'largest' | 'smallest'): End | undefined {
    const ends = values.map(value => value[side]);
    // Without an end the low side is below all others, and the high side above all.
    const endless = side === 'low' ? 'smallest' : 'largest';
    if (which === endless && ends.some(end => !end)) return undefined;
    const sign = which === 'largest' ? 1 : -1;
    // Of several values that end alike, the largest can be as low as that only where each can; as high as that, where one can.
    const needsAll = (side === 'low') === (which === 'largest');
    return ends.reduce<End | undefined>((far, end) => {
        if (!end) return far;
        const order = far ? end.value.compare(far.value) * sign : 1;
        if (order === 0 && far) {
            return { value: far.value, closed: needsAll ? far.closed && end.closed : far.closed || end.closed };
        }
        return order > 0 ? end : far;
    }, undefined);
}

function larger(a: Fraction, b: Fraction): Fraction {
    return a.compare(b) >= 0 ? a : b;
}

function smaller(a: Fraction, b: Fraction): Fraction {
    return a.compare(b) <= 0 ? a : b;
}

function made(low: End | undefined, high: End | undefined): Interval {
    return { ...(low ? { low } : {}), ...(high ? { high } : {}) };
}

function point(value: Fraction): Interval {
    return made(closed(value), closed(value));
}

function closed(value: Fraction): End {
    return { value, closed: true };
}
