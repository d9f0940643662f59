/** Bands of readings as they are written, as exact intervals. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { displayBand } from '../../../language/src/core/quantities/bands.js';
import { contains } from '../../../language/src/core/quantities/intervals.js';
import { band, exact, interval, notation, quantity, readBand } from './read.js';

describe('a band holds', () => {
    test.each([
        ['< 3 V', '…, 3)'],
        ['<= 3 V', '…, 3]'],
        ['> 2 kΩ', '(2000, …'],
        ['>= 2 kΩ', '[2000, …'],
        // IEC 60038, from memory: 230 V ± 10 % is 207 V to 253 V, and 400 V ± 10 % is 360 V to 440 V.
        ['230 V ± 10 %', '[207, 253]'],
        ['400 V ± 10 %', '[360, 440]'],
        // ANSI C84.1, seen second-hand: 120 V ± 5 % is 114 V to 126 V.
        ['120 V ± 5 %', '[114, 126]'],
        ['24 V ± 10 %', '[108/5, 132/5]'],
        ['24 V ± 2 V', '[22, 26]'],
        ['24 V ± 500 mV', '[47/2, 49/2]'],
        ['-24 V ± 10 %', '[-132/5, -108/5]'],
        ['1 V ± 100 ppm', '[9999/10000, 10001/10000]'],
        ['21.6 V .. 26.4 V', '[108/5, 132/5]'],
        ['900 mV .. 1.1 V', '[9/10, 11/10]'],
        ['200 kPa .. < 230 kPa', '[200000, 230000)'],
        ['> 200 kPa .. 230 kPa', '(200000, 230000]'],
        ['0 V', '[0, 0]'],
        ['7 .. 8', '[7, 8]'],
        ['21.6 .. 26.4 V', '[108/5, 132/5]'],
        ['24 ± 2 V', '[22, 26]'],
        ['24 V ± 2', '[22, 26]'],
    ])('%s: %s', (text, expected) => {
        expect(notation(interval(text))).toBe(expected);
    });

    test('24 V ± 10 % exactly what 21.6 V .. 26.4 V holds', () => {
        expect(notation(interval('24 V ± 10 %'))).toBe(notation(interval('21.6 V .. 26.4 V')));
    });

    test('percent of a ratio in percent as points, and in another unit as a share', () => {
        expect(notation(interval('50 % ± 5 %'))).toBe('[9/20, 11/20]');
        expect(notation(interval('400 ppm ± 10 %'))).toBe('[9/25000, 11/25000]');
        expect(notation(interval('50 % RH ± 5 % RH'))).toBe('[9/20, 11/20]');
    });

    test('a tolerance of a temperature as a difference', () => {
        expect(notation(interval('25 °C ± 5 K'))).toBe(notation(interval('20 °C .. 30 °C')));
        expect(notation(interval('77 °F ± 9 °F'))).toBe(notation(interval('20 °C .. 30 °C')));
        expect(notation(interval('20 °C ± 10 %'))).toBe(notation(interval('18 °C .. 22 °C')));
    });

    test('temperatures as differences where the test measures one', () => {
        expect(notation(interval('9 °F .. 18 °F', true))).toBe('[5, 10]');
        expect(notation(interval('< 5 °C', true))).toBe('…, 5)');
        expect(notation(interval('10 °C ± 20 %', true))).toBe('[8, 12]');
    });

    test('the same values however its ends are written', () => {
        fc.assert(
            fc.property(fc.integer({ min: -500, max: 500 }), fc.integer({ min: 0, max: 500 }), (middle, percent) => {
                const text = `${middle}e-1 V ± ${percent}e-1 %`;
                const half = Math.abs(middle) * percent;
                const twin = `${middle * 1000 - half}e-4 V .. ${middle * 1000 + half}e-4 V`;
                expect(notation(interval(text))).toBe(notation(interval(twin)));
                expect(contains(interval(text), exact(`${middle}e-1`))).toBe(true);
            }),
        );
    });
});

describe('a band is no interval', () => {
    test('when a unit is not known', () => {
        expect(readBand('< 3 volt')).toEqual({ problem: { kind: 'unknown-unit', at: quantity('3 volt') } });
        expect(readBand('3 V .. 4 volt')).toEqual({ problem: { kind: 'unknown-unit', at: quantity('4 volt') } });
        expect(readBand('3 V ± 4 volt')).toEqual({ problem: { kind: 'unknown-unit', at: quantity('4 volt') } });
    });

    test('when its units do not fit each other', () => {
        expect(readBand('3 V .. 4 A')).toEqual({
            problem: { kind: 'units-differ', at: quantity('4 A'), other: quantity('3 V') },
        });
        expect(readBand('24 V ± 2 A').problem?.kind).toBe('units-differ');
        expect(readBand('20 °C ± 3 % RH').problem?.kind).toBe('units-differ');
        expect(readBand('3 EUR .. 4 USD').problem?.kind).toBe('units-differ');
    });

    test('when the high end leaves out the unit of the low end', () => {
        expect(readBand('3 V .. 4')).toEqual({
            problem: { kind: 'unit-missing', at: quantity('4'), other: quantity('3 V') },
        });
    });

    test('when no value is in it', () => {
        expect(readBand('5 V .. 3 V')).toEqual({
            problem: { kind: 'empty', at: quantity('5 V'), other: quantity('3 V') },
        });
        expect(readBand('3 V .. < 3 V').problem?.kind).toBe('empty');
        expect(readBand('1 V .. 900 mV').problem?.kind).toBe('empty');
    });

    test('when its tolerance is below zero', () => {
        expect(readBand('24 V ± -2 V')).toEqual({ problem: { kind: 'negative-tolerance', at: quantity('-2 V') } });
    });
});

test('a band knows its dimension and the unit that the writer thinks in', () => {
    expect(readBand('21.6 .. 26.4 V')).toMatchObject({ unit: { symbol: 'V' }, dimension: { current: -1 } });
    expect(readBand('7 .. 8')).toMatchObject({ unit: undefined, dimension: {} });
});

test.each([
    ['< 3 V', '< 3 V'],
    ['>=2kΩ', '>= 2 kΩ'],
    ['24V±10%', '24 V ± 10 %'],
    ['21.6 V..26.4 V', '21.6 V .. 26.4 V'],
    ['> 200 kPa .. < 230 kPa', '> 200 kPa .. < 230 kPa'],
    ['4.7 uF', '4.7 µF'],
])('the band %s is shown as %s', (text, shown) => {
    expect(displayBand(band(text))).toBe(shown);
});
