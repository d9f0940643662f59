/**
 * Calculations agree with plain reckoning: their dimensions with vectors of exponents, the rules for temperatures with the count of
 * points in a sum, the range of what comes out with what does come out for readings in their ranges, and the deviation and the unbalance
 * with trying all values.
 */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { contains, type Interval } from '../../language/src/core/quantities/intervals.js';
import { uncertaintyOf } from '../../language/src/core/readings/calculated-accuracy.js';
import type { Plan } from '../../language/src/core/readings/calculation.js';
import { type Enclosure, enclose } from '../../language/src/core/readings/enclosures.js';
import { deviationOf, unbalanceOf } from '../../language/src/core/readings/interval-functions.js';
import { evaluate, readingsIn } from '../../language/src/core/readings/plans.js';
import { calculated, type Readings } from '../core/readings/calculated.js';
import { notation } from '../core/quantities/read.js';
import { fraction, letters, plans, range, readingIn, tests } from './random-calculations.js';
import { runs } from './runs.js';

/** Powers of meter, kilogram, second and ampere, written down here a second time: SI brochure, tables 2 to 5, from memory. */
const exponents: Readonly<Record<string, readonly [string, readonly number[]]>> = {
    v: ['voltage DC', [2, 1, -3, -1]],
    i: ['current DC', [0, 0, 0, 1]],
    r: ['resistance', [2, 1, -3, -2]],
    t: ['time', [0, 0, 1, 0]],
    f: ['force', [1, 1, -2, 0]],
    s: ['length', [1, 0, 0, 0]],
    o: ['area', [2, 0, 0, 0]],
    p: ['power', [2, 1, -3, 0]],
    q: ['frequency', [0, 0, -1, 0]],
    m: ['mass', [0, 1, 0, 0]],
};

type Sum =
    | { readonly reading: string }
    | { readonly number: number }
    | { readonly operator: string; readonly left: Sum; readonly right: Sum }
    | { readonly mean: readonly Sum[] };

function sumsOf(names: readonly string[], operators: readonly string[]): fc.Arbitrary<Sum> {
    return fc.letrec<{ sum: Sum }>(tie => ({
        sum: fc.oneof(
            { maxDepth: 3, depthIdentifier: 'sum' },
            fc.constantFrom(...names).map(name => ({ reading: name })),
            fc.record({ operator: fc.constantFrom(...operators), left: tie('sum'), right: tie('sum') }),
            fc.record({ mean: fc.array(tie('sum'), { minLength: 1, maxLength: 3 }) }),
        ),
    })).sum;
}

function write(sum: Sum): string {
    if ('reading' in sum) return sum.reading;
    if ('number' in sum) return `${sum.number}`;
    if ('mean' in sum) return `mean(${sum.mean.map(write).join(', ')})`;
    return `(${write(sum.left)} ${sum.operator} ${write(sum.right)})`;
}

/** The exponents of a sum; undefined where unlike things are added. */
function vectorOf(sum: Sum): readonly number[] | undefined {
    if ('reading' in sum) return exponents[sum.reading]?.[1];
    if ('number' in sum) return [0, 0, 0, 0];
    if ('mean' in sum) {
        const [first, ...others] = sum.mean.map(vectorOf);
        return others.every(other => String(other) === String(first)) ? first : undefined;
    }
    const [left, right] = [vectorOf(sum.left), vectorOf(sum.right)];
    if (!left || !right) return undefined;
    if (sum.operator === '*') return left.map((power, at) => power + (right[at] ?? 0));
    if (sum.operator === '/') return left.map((power, at) => power - (right[at] ?? 0));
    return String(left) === String(right) ? left : undefined;
}

