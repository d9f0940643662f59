/** Exact decimals: reading, writing and rounding. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import {
    decimalFromFraction,
    decimalToFraction,
    parseDecimal,
    printFraction,
    roundFraction,
    sameNumber,
    shiftDecimal,
} from '../../../language/src/core/quantities/decimal.js';
import { exact } from './read.js';

describe('a decimal is read', () => {
    test.each([
        ['24', '24'],
        ['21.6', '21.6'],
        ['24.0', '24.0'],
        ['.5', '0.5'],
        ['007.50', '7.50'],
        ['+3', '3'],
        ['-0.2', '-0.2'],
        ['\u22120.2', '-0.2'],
        ['-0', '0'],
        ['-0.0', '0.0'],
        ['1e6', '1000000'],
        ['1E+6', '1000000'],
        ['2.5e3', '2500'],
        ['1e-6', '0.000001'],
        ['1e\u22126', '0.000001'],
        ['0e9', '0'],
        ['1e30', '1e30'],
        ['-12.5e40', '-1.25e41'],
        ['1.5e-30', '1.5e-30'],
        ['12345678901234567890.123456789', '12345678901234567890.123456789'],
    ])('from %s as %s', (written, canonical) => {
        expect(parseDecimal(written)?.text).toBe(canonical);
    });

    test.each(['', '-', '.', '5.', '1,5', '1 000', '1.2.3', 'e6', '1e', '0x10', '--1', 'NaN', 'Infinity', '٣', '1_0'])(
        'not from %j',
        written => {
            expect(parseDecimal(written)).toBeUndefined();
        },
    );

    test('not when it is too long or too large to be a reading', () => {
        expect(parseDecimal('1e100')).toBeUndefined();
        expect(parseDecimal('1e-999999999999')).toBeUndefined();
        expect(parseDecimal('10e99')).toBeUndefined();
        expect(parseDecimal('9'.repeat(51))).toBeUndefined();
        expect(parseDecimal('9'.repeat(50))?.text).toBe(`9.${'9'.repeat(49)}e49`);
        expect(parseDecimal('1e99')?.text).toBe('1e99');
        expect(parseDecimal('1e-99')?.text).toBe('1e-99');
    });

    test('and its canonical text gives the same decimal again', () => {
        fc.assert(
            fc.property(writtenDecimal, written => {
                const decimal = parseDecimal(written);
                expect(decimal).toBeDefined();
                const again = parseDecimal(decimal?.text ?? '');
                expect(again?.text).toBe(decimal?.text);
                expect(exact(written).equals(exact(decimal?.text ?? ''))).toBe(true);
            }),
        );
    });
});

describe('a fraction', () => {
    test('of a decimal is exact where binary numbers are not', () => {
        // 0.1 + 0.2 is not 0.3 in IEEE 754 binary64 (known since its first edition, from memory).
        expect(exact('0.1').add(exact('0.2')).equals(exact('0.3'))).toBe(true);
        expect(exact('1e-40').toFraction()).toBe(`1/1${'0'.repeat(40)}`);
    });

    test('is made once for a decimal', () => {
        const decimal = parseDecimal('21.6');
        expect(decimal && decimalToFraction(decimal)).toBe(decimal && decimalToFraction(decimal));
    });

    test('is printed exactly when its decimals end', () => {
        expect(printFraction(new Fraction(1n, 8n))).toEqual({ text: '0.125', exact: true });
        expect(printFraction(new Fraction(-123_456_789n, 1n))).toEqual({ text: '-123456789', exact: true });
        expect(printFraction(new Fraction(0n, 1n))).toEqual({ text: '0', exact: true });
    });

    test('is rounded, and says so, when its decimals do not end', () => {
        expect(printFraction(new Fraction(1n, 3n))).toEqual({ text: '0.333333', exact: false });
        expect(printFraction(new Fraction(2n, 3n), 3)).toEqual({ text: '0.667', exact: false });
        expect(printFraction(new Fraction(-200n, 3n), 2)).toEqual({ text: '-67', exact: false });
        expect(printFraction(new Fraction(999_999n, 1_000_001n), 3)).toEqual({ text: '1', exact: false });
    });

    test('is rounded when its decimals end only where nobody can read them', () => {
        expect(printFraction(new Fraction(1n, 2n ** 60n), 4)).toEqual({
            text: '8.674e-19',
            exact: false,
        });
        expect(printFraction(exact('1.23456789'), 3, 4)).toEqual({ text: '1.23', exact: false });
    });

    test.each([
        // Halves go away from zero: ISO 80000-1 annex B, rule B, from memory.
        ['2.5', 1, '3'],
        ['-2.5', 1, '-3'],
        ['0.125', 2, '0.13'],
        ['99.96', 3, '100'],
        ['9.9949', 3, '9.99'],
        ['0.00099951', 3, '0.001'],
        ['123456', 2, '120000'],
        ['1e50', 3, '1e50'],
        // One rounding, not two: 0.4949 is not first made 0.495 and then 0.50.
        ['0.4949', 2, '0.49'],
    ])('%s to %i digits is %s', (value, digits, rounded) => {
        expect(roundFraction(exact(value), digits).text).toBe(rounded);
    });

    test('is rounded to the nearest number of that many digits', () => {
        fc.assert(
            fc.property(fraction, fc.integer({ min: 1, max: 12 }), (value, digits) => {
                const rounded = roundFraction(value, digits);
                expect(rounded.digits.replace(/0+$/, '').length).toBeLessThanOrEqual(digits);
                // Half a step of the last digit, as the size of the value gives it.
                const size = BigInt(value.abs().floor().toString().length - 1);
                const half = value.abs().gte(1)
                    ? new Fraction(10n ** size).div(10n ** BigInt(digits - 1)).div(2n)
                    : undefined;
                const error = decimalToFraction(rounded).sub(value).abs();
                expect(half === undefined || error.lte(half)).toBe(true);
            }),
        );
    });

    test('made of a decimal comes back as that decimal', () => {
        fc.assert(
            fc.property(writtenDecimal, written => {
                const value = exact(written);
                const back = decimalFromFraction(value);
                expect(back && decimalToFraction(back).equals(value)).toBe(true);
            }),
        );
        expect(decimalFromFraction(new Fraction(1n, 7n))).toBeUndefined();
    });
});

test('two spellings of one value are the same number', () => {
    const [plain, fine, other] = ['24', '24.00', '24.01'].map(text => parseDecimal(text));
    expect(plain && fine && sameNumber(plain, fine)).toBe(true);
    expect(plain && other && sameNumber(plain, other)).toBe(false);
});

test('a decimal is shifted by powers of ten', () => {
    const decimal = parseDecimal('1.25');
    expect(decimal && shiftDecimal(decimal, 3).text).toBe('1250');
    expect(decimal && shiftDecimal(decimal, -3).text).toBe('0.00125');
});

const writtenDecimal = fc
    .tuple(
        fc.constantFrom('', '-', '+', '\u2212'),
        fc.stringMatching(/^\d{1,12}$/),
        fc.option(fc.stringMatching(/^\d{1,12}$/), { nil: undefined }),
        fc.option(fc.integer({ min: -85, max: 85 }), { nil: undefined }),
    )
    .map(([sign, whole, part, power]) => {
        return sign + whole + (part === undefined ? '' : `.${part}`) + (power === undefined ? '' : `e${power}`);
    });

const fraction = fc
    .tuple(fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n }), fc.bigInt({ min: 1n, max: 10n ** 9n }))
    .map(([numerator, denominator]) => new Fraction(numerator, denominator));
