/** Random plans of calculations over readings in random ranges, and readings within them. */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import type { Test } from '../../language/src/core/model/tests.js';
import type { Interval } from '../../language/src/core/quantities/intervals.js';
import type { FunctionName, Plan } from '../../language/src/core/readings/calculation.js';
import { curves } from '../core/curves/random-curves.js';

/** As many readings as there are letters; a plan needs nothing of a test but that it is one. */
export const letters = ['a', 'b', 'c', 'd'] as const;
export const tests: readonly Test[] = letters.map(text => ({ name: { text } }) as unknown as Test);

export const fraction = fc
    .tuple(fc.integer({ min: -40, max: 40 }), fc.integer({ min: 1, max: 6 }))
    .map(([n, d]) => new Fraction(BigInt(n), BigInt(d)));

/** A range with ends that belong to it or not, or that goes on without end. */
export const range: fc.Arbitrary<Interval> = fc
    .tuple(fraction, fraction, fc.boolean(), fc.boolean(), fc.integer({ min: 0, max: 9 }))
    .map(([a, b, lowClosed, highClosed, ends]) => {
        const [low, high] = a.compare(b) <= 0 ? [a, b] : [b, a];
        const isPoint = low.equals(high);
        return {
            ...(ends === 0 ? {} : { low: { value: low, closed: lowClosed || isPoint } }),
            ...(ends === 1 ? {} : { high: { value: high, closed: highClosed || isPoint } }),
        };
    });

/** A reading in a range, where a number says how far along it lies: near its ends for 0 and 9. */
export function readingIn({ low, high }: Interval, place: number): Fraction {
    const share = new Fraction(BigInt(place), 9n);
    if (low && high) {
        const width = high.value.sub(low.value);
        if (place === 0 && !low.closed) return low.value.add(width.div(1000n));
        if (place === 9 && !high.closed) return high.value.sub(width.div(1000n));
        return low.value.add(width.mul(share));
    }
    const step = share.mul(100n).add(new Fraction(1n, 7n));
    if (low) return place === 0 && low.closed ? low.value : low.value.add(step);
    if (high) return place === 9 && high.closed ? high.value : high.value.sub(step);
    return share.sub(new Fraction(1n, 2n)).mul(100n);
}

const constant: fc.Arbitrary<Plan> = fraction.map(value => ({ sort: 'constant', value }));
const reading: fc.Arbitrary<Plan> = fc.constantFrom(...tests).map(test => ({ sort: 'reading', test }));
const functions: readonly FunctionName[] = ['mean', 'largest', 'smallest', 'deviation', 'unbalance'];

/** Plans of any shape, in which a reading may stand several times. */
export const plans = fc.letrec<{ plan: Plan }>(tie => ({
    plan: fc.oneof(
        { maxDepth: 3, depthIdentifier: 'plan' },
        reading,
        constant,
        fc.record({
            sort: fc.constant('operation' as const),
            operator: fc.constantFrom('+' as const, '-' as const, '*' as const, '/' as const),
            left: tie('plan'),
            right: tie('plan'),
        }),
        fc.record({
            sort: fc.constant('function' as const),
            name: fc.constantFrom(...functions),
            arguments: fc.array(tie('plan'), { minLength: 1, maxLength: 3 }),
        }),
        fc.record({
            sort: fc.constant('curve' as const),
            law: curves,
            direction: fc.constantFrom('forward' as const, 'backward' as const),
            argument: tie('plan'),
        }),
    ),
})).plan;