describe('the type of a calculation', () => {
    const measured: Readings = Object.fromEntries(
        Object.entries(exponents).map(([name, [quantity]]) => [name, quantity]),
    );

    test('has the exponents of plain reckoning', () => {
        const names = Object.keys(exponents);
        let lawful = 0;
        fc.assert(
            fc.property(fc.oneof(sumsOf(names, ['*', '/']), sumsOf(['v', 'i', 'r'], ['*', '/', '+', '-'])), sum => {
                const { type, problems } = calculated(measured, 'ratio', write(sum)).typed;
                const wanted = vectorOf(sum);
                const { length = 0, mass = 0, time = 0, current = 0, ...others } = type?.dimension ?? {};
                expect(others).toEqual({});
                expect(type && [length, mass, time, current]).toEqual(wanted);
                expect(problems.length > 0).toBe(wanted === undefined);
                if (wanted) lawful += 1;
            }),
            runs(150),
        );
        expect(lawful).toBeGreaterThan(30);
    });

    /** How many points a sum of temperatures holds: one is a temperature, none a difference; undefined for what means nothing. */
    function pointsOf(sum: Sum): number | undefined {
        if ('reading' in sum) return sum.reading === 'x' || sum.reading === 'y' ? 1 : 0;
        if ('number' in sum) return undefined;
        if ('mean' in sum) {
            const [first, ...others] = sum.mean.map(pointsOf);
            return others.every(other => other === first) ? first : undefined;
        }
        const [left, right] = [pointsOf(sum.left), pointsOf(sum.right)];
        if (left === undefined || right === undefined) return undefined;
        const points = sum.operator === '+' ? left + right : left - right;
        return points === 0 || points === 1 ? points : undefined;
    }

    test('counts the points in sums of temperatures, which move with the zero of the scale', () => {
        const kelvins: Readings = {
            x: 'temperature',
            y: 'temperature',
            d: 'temperature difference',
            e: 'temperature difference',
        };
        const counts = [0, 0, 0];
        fc.assert(
            fc.property(
                sumsOf(['x', 'y', 'd', 'e'], ['+', '-']),
                fc.array(fraction, { minLength: 4, maxLength: 4 }),
                (sum, values) => {
                    const { typed, tests: all } = calculated(kelvins, 'temperature', write(sum));
                    const points = pointsOf(sum);
                    const natures = points === undefined ? undefined : [points === 1 ? 'point' : 'difference'];
                    expect(typed.type?.natures).toEqual(natures);
                    counts[points ?? 2] = (counts[points ?? 2] ?? 0) + 1;
                    const [nature] = typed.type?.natures ?? [];
                    const plan = nature && typed.planAs(nature);
                    if (!plan || points === undefined) return;
                    const at = (shift: number) =>
                        evaluate(plan, one => {
                            const index = [...all.values()].indexOf(one);
                            return values[index]?.add(index < 2 ? shift : 0);
                        });
                    expect(
                        at(10)
                            ?.sub(at(0) ?? 0)
                            .valueOf(),
                    ).toBe(10 * points);
                },
            ),
            runs(150),
        );
        expect(Math.min(...counts)).toBeGreaterThan(10);
    });
});

const ranges = fc.array(range, { minLength: letters.length, maxLength: letters.length });
const places = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: letters.length, maxLength: letters.length });

function within(intervals: readonly Interval[]): (test_: (typeof tests)[number]) => Enclosure {
    return one => ({ interval: intervals[tests.indexOf(one)] ?? {}, isTight: true, mayLackValue: false });
}

describe('the range of what comes out', () => {
    test('holds what does come out, and says where nothing may', () => {
        const seen = { values: 0, none: 0 };
        fc.assert(
            fc.property(plans, ranges, fc.array(places, { minLength: 1, maxLength: 8 }), (plan, intervals, samples) => {
                const { interval, mayLackValue } = enclose(plan, within(intervals));
                for (const sample of samples) {
                    const value = evaluate(plan, one => {
                        const index = tests.indexOf(one);
                        return readingIn(intervals[index] ?? {}, sample[index] ?? 0);
                    });
                    if (value) {
                        seen.values += 1;
                        expect(
                            interval && contains(interval, value),
                            `${value.toFraction()} in ${notation(interval ?? {})}`,
                        ).toBe(true);
                    } else {
                        seen.none += 1;
                        expect(mayLackValue).toBe(true);
                    }
                }
            }),
            runs(600),
        );
        expect(Math.min(seen.values, seen.none)).toBeGreaterThan(200);
    });

    test('ends where the readings are at their ends, if each stands in it once and no divisor can be zero', () => {
        let compared = 0;
        fc.assert(
            fc.property(arithmetic, closedRanges, (plan, intervals) => {
                const { interval, isTight, mayLackValue } = enclose(plan, within(intervals));
                if (!isTight || mayLackValue || !interval) return;
                const corners = cornersOf(intervals).map(corner => evaluate(plan, one => corner[tests.indexOf(one)]));
                const values = corners.filter(value => value !== undefined);
                expect(notation(interval)).toBe(notation(hull(values)));
                compared += 1;
            }),
            runs(400),
        );
        expect(compared).toBeGreaterThan(100);
    });

    test('is no wider than it must be for a quotient whose divisor can be zero', () => {
        const [a, b] = tests;
        if (!a || !b) throw new Error('There are no tests.');
        const plan: Plan = {
            sort: 'operation',
            operator: '/',
            left: { sort: 'reading', test: a },
            right: { sort: 'reading', test: b },
        };
        const given = (low: number, high: number): Interval => hull([new Fraction(low), new Fraction(high)]);
        const divided = (left: Interval, right: Interval) => {
            const { interval, isTight, mayLackValue } = enclose(plan, within([left, right]));
            return [interval && notation(interval), isTight, mayLackValue];
        };
        expect(divided(given(1, 2), given(0, 4))).toEqual(['[1/4, …', true, true]);
        expect(divided(given(1, 2), given(-4, 0))).toEqual(['…, -1/4]', true, true]);
        expect(divided(given(1, 2), given(-1, 4))).toEqual(['…, …', false, true]);
        expect(divided(given(0, 2), given(-1, 4))).toEqual(['…, …', true, true]);
        expect(divided(given(1, 2), given(0, 0))).toEqual([undefined, true, true]);
        expect(divided(given(1, 2), given(4, 8))).toEqual(['[1/8, 1/2]', true, false]);
        expect(divided(given(1, 2), { low: { value: new Fraction(4), closed: true } })).toEqual([
            '(0, 1/2]',
            true,
            false,
        ]);
    });
});

