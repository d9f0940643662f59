/** Numbers reach the document with the digits that the author wrote, and say so where they cannot. */
import Fraction from 'fraction.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseDecimal, sameNumber } from '../../language/src/core/quantities/decimal.js';
import { fractionToJsonNumber, toJsonNumber } from '../../language/src/document/writing/amounts.js';
import type { Band, OutcomeCase, Quantity } from '../../language/src/document/types.js';
import { exportFrom, writeFrom } from './support.js';

describe('a decimal becomes the JSON number with the same digits', () => {
    test.each([
        ['24', '24'],
        ['24.0', '24'],
        ['21.6', '21.6'],
        ['-0.2', '-0.2'],
        ['0.1', '0.1'],
        ['1e6', '1000000'],
        ['0.000001', '0.000001'],
        ['123456789012345', '123456789012345'],
        ['0.00000000123456789012345', '1.23456789012345e-9'],
        ['1e99', '1e+99'],
    ])('%s', (written, json) => {
        const decimal = parseDecimal(written);
        expect(decimal && toJsonNumber(decimal)).toEqual({ value: Number(json), rounded: undefined });
        expect(decimal && JSON.stringify(toJsonNumber(decimal).value)).toBe(json);
    });

    test('a number of more digits is rounded to fifteen, and says so', () => {
        const decimal = parseDecimal('1.2345678901234567');
        expect(decimal && toJsonNumber(decimal)).toEqual({ value: 1.23456789012346, rounded: true });
    });

    test('a fraction whose decimals never end is rounded, and says so', () => {
        expect(fractionToJsonNumber(new Fraction(1, 3))).toEqual({ value: 0.333333333333333, rounded: true });
        expect(fractionToJsonNumber(new Fraction(108, 5))).toEqual({ value: 21.6, rounded: undefined });
    });

    test('any decimal of up to fifteen digits reads back with the same value', () => {
        const fifteenDigits = fc.bigInt({ min: -999_999_999_999_999n, max: 999_999_999_999_999n });
        // That fifteen significant digits survive a binary number of 64 bits is a fact of IEEE 754 (DBL_DIG of C).
        fc.assert(
            fc.property(fifteenDigits, fc.integer({ min: -30, max: 30 }), (digits, power) => {
                const decimal = parseDecimal(`${digits}e${power}`);
                const number = decimal && toJsonNumber(decimal);
                expect(number?.rounded).toBeUndefined();
                const readBack = parseDecimal(JSON.stringify(number?.value));
                expect(decimal && readBack && sameNumber(decimal, readBack)).toBe(true);
            }),
        );
    });
});

describe('a band has exact ends in the unit of its author', () => {
    test.each<[string, Band]>([
        ['24 V ± 10 %', interval({ value: 21.6, closed: true }, { value: 26.4, closed: true }, 'V', '24 V ± 10 %')],
        [
            '21.6 .. 26.4 V',
            interval({ value: 21.6, closed: true }, { value: 26.4, closed: true }, 'V', '21.6 V .. 26.4 V'),
        ],
        [
            '3 V .. < 21.6 V',
            interval({ value: 3, closed: true }, { value: 21.6, closed: false }, 'V', '3 V .. < 21.6 V'),
        ],
        ['> 3 V .. 5 V', interval({ value: 3, closed: false }, { value: 5, closed: true }, 'V', '> 3 V .. 5 V')],
        [
            '900 mV .. 1.1 V',
            interval({ value: 900, closed: true }, { value: 1100, closed: true }, 'mV', '900 mV .. 1.1 V'),
        ],
        ['< 3 V', interval(undefined, { value: 3, closed: false }, 'V', '< 3 V')],
        ['<= 3 V', interval(undefined, { value: 3, closed: true }, 'V', '<= 3 V')],
        ['> 3 V', interval({ value: 3, closed: false }, undefined, 'V', '> 3 V')],
        ['>= 3 V', interval({ value: 3, closed: true }, undefined, 'V', '>= 3 V')],
        ['0 V', interval({ value: 0, closed: true }, { value: 0, closed: true }, 'V', '0 V')],
        [
            '24.0 V ± 0.3 V',
            interval({ value: 23.7, closed: true }, { value: 24.3, closed: true }, 'V', '24.0 V ± 0.3 V'),
        ],
    ])('%s', async (written, band) => {
        expect(await bandOf('voltage DC', written)).toEqual(band);
    });

    test('a tolerance in percent of a temperature is one of the number that is written', async () => {
        expect(await bandOf('temperature', '20 °C ± 10 %')).toMatchObject(
            interval({ value: 18, closed: true }, { value: 22, closed: true }, 'Cel', '20 °C ± 10 %'),
        );
    });

    test('a difference of temperatures is not shifted by where the scale begins', async () => {
        expect(await bandOf('temperature difference', '18 °F .. 10 K')).toMatchObject(
            interval({ value: 18, closed: true }, { value: 18, closed: true }, '[degF]', '18 °F .. 10 K'),
        );
    });

    test('says what it is in the other system of units, and nothing where there is none', async () => {
        // 1 psi is 6.894757 kPa (NIST SP 811, appendix B.8, seen second-hand).
        expect(await bandOf('pressure gauge', '20 psi .. 24 psi')).toMatchObject({ other: '138 kPa .. 165 kPa' });
        expect(await bandOf('temperature difference', '< 9 °F')).toMatchObject({ other: '< 5 K' });
        expect(await bandOf('voltage DC', '< 9 V')).not.toHaveProperty('other');
    });

    test('an end that a unit cannot give exactly says that it is rounded', async () => {
        // One inch is 25.4 mm exactly (NIST SP 811), so 10 mm are 50/127 inches, whose decimals never end.
        expect(await bandOf('length', '0.1 in .. 10 mm')).toMatchObject(
            interval(
                { value: 0.1, closed: true },
                { value: 0.393700787401575, rounded: true, closed: true },
                '[in_i]',
                '0.1 in .. 10 mm',
            ),
        );
    });
});

