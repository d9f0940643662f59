// All that a calculation can give while its readings lie anywhere in their ranges: interval arithmetic over its plan.

import Fraction from 'fraction.js';

import { image, preimage } from '../curves/curve.js';
import type { Curve as Law } from '../curves/curve-shape.js';
import type { Test } from '../model/tests.js';
import {
    differenceOfIntervals,
    productOfIntervals,
    quotientOfIntervals,
    sumOfIntervals,
} from '../quantities/interval-arithmetic.js';
import { contains, type Interval, intervalKey } from '../quantities/intervals.js';
import type { FunctionName, Plan } from './calculation.js';
import { deviationOf, largestOf, meanOf, smallestOf, unbalanceOf } from './interval-functions.js';
import { readingsIn } from './plans.js';

/** All that a calculation can give. */
export interface Enclosure {
    /** Holds every value that can come out, in the coherent SI unit; undefined where none can. */
    readonly interval: Interval | undefined;
    /**
     * True where every value of the interval can come out, if each reading can lie anywhere in its range whatever the others are (rounding
     * of curves apart). False where the interval may be too wide: a reading stands in it twice, or a divisor lies on both sides of zero.
     */
    readonly isTight: boolean;
    /** True where some readings give no value: something is divided by zero, or a reading lies outside a curve. */
    readonly mayLackValue: boolean;
}

const zero = new Fraction(0n);

/** What a plan can give for readings in these ranges. */
export function enclose(plan: Plan, rangeOf: (test: Test) => Enclosure): Enclosure {
    switch (plan.sort) {
        case 'constant': {
            const end = { value: plan.value, closed: true };
            return { interval: { low: end, high: end }, isTight: true, mayLackValue: false };
        }
        case 'reading':
            return rangeOf(plan.test);
        case 'operation':
            return encloseOperation(plan, rangeOf);
        case 'function':
            return encloseFunction(plan, rangeOf);
        case 'curve':
            return encloseCurve(plan, rangeOf);
    }
}

type PlanOf<Sort extends Plan['sort']> = Extract<Plan, { readonly sort: Sort }>;

function encloseOperation(
    { operator, left, right }: PlanOf<'operation'>,
    rangeOf: (test: Test) => Enclosure,
): Enclosure {
    const [one, other] = [enclose(left, rangeOf), enclose(right, rangeOf)];
    const mayLackValue = one.mayLackValue || other.mayLackValue;
    if (!one.interval || !other.interval) return { interval: undefined, isTight: true, mayLackValue: true };
    const isTight = one.isTight && other.isTight && areApart([left, right]);
    switch (operator) {
        case '+':
            return { interval: sumOfIntervals(one.interval, other.interval), isTight, mayLackValue };
        case '-':
            return { interval: differenceOfIntervals(one.interval, other.interval), isTight, mayLackValue };
        case '*':
            return { interval: productOfIntervals(one.interval, other.interval), isTight, mayLackValue };
        case '/': {
            const quotient = quotientOfIntervals(one.interval, other.interval);
            return {
                interval: quotient.interval,
                isTight: isTight && quotient.isTight,
                mayLackValue: mayLackValue || quotient.mayLackValue,
            };
        }
    }
}

/** True where no reading stands in two of them. */
function areApart(plans: readonly Plan[]): boolean {
    const sets = plans.map(readingsIn);
    return new Set(sets.flatMap(set => [...set])).size === sets.reduce((sum, { size }) => sum + size, 0);
}

function encloseFunction(
    { name, arguments: values }: PlanOf<'function'>,
    rangeOf: (test: Test) => Enclosure,
): Enclosure {
    const enclosures = values.map(value => enclose(value, rangeOf));
    const intervals = enclosures.map(({ interval }) => interval).filter(interval => interval !== undefined);
    if (intervals.length < values.length) return { interval: undefined, isTight: true, mayLackValue: true };
    const mayLackValue = enclosures.some(one => one.mayLackValue);
    const isTight = enclosures.every(one => one.isTight) && areApart(values);
    if (name !== 'unbalance') return { interval: functions[name](intervals), isTight, mayLackValue };
    const mean = meanOf(intervals);
    const { interval, isTight: isExact } = unbalanceOf(intervals);
    return { interval, isTight: isTight && isExact, mayLackValue: mayLackValue || contains(mean, zero) };
}

const functions: Readonly<Record<Exclude<FunctionName, 'unbalance'>, (values: readonly Interval[]) => Interval>> = {
    mean: meanOf,
    largest: largestOf,
    smallest: smallestOf,
    deviation: deviationOf,
};

function encloseCurve({ law, direction, argument }: PlanOf<'curve'>, rangeOf: (test: Test) => Enclosure): Enclosure {
    const given = enclose(argument, rangeOf);
    if (!given.interval) return given;
    const { outputs, beyond } = curveOver(law, direction, given.interval);
    return { interval: outputs, isTight: given.isTight, mayLackValue: given.mayLackValue || beyond };
}

type Over = ReturnType<typeof image>;

/** Many calculations use one sensor over the range of one instrument, and each end of it is searched for. */
const curvesOver = new WeakMap<Law, Map<string, Over>>();

/** More stretches of one curve than this are not remembered together. */
const mostStretches = 1000;

function curveOver(law: Law, direction: PlanOf<'curve'>['direction'], stretch: Interval): Over {
    const known = curvesOver.get(law) ?? new Map<string, Over>();
    const key = `${direction} ${intervalKey(stretch)}`;
    const over = known.get(key) ?? (direction === 'forward' ? image : preimage)(law, stretch);
    if (known.size >= mostStretches) known.clear();
    curvesOver.set(law, known.set(key, over));
    return over;
}