/** Plans of + - * / and of what grows with each of its values, each reading once at most. */
const arithmetic: fc.Arbitrary<Plan> = plans.filter(plan => isMonotonous(plan) && readingsIn(plan).size > 0);

function isMonotonous(plan: Plan): boolean {
    if (plan.sort === 'operation') return isMonotonous(plan.left) && isMonotonous(plan.right);
    if (plan.sort === 'function') {
        return plan.name !== 'deviation' && plan.name !== 'unbalance' && plan.arguments.every(isMonotonous);
    }
    return plan.sort !== 'curve';
}

const closedRanges = fc.array(
    fc.tuple(fraction, fraction).map(([a, b]) => hull([a, b])),
    { minLength: letters.length, maxLength: letters.length },
);

function cornersOf(intervals: readonly Interval[]): Fraction[][] {
    return intervals.reduce<Fraction[][]>(
        (corners, { low, high }) =>
            corners.flatMap(corner => [low, high].flatMap(end => (end ? [[...corner, end.value]] : []))),
        [[]],
    );
}

function hull(values: readonly Fraction[]): Interval {
    const sorted = [...values].sort((a, b) => a.compare(b));
    const [low] = sorted;
    const high = sorted.at(-1);
    return {
        ...(low ? { low: { value: low, closed: true } } : {}),
        ...(high ? { high: { value: high, closed: true } } : {}),
    };
}

/** Whole ends from 0 to 6. What is smallest and largest lies at halves then, for up to four values. */
const smallRanges = fc
    .array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 3 })), { minLength: 1, maxLength: 4 })
    .map(pairs => pairs.map(([low, width]) => [low, Math.min(low + width, 6)] as const));

function everyChoice(pairs: readonly (readonly [number, number])[]): number[][] {
    return pairs.reduce<number[][]>(
        (all, [low, high]) =>
            all.flatMap(values =>
                Array.from({ length: 2 * (high - low) + 1 }, (_, step) => [...values, low + step / 2]),
            ),
        [[]],
    );
}

describe.each(['deviation', 'unbalance'] as const)('the %s', name => {
    test('goes from the least to the most that there is among all values', () => {
        fc.assert(
            fc.property(smallRanges, pairs => {
                const intervals = pairs.map(([low, high]) => hull([new Fraction(low), new Fraction(high)]));
                const { interval } =
                    name === 'deviation' ? { interval: deviationOf(intervals) } : unbalanceOf(intervals);
                const found = everyChoice(pairs).flatMap(values => {
                    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
                    const farthest = Math.max(...values.map(value => Math.abs(value - mean)));
                    if (name === 'deviation') return [farthest];
                    return mean === 0 ? [] : [farthest / mean];
                });
                if (found.length === 0) return;
                expect(interval?.low?.value.valueOf()).toBeCloseTo(Math.min(...found), 12);
                expect(interval?.high?.value.valueOf()).toBeCloseTo(Math.max(...found), 12);
            }),
            runs(150),
        );
    });
});

test('the uncertainty of a result is at least what readings that are off by theirs make of it', () => {
    let compared = 0;
    const uncertain = fc.array(fc.tuple(fraction, fraction), { minLength: letters.length, maxLength: letters.length });
    fc.assert(
        fc.property(plans, uncertain, places, (plan, pairs, sample) => {
            const readings = pairs.map(([value, size]) => ({ value, uncertainty: size.abs().div(100n) }));
            const uncertainty = uncertaintyOf(plan, one => readings[tests.indexOf(one)]);
            if (!uncertainty) return;
            const exact = evaluate(plan, one => readings[tests.indexOf(one)]?.value);
            const off = evaluate(plan, one => {
                const index = tests.indexOf(one);
                const reading = readings[index];
                const share = new Fraction((sample[index] ?? 0) - 4.5).div(4.5);
                return reading && reading.value.add(reading.uncertainty.mul(share));
            });
            expect(exact && off && off.sub(exact).abs().compare(uncertainty) <= 0).toBe(true);
            compared += 1;
        }),
        runs(400),
    );
    expect(compared).toBeGreaterThan(100);
});
