/** Intervals in the writer's unit, and readings inside them that serve as examples. */

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { decimalToFraction } from '../../../language/src/core/quantities/decimal.js';
import { displayInterval, exampleWithin } from '../../../language/src/core/quantities/interval-words.js';
import { contains, everything, gaps, isEmpty } from '../../../language/src/core/quantities/intervals.js';
import { toCoherent } from '../../../language/src/core/quantities/unit-conversion.js';
import { interval, unitOf } from './read.js';

describe('an interval is shown', () => {
    test.each([
        ['18 V .. 19 V', 'V', '18 V .. 19 V'],
        ['> 18 V .. < 19 V', 'V', '> 18 V .. < 19 V'],
        ['< 3 V', 'mV', '< 3000 mV'],
        ['>= 2 kΩ', 'kΩ', '>= 2 kΩ'],
        ['<= 25 °C', '°F', '<= 77 °F'],
        ['0 V', 'V', '0 V'],
        ['> 30 psi', 'kPa', '> about 206.843 kPa'],
    ])('%s in %s as %s', (text, unit, shown) => {
        expect(displayInterval(interval(text), { unit: unitOf(unit) })).toBe(shown);
    });

    test('as any value or no value at the extremes, and without a unit for plain numbers', () => {
        expect(displayInterval(everything, { unit: unitOf('V') })).toBe('any value');
        const none = { low: { value: new Fraction(2), closed: true }, high: { value: new Fraction(1), closed: true } };
        expect(displayInterval(none, { unit: unitOf('V') })).toBe('no value');
        expect(displayInterval(interval('7 .. 8'), { unit: undefined })).toBe('7 .. 8');
        expect(displayInterval(interval('< 5 K', true), { unit: unitOf('°F'), asDifference: true })).toBe('< 9 °F');
    });
});

describe('an example inside an interval', () => {
    test.each([
        ['> 18 V .. < 19 V', 'V', '18.5'],
        ['18 V .. 19 V', 'V', '19'],
        ['< 3 V', 'V', '0'],
        ['> 2 kΩ', 'kΩ', '3'],
        ['< -5 V', 'V', '-8'],
        ['3 V', 'V', '3'],
        ['> 21.60 V .. < 21.61 V', 'V', '21.605'],
        ['> 25 °C', '°F', '100'],
    ])('%s in %s is %s', (text, unit, reading) => {
        expect(exampleWithin(interval(text), { unit: unitOf(unit) })?.text).toBe(reading);
    });

    test('is any value where there is no limit', () => {
        expect(exampleWithin(everything, { unit: unitOf('V') })?.text).toBe('0');
    });

    test('is none where the interval is empty, or a single value that the unit cannot give', () => {
        const none = { low: { value: new Fraction(2), closed: true }, high: { value: new Fraction(1), closed: true } };
        expect(exampleWithin(none, { unit: unitOf('V') })).toBeUndefined();
        expect(exampleWithin(interval('1 Pa'), { unit: unitOf('psi') })).toBeUndefined();
    });

    test('of a gap lies in no band', () => {
        const [gap] = gaps([interval('< 18 V'), interval('19 V .. 24 V')], interval('0 V .. 24 V'));
        expect(gap && exampleWithin(gap, { unit: unitOf('V') })?.text).toBe('18.5');
    });

    test('lies inside, in every unit, for every interval that has room', () => {
        const ends = fc.tuple(
            fc.integer({ min: -100_000, max: 100_000 }),
            fc.integer({ min: 1, max: 100_000 }),
            fc.integer({ min: -12, max: 12 }),
        );
        const pressures = ['Pa', 'bar', 'psi', 'inHg'].map(unitOf);
        fc.assert(
            fc.property(
                ends,
                fc.constantFrom(...pressures),
                fc.boolean(),
                fc.boolean(),
                ([from, width, power], unit, lowClosed, highClosed) => {
                    const scale = new Fraction(10).pow(power);
                    const made = {
                        low: { value: scale.mul(from), closed: lowClosed },
                        high: { value: scale.mul(from + width), closed: highClosed },
                    };
                    const example = exampleWithin(made, { unit });
                    expect(isEmpty(made)).toBe(false);
                    expect(example && contains(made, toCoherent(decimalToFraction(example), unit))).toBe(true);
                    for (const half of [{ low: made.low }, { high: made.high }]) {
                        const beyond = exampleWithin(half, { unit });
                        expect(beyond && contains(half, toCoherent(decimalToFraction(beyond), unit))).toBe(true);
                    }
                },
            ),
        );
    });
});
