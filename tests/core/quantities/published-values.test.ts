/**
 * Conversions in the digits in which they were published, by area.
 *
 * NIST SP 811 (2008), appendix B.8: seen second-hand, in a public copy of the table, not in the publication itself.
 * A factor is printed there with at most seven significant digits; ours is rounded to as many and must be the same.
 */

import { describe, expect, test } from 'vitest';
import { decimalToFraction, parseDecimal, roundFraction } from '../../../language/src/core/quantities/decimal.js';
import { convert, convertDifference } from '../../../language/src/core/quantities/unit-conversion.js';
import { exact, unitOf } from './read.js';

type Published = readonly [from: string, printed: string, to: string];

const pressure: readonly Published[] = [
    ['atm', '101325', 'Pa'],
    ['bar', '100000', 'Pa'],
    ['mbar', '100', 'Pa'],
    ['mbar', '0.1', 'kPa'],
    ['psi', '6894.757', 'Pa'],
    ['psi', '6.894757', 'kPa'],
    ['ksi', '6894757', 'Pa'],
    ['psf', '47.88026', 'Pa'],
    ['kgf/cm²', '98066.5', 'Pa'],
    ['kgf/cm²', '98.0665', 'kPa'],
    ['inHg', '3386.389', 'Pa'],
    ['inHg', '3.386389', 'kPa'],
    ['mmHg', '133.3224', 'Pa'],
    ['Torr', '133.3224', 'Pa'],
    ['inH2O', '249.0889', 'Pa'],
    ['ftH2O', '2989.067', 'Pa'],
    ['ftH2O', '2.989067', 'kPa'],
    ['cmH2O', '98.0665', 'Pa'],
    ['mmH2O', '9.80665', 'Pa'],
];

const powerAndEnergy: readonly Published[] = [
    ['hp', '745.6999', 'W'],
    ['PS', '735.4988', 'W'],
    ['BoHP', '9809.5', 'W'],
    ['TR', '3516.853', 'W'],
    ['Btu/h', '0.2930711', 'W'],
    ['Btu', '1055.056', 'J'],
    ['therm', '105480400', 'J'],
    ['kcal', '4186.8', 'J'],
    ['kWh', '3600000', 'J'],
    ['kWh', '3.6', 'MJ'],
    ['Wh', '3600', 'J'],
    ['W/cm²', '10000', 'W/m²'],
];

const flow: readonly Published[] = [
    ['cfm', '0.0004719474', 'm³/s'],
    ['cfm', '0.4719474', 'L/s'],
    ['cfs', '0.02831685', 'm³/s'],
    ['gpm', '0.0000630902', 'm³/s'],
    ['gpm', '0.0630902', 'L/s'],
    ['gpd', '0.00000004381264', 'm³/s'],
    ['gpd', '0.00004381264', 'L/s'],
    ['lb/h', '0.0001259979', 'kg/s'],
    ['lb/min', '0.007559873', 'kg/s'],
    ['lb/s', '0.4535924', 'kg/s'],
];

const sizes: readonly Published[] = [
    ['in', '0.0254', 'm'],
    ['in', '2.54', 'cm'],
    ['ft', '0.3048', 'm'],
    ['yd', '0.9144', 'm'],
    ['mi', '1609.344', 'm'],
    ['mi', '1.609344', 'km'],
    ['mil', '0.0254', 'mm'],
    ['µin', '0.0254', 'µm'],
    ['in²', '0.00064516', 'm²'],
    ['in²', '6.4516', 'cm²'],
    ['ft²', '0.09290304', 'm²'],
    ['cmil', '0.0000000005067075', 'm²'],
    ['cmil', '0.0005067075', 'mm²'],
    ['in³', '0.00001638706', 'm³'],
    ['ft³', '0.02831685', 'm³'],
    ['gal', '0.003785412', 'm³'],
    ['gal', '3.785412', 'L'],
    ['gal (UK)', '4.54609', 'L'],
    ['qt', '0.9463529', 'L'],
    ['pt', '0.4731765', 'L'],
    ['fl oz', '29.57353', 'mL'],
    ['bbl', '158.9873', 'L'],
    ['L', '0.001', 'm³'],
];

const massAndForce: readonly Published[] = [
    ['lb', '0.4535924', 'kg'],
    ['oz', '28.34952', 'g'],
    ['gr', '64.79891', 'mg'],
    ['ston', '907.1847', 'kg'],
    ['lton', '1016.047', 'kg'],
    ['t', '1000', 'kg'],
    ['lbf', '4.448222', 'N'],
    ['ozf', '0.2780139', 'N'],
    ['kgf', '9.80665', 'N'],
    ['lbf·ft', '1.355818', 'N·m'],
    ['lbf·in', '0.1129848', 'N·m'],
    ['ozf·in', '0.007061552', 'N·m'],
    ['ozf·in', '7.061552', 'mN·m'],
    ['kgf·m', '9.80665', 'N·m'],
    ['lbf/in', '175.1268', 'N/m'],
];

