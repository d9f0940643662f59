/** Numbers are put in order, and steps are found in stretches, by floating point numbers exactly as exact fractions tell it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import Fraction from 'fraction.js';
import { compareExactly } from '../../language/src/core/quantities/exact-order.js';
import { measuringRange, mayBeShown, stepWithin } from '../../language/src/core/readings/measuring-ranges.js';
import { quantityKinds } from '../../language/src/core/quantities/quantity-kinds.js';
import { onlyFile } from '../support/check.js';
import { readTexts } from '../support/read-texts.js';
import { runs } from './runs.js';

const large = fc.bigInt({ min: -(10n ** 120n), max: 10n ** 120n });
const whole = fc.bigInt({ min: -1000n, max: 1000n });
const positive = fc.oneof(fc.bigInt({ min: 1n, max: 1000n }), fc.bigInt({ min: 1n, max: 10n ** 330n }));
const anyNumber = fc.tuple(fc.oneof(whole, large), positive).map(([n, d]) => new Fraction(n, d));

/** Two numbers that often are the same, or nearly so. */
const pair = fc.oneof(
    fc.tuple(anyNumber, anyNumber),
    fc
        .tuple(anyNumber, fc.bigInt({ min: 1n, max: 10n ** 40n }), fc.constantFrom(-1n, 0n, 1n))
        .map(([one, parts, sign]): [Fraction, Fraction] => [one, one.add(one.mul(new Fraction(sign, parts)))]),
);

describe('exact order', () => {
    test('agrees with comparing fractions', () => {
        fc.assert(
            fc.property(pair, ([one, other]) => {
                expect(Math.sign(compareExactly(one, other))).toBe(Math.sign(one.compare(other)));
            }),
            runs(500),
        );
    });
});

describe('the steps of an instrument', () => {
    const { model } = readTexts({
        [onlyFile]: 'instrument meter { measures temperature -40 °C .. 120 °C resolution 0.1 °C }',
    });
    const clause = model.files.get(onlyFile)?.instruments[0]?.measures[0];
    const kind = quantityKinds.get('temperature');
    const range = clause && kind && measuringRange(clause, kind);

    test('lie in a stretch exactly where one is found there', () => {
        const tenths = fc.integer({ min: 2400, max: 3900 });
        const nearly = fc.tuple(tenths, fc.constantFrom(-1n, 0n, 1n), fc.integer({ min: 1, max: 20 })).map(
            // A step of the instrument, or a little beside one.
            ([at, sign, power]) =>
                new Fraction(BigInt(at) * 10n + 5n, 100n).add(new Fraction(sign, 10n ** BigInt(power))),
        );
        fc.assert(
            fc.property(nearly, nearly, fc.boolean(), fc.boolean(), (one, other, lowClosed, highClosed) => {
                const [low, high] = one.compare(other) <= 0 ? [one, other] : [other, one];
                fc.pre(low.compare(high) < 0 || (lowClosed && highClosed));
                const stretch = { low: { value: low, closed: lowClosed }, high: { value: high, closed: highClosed } };
                if (!range?.step) throw new Error('The instrument has no steps.');
                expect(mayBeShown(range, stretch)).toBe(stepWithin(range.step, stretch) !== undefined);
            }),
            runs(500),
        );
    });
});
