/** Windings and current loops: straight lines, exact in both directions. */

import type Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { image, inputAt, makeCurve, preimage, valueAt } from '../../../language/src/core/curves/curve.js';
import type { Curve } from '../../../language/src/core/curves/curve-shape.js';
import { exact } from '../quantities/read.js';
import { curveOf, kelvins, printed, printedCelsius, stretch } from './curves.js';

function winding(resistance: number, celsius: string, constant: number): Curve {
    return curveOf({ sort: 'metal', resistance, temperature: kelvins(celsius).valueOf(), constant });
}

describe('a copper winding', () => {
    // R₂ = R₁ (k + t₂)/(k + t₁), recomputed: k = 235 is IEC 60034-1, k = 234.5 IEEE 112, 225 is aluminum in both; from memory.
    test.each([
        [235, '12.115385'],
        [234.5, '12.119461'],
        [225, '12.200000'],
    ])('with a constant of %d and 10 Ω at 25 °C has at 80 °C %s Ω', (constant, ohms) => {
        expect(printed(winding(10, '25', constant), kelvins(80), 6)).toBe(ohms);
    });

    // t₂ = (R₂/R₁)(k + t₁) − k, recomputed.
    test.each([
        [235, '71.0'],
        [234.5, '70.9'],
    ])(
        'with a constant of %d whose resistance has risen from 1.000 Ω at 20 °C to 1.200 Ω is at %s °C',
        (constant, hot) => {
            expect(printedCelsius(winding(1, '20', constant), exact('1.2'), 1)).toBe(hot);
        },
    );

    test('is exact', () => {
        expect(inputAt(winding(1, '20', 235), exact('1.2'))).toEqual(kelvins(71));
        expect(valueAt(winding(12.4, '20', 234.5), kelvins(20))).toEqual(exact('12.4'));
        expect(image(winding(1, '20', 235), { low: { value: kelvins(20), closed: false } })).toEqual({
            outputs: {
                low: { value: exact('1'), closed: false },
                high: { value: exact('735').div(255), closed: true },
            },
            beyond: true,
        });
    });

    test('has no resistance at or below -k °C', () => {
        const odd = winding(1, '20', 50);
        expect(odd.domain.low).toEqual({ value: kelvins(-50), closed: false });
        expect(inputAt(odd, exact('0'))).toBeUndefined();
        expect(inputAt(odd, exact('0.1'))).toEqual(kelvins(-43));
    });

    test.each([
        [
            { resistance: 0, temperature: 293.15, constant: 235 },
            { problem: 'not-positive', amount: 'resistance' },
        ],
        [
            { resistance: 1, temperature: 30, constant: 235 },
            { problem: 'not-positive', amount: 'temperature' },
        ],
        [
            { resistance: 1, temperature: 293.15, constant: Number.NaN },
            { problem: 'not-positive', amount: 'temperature' },
        ],
        [{ resistance: 1, temperature: 293.15, constant: 1e120 }, { problem: 'out-of-reach' }],
    ])('%o is no curve', (amounts, problem) => {
        expect(makeCurve({ sort: 'metal', ...amounts })).toEqual(problem);
    });
});

describe('a loop for 0 bar to 10 bar', () => {
    const loop = curveOf({ sort: 'loop', low: exact('0'), high: exact('1000000') });
    const bar = (value: string): Fraction => exact(value).mul(100_000);
    const milliamperes = (value: string): Fraction => exact(value).div(1000);

    // I = 4 mA + 16 mA × share; IEC 60381-1, seen second-hand. 3.8 mA is -1.25 %, 20.5 mA is 103.125 % (NAMUR NE 43, seen second-hand).
    test.each([
        ['-0.125', '3.8'],
        ['0', '4'],
        ['2.5', '8'],
        ['5', '12'],
        ['7.5', '16'],
        ['10', '20'],
        ['10.3125', '20.5'],
    ])('sends at %s bar %s mA', (pressure, current) => {
        expect(valueAt(loop, bar(pressure))).toEqual(milliamperes(current));
        expect(inputAt(loop, milliamperes(current))).toEqual(bar(pressure));
    });

    test('sends no value below 3.8 mA or above 20.5 mA, where it is at its limit or has failed', () => {
        expect(inputAt(loop, milliamperes('3.79'))).toBeUndefined();
        expect(inputAt(loop, milliamperes('3.6'))).toBeUndefined();
        expect(inputAt(loop, milliamperes('20.51'))).toBeUndefined();
        expect(inputAt(loop, milliamperes('21'))).toBeUndefined();
        expect(valueAt(loop, bar('-0.13'))).toBeUndefined();
        expect(preimage(loop, stretch(milliamperes('0'), milliamperes('24')))).toEqual({
            outputs: stretch(bar('-0.125'), bar('10.3125')),
            beyond: true,
        });
    });

    test('may run the other way', () => {
        const reversed = curveOf({ sort: 'loop', low: bar('10'), high: bar('0') });
        expect(reversed.course).toBe('falling');
        expect(valueAt(reversed, bar('2.5'))).toEqual(milliamperes('16'));
        expect(reversed.range).toEqual(stretch(milliamperes('3.8'), milliamperes('20.5')));
        expect(preimage(reversed, { high: { value: milliamperes('8'), closed: false } })).toEqual({
            outputs: { low: { value: bar('7.5'), closed: false }, high: { value: bar('10.125'), closed: true } },
            beyond: true,
        });
    });

    test('for one value only is no curve', () => {
        expect(makeCurve({ sort: 'loop', low: bar('5'), high: bar('5') })).toEqual({ problem: 'same-ends' });
    });
});

test.each([0, -100, Number.NaN])('a platinum sensor of %d Ω is no curve', atZero => {
    expect(makeCurve({ sort: 'platinum', atZero })).toEqual({ problem: 'not-positive', amount: 'resistance' });
});