const motion: readonly Published[] = [
    ['ft/min', '0.00508', 'm/s'],
    ['ft/s', '0.3048', 'm/s'],
    ['in/s', '0.0254', 'm/s'],
    ['mph', '0.44704', 'm/s'],
    ['mph', '1.609344', 'km/h'],
    ['km/h', '0.2777778', 'm/s'],
    ['knot', '0.5144444', 'm/s'],
    ['ft/s²', '0.3048', 'm/s²'],
    ['in/s²', '0.0254', 'm/s²'],
    ['gₙ', '9.80665', 'm/s²'],
    ['°', '0.01745329', 'rad'],
    ['min', '60', 's'],
    ['h', '3600', 's'],
    ['d', '86400', 's'],
];

const substances: readonly Published[] = [
    ['lb/ft³', '16.01846', 'kg/m³'],
    ['lb/gal', '119.8264', 'kg/m³'],
    ['lb/gal', '0.1198264', 'kg/L'],
    ['g/cm³', '1000', 'kg/m³'],
    ['mPa·s', '0.001', 'Pa·s'],
];

const electricityAndLight: readonly Published[] = [
    ['gauss', '0.0001', 'T'],
    ['mho', '1', 'S'],
    ['Ω·cm', '0.01', 'Ω·m'],
    ['fc', '10.76391', 'lx'],
    ['nit', '1', 'cd/m²'],
];

describe.each([
    ['pressure', pressure],
    ['power and energy', powerAndEnergy],
    ['flow', flow],
    ['length, area and volume', sizes],
    ['mass, force and torque', massAndForce],
    ['motion, angle and time', motion],
    ['substances', substances],
    ['electricity and light', electricityAndLight],
])('NIST SP 811, appendix B.8: %s', (_area, values) => {
    test.each(values)('one %s is %s %s', (from, printed, to) => {
        expect(roundedAs(printed, convert(exact('1'), unitOf(from), unitOf(to)))).toBe(plain(printed));
    });
});

describe('temperatures', () => {
    // NIST SP 811 B.8 gives the formulas, seen second-hand; the fixed points are the melting of ice and the boiling of water at 101.325 kPa
    // (0 °C and 100 °C by the old definition), absolute zero, and the triple point of water (273.16 K: SI Brochure, from memory).
    test.each([
        ['32', '°F', '0', '°C'],
        ['212', '°F', '100', '°C'],
        ['-40', '°F', '-40', '°C'],
        ['-459.67', '°F', '0', 'K'],
        ['0', 'K', '-273.15', '°C'],
        ['0.01', '°C', '273.16', 'K'],
        ['32.018', '°F', '273.16', 'K'],
        ['491.67', '°R', '273.15', 'K'],
        ['671.67', '°R', '212', '°F'],
        ['68', '°F', '20', '°C'],
        ['77', '°F', '298.15', 'K'],
        ['98.6', '°F', '37', '°C'],
        ['0', '°C', '32', '°F'],
        // The points of the practical scale ITS-90, table 1, from memory: tin freezes at 231.928 °C, zinc at 419.527 °C.
        ['231.928', '°C', '505.078', 'K'],
        ['419.527', '°C', '692.677', 'K'],
    ])('%s %s is %s %s', (number, from, expected, to) => {
        expect(convert(exact(number), unitOf(from), unitOf(to))?.toFraction()).toBe(exact(expected).toFraction());
    });

    test('nine degrees Fahrenheit are 5 K as a difference and 260.372… K as a point', () => {
        // Intervals and temperatures are separate rows in NIST SP 811 B.8, seen second-hand.
        expect(convertDifference(exact('9'), unitOf('°F'), unitOf('K'))?.toFraction()).toBe('5');
        expect(convert(exact('9'), unitOf('°F'), unitOf('K'))?.toFraction()).toBe('46867/180');
        expect(roundedAs('260.3722', convert(exact('9'), unitOf('°F'), unitOf('K')))).toBe('260.3722');
    });

    test.each([
        // The intervals of NIST SP 811 B.8, in the digits printed there, seen second-hand.
        ['°F', '0.5555556', 'K'],
        ['°F', '0.5555556', '°C'],
        ['°R', '0.5555556', 'K'],
        ['°C', '1', 'K'],
    ])('an interval of one %s is one of %s %s', (from, printed, to) => {
        expect(roundedAs(printed, convertDifference(exact('1'), unitOf(from), unitOf(to)))).toBe(printed);
    });
});

