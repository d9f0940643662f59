/** Rounding to the digits that are kept, and between fractions and binary numbers. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { nearly } from '../../../language/src/core/curves/law.js';
import {
    fromNumber,
    powerOfFirstDigit,
    rounded,
    toNumber,
    withinReach,
} from '../../../language/src/core/curves/rounding.js';
import { runs } from '../../property/runs.js';
import { exact } from '../quantities/read.js';

test.each([
    ['1.234567890125', '1.23456789012', '1.23456789013', '1.23456789013'],
    ['-1.234567890125', '-1.23456789013', '-1.23456789012', '-1.23456789012'],
    ['99999999999.96', '99999999999.9', '100000000000', '100000000000'],
    ['0.000100000000000049', '0.0001', '0.000100000000001', '0.0001'],
])('%s lies from %s to %s and is nearest to %s', (value, down, up, nearest) => {
    const computed = nearly(exact(value));
    expect(rounded(computed, 'down')).toEqual(exact(down));
    expect(rounded(computed, 'up')).toEqual(exact(up));
    expect(rounded(computed, 'nearest')).toEqual(exact(nearest));
});

test('noise is no digit', () => {
    for (const noisy of ['9999.999999999998', '10000.0000000000018', '10000']) {
        for (const rounding of ['down', 'up', 'nearest'] as const) {
            expect(rounded(nearly(exact(noisy)), rounding)).toEqual(exact('10000'));
        }
    }
    expect(rounded(nearly(exact('0.00000000000000000123'), -15), 'up')).toEqual(exact('0'));
    expect(rounded(nearly(exact('0.0000000000000004'), -15), 'up')).toEqual(exact('1e-15'));
});

test('what is exact stays as it is', () => {
    const third = new Fraction(1n, 3n);
    expect(rounded({ value: third, exact: true }, 'down')).toBe(third);
});

test.each([
    ['375', 2],
    ['1000', 3],
    ['999', 2],
    ['0.2', -1],
    ['0.1', -1],
    ['-0.099', -2],
])('the first digit of %s has the power %d', (value, power) => {
    expect(powerOfFirstDigit(exact(value))).toBe(power);
});

test('a binary number becomes its shortest decimal, and comes back', () => {
    expect(fromNumber(0.1)).toEqual(new Fraction(1n, 10n));
    expect(fromNumber(-1.183432e-4)).toEqual(exact('-0.0001183432'));
    expect(fromNumber(12e20)).toEqual(new Fraction(12n * 10n ** 20n, 1n));
    fc.assert(
        fc.property(fc.double({ min: -1e90, max: 1e90, noNaN: true }), value => {
            expect(toNumber(fromNumber(value))).toBe(value + 0);
        }),
        runs(500),
    );
});

test('only numbers of usual size are computed with', () => {
    expect([0, 1, -1e99, 1e-99].every(withinReach)).toBe(true);
    expect([1e100, -1e-100, Number.POSITIVE_INFINITY, Number.NaN].some(withinReach)).toBe(false);
});
