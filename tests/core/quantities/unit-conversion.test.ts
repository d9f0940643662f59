/** Exact conversion of values and differences, against published values. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { printFraction } from '../../../language/src/core/quantities/decimal.js';
import { type Unit, units } from '../../../language/src/core/quantities/unit.js';
import {
    convert,
    convertDifference,
    convertible,
    fromCoherent,
    sameDimension,
    toCoherent,
} from '../../../language/src/core/quantities/unit-conversion.js';
import { exact, unitOf } from './read.js';
import { convertByLibrary } from './ucum.js';

describe('a value', () => {
    test.each([
        // Temperatures: NIST SP 811 B.8, t/°C = (t/°F - 32)/1.8 and T/K = t/°C + 273.15, seen second-hand.
        ['32', '°F', '0', '°C'],
        ['212', '°F', '100', '°C'],
        ['-40', '°F', '-40', '°C'],
        ['77', '°F', '25', '°C'],
        ['77', '°F', '298.15', 'K'],
        ['25', '°C', '77', '°F'],
        ['0', 'K', '-459.67', '°F'],
        ['491.67', '°R', '0', '°C'],
        // Exact definitions in NIST SP 811 B.8 and B.9, seen second-hand.
        ['1', 'in', '25.4', 'mm'],
        ['1', 'mil', '25.4', 'µm'],
        ['1', 'lb', '0.45359237', 'kg'],
        ['1', 'bar', '100', 'kPa'],
        ['1', 'atm', '101325', 'Pa'],
        ['760', 'Torr', '1', 'atm'],
        ['1', 'gal', '3.785411784', 'L'],
        ['1', 'gal (UK)', '4.54609', 'L'],
        // Recomputed from the exact gallon and inch.
        ['1', 'gpm', '3.785411784', 'L/min'],
        ['1', 'cfm', '28.316846592', 'L/min'],
        ['1', 'cfm', '1.69901079552', 'm³/h'],
        ['1', 'lbf', '4.4482216152605', 'N'],
        ['1', 'lbf·ft', '1.3558179483314004', 'N·m'],
        ['1', 'lbf·in', '0.1129848290276167', 'N·m'],
        // SI prefixes: SI Brochure, 9th edition, table 7, from memory.
        ['4.7', 'kΩ', '4700', 'Ω'],
        ['4.7', 'µF', '4700', 'nF'],
        ['50', 'mV', '0.05', 'V'],
        ['2.5', 'MPa', '25', 'bar'],
        ['1', 'kWh', '3.6', 'MJ'],
        ['1', 'mS/cm', '0.1', 'S/m'],
        // A revolution counts as one, so 1 r/min is 1/60 Hz: NIST SP 811, from memory.
        ['3000', 'rpm', '50', 'Hz'],
        ['90', 'min', '1.5', 'h'],
        ['500', 'ppm', '0.05', '%'],
    ])('of %s %s is exactly %s %s', (number, from, expected, to) => {
        expect(convert(exact(number), unitOf(from), unitOf(to))?.toFraction()).toBe(exact(expected).toFraction());
    });

    test.each([
        // NIST SP 811 B.8, seen second-hand, in the digits printed there.
        ['1', 'psi', '6.894757', 'kPa'],
        ['1', 'psi', '0.06894757', 'bar'],
        ['1', 'bar', '14.503774', 'psi'],
        ['1', 'inHg', '3.386389', 'kPa'],
        ['1', 'inH2O', '249.0889', 'Pa'],
        ['1', 'gpm', '0.0630901964', 'L/s'],
        ['1', 'cfm', '0.4719474432', 'L/s'],
        ['1', 'hp', '745.6999', 'W'],
        ['1', 'Btu/h', '0.2930711', 'W'],
        ['1', '°', '0.01745329', 'rad'],
    ])('of %s %s is %s %s in the digits that are published', (number, from, expected, to) => {
        const digits = expected.replace(/^[0.]+|\./g, '').length;
        const converted = convert(exact(number), unitOf(from), unitOf(to));
        expect(converted && printFraction(converted, digits, 0).text).toBe(expected);
    });

    test('and back gives the value again, for every pair of units that fit', () => {
        fc.assert(
            fc.property(fc.constantFrom(...units), fc.constantFrom(...units), decimalText, (from, to, text) => {
                const value = exact(text);
                const there = convert(value, from, to);
                expect(there === undefined).toBe(!convertible(from, to));
                expect(there === undefined || convert(there, to, from)?.equals(value)).toBe(true);
            }),
        );
        for (const from of measures) {
            for (const to of measures.filter(unit => sameDimension(from, unit))) {
                const value = exact('12.5');
                const there = convert(value, from, to) ?? exact('0');
                expect(convert(there, to, from)?.equals(value)).toBe(true);
            }
        }
    });

    test('converts as the UCUM reference library converts it, for temperatures', () => {
        const scales = ['°C', '°F', 'K', '°R'].map(unitOf);
        for (const from of scales) {
            for (const to of scales) {
                const expected = convertByLibrary(123.4, from.ucum ?? '', to.ucum ?? '');
                expect(convert(exact('123.4'), from, to)?.valueOf()).toBeCloseTo(expected, 9);
            }
        }
    });

    test('is not converted into a unit of something else', () => {
        expect(convert(exact('1'), unitOf('V'), unitOf('A'))).toBeUndefined();
        expect(convert(exact('1'), unitOf('%'), unitOf('digits'))).toBeUndefined();
        expect(convert(exact('1'), unitOf('dB'), unitOf('dB(A)'))).toBeUndefined();
        expect(convert(exact('1'), unitOf('% LEL'), unitOf('%'))).toBeUndefined();
    });
});

describe('a difference', () => {
    test('of temperatures takes no notice of where the scale begins', () => {
        // NIST SP 811 B.8, temperature intervals, from memory: 1 °C = 1 K = 1.8 °F as a difference.
        expect(convertDifference(exact('9'), unitOf('°F'), unitOf('K'))?.toFraction()).toBe('5');
        expect(convertDifference(exact('1'), unitOf('°C'), unitOf('°F'))?.toFraction()).toBe('9/5');
        expect(convertDifference(exact('1'), unitOf('K'), unitOf('°C'))?.toFraction()).toBe('1');
        expect(convert(exact('9'), unitOf('°F'), unitOf('K'))?.valueOf()).toBeCloseTo(260.37222, 5);
    });

    test('of two values is the difference of the converted values', () => {
        fc.assert(
            fc.property(
                fc.constantFrom(...temperatures),
                fc.constantFrom(...temperatures),
                decimalText,
                decimalText,
                (from, to, a, b) => {
                    const apart = convertDifference(exact(a).sub(exact(b)), from, to) ?? exact('0');
                    const [first, second] = [a, b].map(text => convert(exact(text), from, to) ?? exact('0'));
                    expect(first && second && apart.equals(first.sub(second))).toBe(true);
                },
            ),
        );
    });

    test('is not converted into a unit of something else', () => {
        expect(convertDifference(exact('1'), unitOf('K'), unitOf('V'))).toBeUndefined();
    });
});

describe('money', () => {
    test('of one currency is not converted into another', () => {
        expect(sameDimension(unitOf('EUR'), unitOf('USD'))).toBe(true);
        expect(convert(exact('1'), unitOf('EUR'), unitOf('USD'))).toBeUndefined();
        expect(convertDifference(exact('1'), unitOf('EUR'), unitOf('USD'))).toBeUndefined();
        expect(convert(exact('48'), unitOf('EUR'), unitOf('EUR'))?.toFraction()).toBe('48');
    });
});

test('a value in the coherent SI unit comes back from it', () => {
    expect(toCoherent(exact('24'), unitOf('V')).toFraction()).toBe('24');
    expect(toCoherent(exact('25'), unitOf('°C')).toFraction()).toBe(exact('298.15').toFraction());
    expect(fromCoherent(exact('298.15'), unitOf('°F')).toFraction()).toBe('77');
});

const measures: readonly Unit[] = units.filter(unit => !unit.money);
const temperatures: readonly Unit[] = ['°C', '°F', 'K', '°R'].map(unitOf);
const decimalText = fc
    .tuple(fc.integer({ min: -1_000_000, max: 1_000_000 }), fc.integer({ min: -6, max: 3 }))
    .map(([digits, power]) => `${digits}e${power}`);
