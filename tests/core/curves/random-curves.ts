/** Curves of every shape with random amounts, and random stretches of what they take. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { isCurveProblem, makeCurve } from '../../../language/src/core/curves/curve.js';
import type { Curve, CurveRow, CurveShape } from '../../../language/src/core/curves/curve-shape.js';
import type { Interval } from '../../../language/src/core/quantities/intervals.js';

const decimal = (least: number, most: number, places: number): fc.Arbitrary<Fraction> =>
    fc
        .integer({ min: Math.round(least * 10 ** places), max: Math.round(most * 10 ** places) })
        .map(units => new Fraction(BigInt(units), 10n ** BigInt(places)));

const number = (least: number, most: number, places: number): fc.Arbitrary<number> =>
    decimal(least, most, places).map(value => value.valueOf());

const rows = fc
    .uniqueArray(fc.tuple(decimal(-50, 400, 2), fc.oneof(decimal(0.001, 3000, 3), decimal(0.001, 3, 15))), {
        minLength: 2,
        maxLength: 8,
        selector: ([input]) => input.toFraction(),
    })
    .map(pairs =>
        pairs.map(([input, output]): CurveRow => ({ input, output })).sort((a, b) => a.input.compare(b.input)),
    );

const shapes = fc.oneof(
    fc.record({ sort: fc.constant('platinum' as const), atZero: number(1, 2000, 3) }),
    fc.record({
        sort: fc.constant('ntc' as const),
        resistance: number(1, 1e6, 1),
        temperature: number(200, 400, 2),
        beta: number(500, 7000, 0),
    }),
    fc.record({
        sort: fc.constant('steinhart-hart' as const),
        a: number(0.0005, 0.002, 9),
        b: number(0.0001, 0.0004, 10),
        c: number(-0.000_000_3, 0.000_000_5, 12),
    }),
    fc.record({
        sort: fc.constant('thermocouple' as const),
        type: fc.constantFrom('E' as const, 'J' as const, 'K' as const, 'N' as const, 'T' as const),
    }),
    fc.record({
        sort: fc.constant('metal' as const),
        resistance: number(0.001, 1000, 3),
        temperature: number(273.15, 400, 2),
        constant: number(200, 260, 1),
    }),
    fc
        .record({ sort: fc.constant('loop' as const), low: decimal(-100, 100, 2), high: decimal(-100, 100, 2) })
        .filter(({ low, high }) => !low.equals(high)),
    fc.record({
        sort: fc.constant('table' as const),
        rows,
        interpolation: fc.constantFrom('linear' as const, 'logarithmic' as const),
    }),
) satisfies fc.Arbitrary<CurveShape>;

/** A place in an interval, from 0 at its low end to 1 at its high end. */
export function placeIn({ low, high }: Interval, share: Fraction): Fraction {
    if (low === undefined || high === undefined) {
        throw new Error('the test asks for a place in an interval without ends');
    }
    return low.value.add(high.value.sub(low.value).mul(share));
}

/** Shares of an interval; its ends come often. */
export const share: fc.Arbitrary<Fraction> = fc.oneof(
    fc.constantFrom(new Fraction(0n, 1n), new Fraction(1n, 1n)),
    decimal(0, 1, 6),
    fc.tuple(fc.integer({ min: 1, max: 96 }), fc.constant(97)).map(([n, d]) => new Fraction(BigInt(n), BigInt(d))),
);

/** A curve of any shape, over all of its domain or over a part of it. */
export const curves: fc.Arbitrary<Curve> = fc
    .tuple(shapes, fc.option(fc.tuple(share, share), { nil: undefined }))
    .map(([shape, part]) => {
        const whole = known(makeCurve(shape));
        if (part === undefined || part[0].equals(part[1])) return whole;
        return known(makeCurve(shape, stretchOf(whole.domain, part)));
    });

/** A stretch of an interval, with random ends that belong to it or do not. */
export const stretches = (whole: Interval): fc.Arbitrary<Interval> =>
    fc.tuple(share, share, fc.boolean(), fc.boolean()).map(([a, b, lowClosed, highClosed]) => {
        const { low, high } = stretchOf(whole, [a, b]);
        const point = a.equals(b);
        return {
            ...(low === undefined ? {} : { low: { ...low, closed: lowClosed || point } }),
            ...(high === undefined ? {} : { high: { ...high, closed: highClosed || point } }),
        };
    });

function stretchOf(whole: Interval, [a, b]: readonly [Fraction, Fraction]): Interval {
    const [first, last] = a.compare(b) <= 0 ? [a, b] : [b, a];
    return {
        low: { value: placeIn(whole, first), closed: true },
        high: { value: placeIn(whole, last), closed: true },
    };
}

function known(made: ReturnType<typeof makeCurve>): Curve {
    if (isCurveProblem(made)) {
        throw new Error(`a random curve cannot be: ${made.problem}`);
    }
    return made;
}
