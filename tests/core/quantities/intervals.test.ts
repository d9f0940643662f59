/** Intervals with open and closed ends, each question checked against a twin that asks every point of a grid. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import {
    contains,
    containsInterval,
    everything,
    gapBetween,
    gaps,
    type Interval,
    intersection,
    isEmpty,
    isPoint,
    overlaps,
} from '../../../language/src/core/quantities/intervals.js';
import { interval, notation } from './read.js';

describe('bands', () => {
    test('that leave a gap say which values no band holds', () => {
        expect(gaps([interval('< 18 V'), interval('19 V .. 24 V')]).map(notation)).toEqual(['[18, 19)', '(24, …']);
        expect(gaps([interval('0 V .. 3 V'), interval('> 3 V')], interval('>= 0 V'))).toEqual([]);
        expect(
            gaps([interval('0 V .. < 3 V'), interval('> 3 V .. 9 V')], interval('0 V .. 9 V')).map(notation),
        ).toEqual(['[3, 3]']);
        expect(gaps([], interval('0 V .. 9 V')).map(notation)).toEqual(['[0, 9]']);
        expect(gaps([everything], interval('0 V .. 9 V'))).toEqual([]);
    });

    test('that overlap say which values both hold', () => {
        expect(overlaps([interval('200 kPa .. 240 kPa'), interval('230 kPa .. 300 kPa')])).toMatchObject([
            { first: 0, second: 1 },
        ]);
        expect(overlaps([interval('< 3 V'), interval('>= 3 V')])).toEqual([]);
        expect(overlaps([interval('<= 3 V'), interval('>= 3 V')]).map(({ shared }) => notation(shared))).toEqual([
            '[3, 3]',
        ]);
    });

    test('in different units are compared exactly', () => {
        expect(overlaps([interval('< 1 in'), interval('25.4 mm .. 30 mm')])).toEqual([]);
        expect(overlaps([interval('<= 1 in'), interval('25.4 mm .. 30 mm')])).toHaveLength(1);
        expect(overlaps([interval('< 77 °F'), interval('25 °C .. 30 °C')])).toEqual([]);
    });

    test('that do not touch have a gap between them', () => {
        const apart = gapBetween(interval('> 5 V'), interval('< 3 V'));
        expect(apart && notation(apart)).toBe('[3, 5]');
        expect(gapBetween(interval('< 3 V'), interval('>= 3 V'))).toBeUndefined();
        expect(gapBetween(interval('< 4 V'), interval('>= 3 V'))).toBeUndefined();
    });
});

test('a single value is a point, and an open end leaves nothing of it', () => {
    const value = new Fraction(3n, 1n);
    expect(isPoint({ low: { value, closed: true }, high: { value, closed: true } })).toBe(true);
    expect(isPoint({ low: { value, closed: true } })).toBe(false);
    expect(isEmpty({ low: { value, closed: true }, high: { value, closed: false } })).toBe(true);
});

describe('over a grid of halves', () => {
    test('an interval holds the points between its ends', () => {
        fc.assert(
            fc.property(small, ([made, holds]) => {
                expect(pointsOf([made])).toEqual(grid.filter(holds));
            }),
        );
    });

    test('an interval is empty where it holds no point', () => {
        fc.assert(
            fc.property(small, ([made, holds]) => {
                expect(isEmpty(made)).toBe(!grid.some(holds));
            }),
        );
    });

    test('the intersection holds the points that both hold', () => {
        fc.assert(
            fc.property(small, small, ([a, inA], [b, inB]) => {
                const shared = intersection(a, b);
                const both = grid.filter(point => inA(point) && inB(point));
                expect(shared === undefined ? [] : pointsOf([shared])).toEqual(both);
                expect(shared === undefined).toBe(both.length === 0);
            }),
        );
    });

    test('one interval lies in another when all its points do', () => {
        fc.assert(
            fc.property(small, small, ([a, inA], [b, inB]) => {
                expect(containsInterval(a, b)).toBe(grid.every(point => !inB(point) || inA(point)));
            }),
        );
    });

    test('the gaps hold exactly the points that no interval holds, and do not touch', () => {
        fc.assert(
            fc.property(fc.array(small, { maxLength: 5 }), small, (bands, [within, isWithin]) => {
                const found = gaps(
                    bands.map(([made]) => made),
                    within,
                );
                const missing = grid.filter(point => isWithin(point) && !bands.some(([, holds]) => holds(point)));
                expect(pointsOf(found)).toEqual(missing);
                expect(found.filter(isEmpty)).toEqual([]);
                found
                    .slice(1)
                    .forEach((gap, index) => expect(gapBetween(found[index] ?? everything, gap)).toBeDefined());
            }),
        );
    });

    test('the overlaps are the pairs that share a point', () => {
        fc.assert(
            fc.property(fc.array(small, { maxLength: 5 }), bands => {
                const found = overlaps(bands.map(([made]) => made)).map(({ first, second, shared }) => ({
                    first,
                    second,
                    points: pointsOf([shared]),
                }));
                const expected = bands.flatMap(([, inA], first) =>
                    bands.flatMap(([, inB], second) => {
                        const points = second <= first ? [] : grid.filter(point => inA(point) && inB(point));
                        return points.length === 0 ? [] : [{ first, second, points }];
                    }),
                );
                expect(found).toEqual(expected);
            }),
        );
    });

    test('the gap between two intervals holds the points above one and below the other', () => {
        fc.assert(
            fc.property(small, small, ([a, inA], [b, inB]) => {
                const between = gapBetween(a, b);
                const [pointsA, pointsB] = [grid.filter(inA), grid.filter(inB)];
                const [lower = [], upper = []] =
                    (pointsA[0] ?? 0) <= (pointsB[0] ?? 0) ? [pointsA, pointsB] : [pointsB, pointsA];
                const expected =
                    lower.length === 0 || upper.length === 0
                        ? []
                        : grid.filter(point => point > Math.max(...lower) && point < Math.min(...upper));
                expect(between === undefined ? [] : pointsOf([between])).toEqual(expected);
            }),
        );
    });
});

// Ends lie on whole numbers from 0 to 6; the grid of halves goes beyond them, so it tells any two different intervals apart.
const grid = Array.from({ length: 17 }, (_, index) => index - 2);

type Twin = readonly [Interval, (point: number) => boolean];

const end = fc.option(fc.record({ at: fc.integer({ min: 0, max: 6 }), closed: fc.boolean() }), { nil: undefined });

const small: fc.Arbitrary<Twin> = fc.tuple(end, end).map(([low, high]): Twin => {
    const made = {
        ...(low === undefined ? {} : { low: { value: new Fraction(low.at, 1), closed: low.closed } }),
        ...(high === undefined ? {} : { high: { value: new Fraction(high.at, 1), closed: high.closed } }),
    };
    const above = (point: number): boolean =>
        low === undefined || (low.closed ? point >= 2 * low.at : point > 2 * low.at);
    const below = (point: number): boolean =>
        high === undefined || (high.closed ? point <= 2 * high.at : point < 2 * high.at);
    return [made, point => above(point) && below(point)];
});

function pointsOf(intervals: readonly Interval[]): number[] {
    return grid.filter(point => intervals.some(made => contains(made, new Fraction(point, 2))));
}