test('`otherwise` says on which side of the healthy readings it lies', async () => {
    const outcomes = 'normal 3 V .. 5 V  low otherwise';
    expect(await lastBandOf(outcomes)).toEqual({ otherwise: 'below' });
    expect(await lastBandOf(outcomes.replace('low', 'high'))).toEqual({ otherwise: 'above' });
    expect(await lastBandOf(outcomes.replace('low', 'odd'))).toEqual({ otherwise: 'any' });
});

test('several bands of an outcome stay together', async () => {
    const cases = await casesOf('voltage DC', 'normal 3 V .. 5 V  odd < 3 V or > 5 V');
    expect(cases[1]?.bands?.map(band => ('display' in band ? band.display : ''))).toEqual(['< 3 V', '> 5 V']);
});

test.each<[string, Quantity]>([
    ['3 min', { value: 3, unit: 'min', display: '3 min' }],
    ['1.50 h', { value: 1.5, unit: 'h', display: '1.50 h' }],
])('a working time of %s keeps its digits for people', async (written, quantity) => {
    const document = await exportFrom(world('voltage DC', 'normal 3 V', `takes ${written}`), 'dark');
    expect(document.equipment.tests[0]?.takes).toEqual([{ amount: quantity }]);
});

test('a price has a currency and no unit', async () => {
    const document = await exportFrom(world('voltage DC', 'normal 3 V', 'costs 4.50 EUR'), 'dark');
    expect(document.equipment.tests[0]?.costs).toEqual([
        { amount: { amount: 4.5, currency: 'EUR', display: '4.50 EUR' } },
    ]);
});

test.each([
    ['costs 4 min', '`4 min` is no price: a price ends in a currency such as EUR.'],
    ['takes 4 EUR', 'The unit of `4 EUR` is not known.'],
    ['takes 4 furlongs', 'The unit of `4 furlongs` is not known.'],
])('%s is a problem and not a document', async (clause, message) => {
    const { document, problems } = await writeFrom(world('voltage DC', 'normal 3 V', clause), 'dark');
    expect(document).toBeUndefined();
    expect(problems.map(problem => problem.message)).toEqual([message]);
});

test.each([
    ['5 V .. 3 V', 'no reading lies between its ends'],
    ['3 V .. 5 A', 'the units do not fit each other'],
    ['3 V ± -1 V', 'the tolerance is below zero'],
    ['< 3 furlongs', 'the unit is not known'],
])('the band %s is a problem', async (band, words) => {
    const { problems } = await writeFrom(world('voltage DC', `normal ${band}`), 'dark');
    expect(problems.map(problem => problem.message).join()).toContain(words);
});

function interval(
    low: { value: number; closed: boolean; rounded?: true } | undefined,
    high: { value: number; closed: boolean; rounded?: true } | undefined,
    unit: string,
    display: string,
): Band {
    return { ...(low && { low }), ...(high && { high }), unit, display };
}

function world(quantity: string, outcomes: string, clause = ''): Record<string, string> {
    return {
        'lamp.fault': `
            equipment lamp { test glow { measure ${quantity} ${clause} ${outcomes} } }
            tree dark of lamp { }
        `,
    };
}

async function casesOf(quantity: string, outcomes: string): Promise<readonly OutcomeCase[]> {
    const document = await exportFrom(world(quantity, outcomes), 'dark');
    return document.equipment.tests[0]?.outcomes.flatMap(outcome => outcome.cases) ?? [];
}

async function bandOf(quantity: string, written: string): Promise<Band | undefined> {
    return (await casesOf(quantity, `normal ${written}`))[0]?.bands?.[0];
}

async function lastBandOf(outcomes: string): Promise<Band | undefined> {
    return (await casesOf('voltage DC', outcomes)).at(-1)?.bands?.[0];
}