describe('values that other publications give', () => {
    test.each([
        // SI Brochure, 9th edition, tables 7 and 8, from memory.
        ['1', 'MΩ', '1000000', 'Ω'],
        ['1', 'nF', '1000', 'pF'],
        ['1', 'hPa', '1', 'mbar'],
        ['1', 'L', '1000', 'mL'],
        ['1', 'd', '1440', 'min'],
        // IEC 80000-13, from memory: a byte is eight bits.
        ['1', 'B/s', '8', 'bit/s'],
        // NIST Handbook 44, appendix C, from memory: relations of the customary units.
        ['1', 'gal', '231', 'in³'],
        ['1', 'gal', '4', 'qt'],
        ['1', 'gal', '8', 'pt'],
        ['1', 'gal', '128', 'fl oz'],
        ['1', 'bbl', '42', 'gal'],
        ['1', 'ft³', '1728', 'in³'],
        ['1', 'mi', '5280', 'ft'],
        ['1', 'lb', '16', 'oz'],
        ['1', 'lb', '7000', 'gr'],
        ['1', 'ston', '2000', 'lb'],
        ['1', 'lton', '2240', 'lb'],
        // A nautical mile of 1852 m in an hour: SI Brochure, 8th edition, table 8, from memory.
        ['1', 'knot', '1.852', 'km/h'],
        // An International Table kilocalorie in an hour: 5th International Conference on the Properties of Steam 1956, from memory.
        ['1', 'kcal/h', '1.163', 'W'],
        // 1 mbar·L/s is 0.1 Pa·m³/s: ISO 3529-1, from memory.
        ['1', 'mbar·L/s', '0.1', 'Pa·m³/s'],
        // Levels: 0 dBW is 30 dBm, 0 dBmV is 60 dBµV, by the definition of the decibel (IEC 60027-3, from memory).
        ['0', 'dBW', '30', 'dBm'],
        ['0', 'dBmV', '60', 'dBµV'],
        ['0', 'dBV', '120', 'dBµV'],
        ['48.75', 'dBmV', '108.75', 'dBµV'],
    ])('%s %s is exactly %s %s', (number, from, expected, to) => {
        expect(convert(exact(number), unitOf(from), unitOf(to))?.toFraction()).toBe(exact(expected).toFraction());
    });

    test.each([
        // NIST SP 811 B.8, seen second-hand: a grain in a gallon is 17.11806 mg/L; a French degree is 10 mg/L of calcium carbonate, from memory.
        ['gr/gal', '1.711806', '°fH'],
        // A German degree is 1.78 French ones: common practice in tables of water hardness, from memory.
        ['°dH', '1.78', '°fH'],
        // Standard atmosphere: 29.92 inHg, 760 mmHg, 14.696 psi, 33.9 ft of water, 1.03323 kgf/cm²: handbooks of meteorology and pumps, from memory.
        ['atm', '29.92', 'inHg'],
        ['atm', '14.696', 'psi'],
        ['atm', '33.9', 'ftH2O'],
        ['atm', '1.03323', 'kgf/cm²'],
        ['psi', '2.036', 'inHg'],
        ['psi', '27.68', 'inH2O'],
        ['psi', '2.307', 'ftH2O'],
        ['bar', '14.50377', 'psi'],
        ['inHg', '13.5951', 'inH2O'],
        // About 33 471 Btu/h in a public table of conversion factors, seen second-hand; others print 33 475 or 33 479.
        ['BoHP', '33471', 'Btu/h'],
        ['kW', '3412.142', 'Btu/h'],
        ['hp', '2544.43', 'Btu/h'],
        // Circular mils of copper conductors: 1000 kcmil is 506.7 mm² (NFPA 70, chapter 9, table 8, metric column 507, from memory).
        ['kcmil', '0.5067', 'mm²'],
        // Humidity ratio: 7000 grains make a pound (psychrometric charts), so 1 g/kg is 7 gr/lb.
        ['g/kg', '7', 'gr/lb'],
        // Slope of drains: a quarter inch to a foot is 20.8 mm/m, a fiftieth: plumbing codes, from memory.
        ['in/ft', '83.33', 'mm/m'],
        ['V/K', '1000', 'mV/K'],
    ])('one %s is %s %s', (from, printed, to) => {
        expect(roundedAs(printed, convert(exact('1'), unitOf(from), unitOf(to)))).toBe(plain(printed));
    });
});

function roundedAs(printed: string, value: ReturnType<typeof convert>): string | undefined {
    const digits = parseDecimal(printed)?.digits.replace(/0+$/, '').length ?? 0;
    return value && roundFraction(value, digits).text;
}

function plain(printed: string): string {
    const decimal = parseDecimal(printed);
    return decimal === undefined ? '' : roundFraction(decimalToFraction(decimal), 15).text;
}
