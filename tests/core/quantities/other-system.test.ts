/** Quantities and bands in the other system of units. */

import { describe, expect, test } from 'vitest';
import {
    bandInOtherSystem,
    bandInPreferredSystem,
    inOtherSystem,
    inPreferredSystem,
    type Measured,
    unitPreferences,
} from '../../../language/src/core/quantities/other-system.js';
import { band, quantity } from './read.js';

function other(text: string, measured?: Measured): string | undefined {
    return inOtherSystem(quantity(text), measured)?.text;
}

function otherBand(text: string, measured?: Measured): string | undefined {
    return bandInOtherSystem(band(text), measured)?.text;
}

describe('a quantity is rounded', () => {
    test.each([
        // NIST SP 811 (2008), B.7.2, seen second-hand: 36 ft is rounded to 11.0 m, because 11 m would lose what 36 ft says.
        ['36 ft', '11.0 m'],
        // NIST LC 1137 (2000), seen second-hand: 40.1 in is 101.9 cm and not 101.854 cm; 36 in is 91 cm and not 91.44 cm.
        ['40.1 in', '1019 mm'],
        ['36 in', '910 mm'],
        // NIST SP 1038 (2006), section 4.4, from memory: 8 ft is 2.4 m, 11 mi is 18 km, 61 mi is 98 km, 66 mi is 106 km.
        ['8 ft', '2.4 m'],
        ['11 mi', '18 km'],
        ['61 mi', '98 km'],
        ['66 mi', '106 km'],
    ])('as published: %s is %s', (written, shown) => {
        expect(other(written)).toBe(shown);
    });

    // The rule is the docstring's; the exact values are those of NIST SP 811 B.8, worked out by hand to the digits shown.
    test.each([
        ['24 psi', '165 kPa', '165.47'],
        ['3 psi', '21 kPa', '20.684'],
        ['30 psi', '207 kPa', '206.84'],
        ['100 psi', '690 kPa', '689.48'],
        ['150 psi', '10.3 bar', '10.342'],
        ['3000 psi', '207 bar', '206.84'],
        ['21.6 psi', '148.9 kPa', '148.93'],
        ['1 bar', '14.5 psi', '14.504'],
        ['10 bar', '145 psi', '145.04'],
        ['200 kPa', '29 psi', '29.008'],
        ['1 in', '25 mm', '25.4'],
        ['0.250 in', '6.35 mm', '6.35'],
        ['25 ft-lb', '34 N·m', '33.895'],
        ['5 gpm', '19 L/min', '18.927'],
        ['400 cfm', '680 m³/h', '679.60'],
        ['12000 Btu/h', '3.5 kW', '3.5169'],
        ['20 lb', '9.1 kg', '9.0718'],
        ['7.5 hp', '5.59 kW', '5.5927'],
        ['2.50e3 psi', '172.4 bar', '172.37'],
        ['1e6 Pa', '145 psi', '145.04'],
        ['-0.5 psi', '-3.4 kPa', '-3.4474'],
    ])('%s is shown as %s (exactly %s…)', (written, shown, exactly) => {
        expect(other(written)).toBe(shown);
        const [number = ''] = shown.split(' ');
        expect(Math.abs(Number(number) / Number(exactly) - 1)).toBeLessThanOrEqual(0.0201);
    });

    test('and says whether what is shown is exact', () => {
        expect(inOtherSystem(quantity('0.005 in'))).toMatchObject({ text: '0.127 mm', exact: true });
        expect(inOtherSystem(quantity('24 psi'))).toMatchObject({ text: '165 kPa', exact: false });
        expect(inOtherSystem(quantity('0 psi'))).toMatchObject({ exact: true });
        expect(inOtherSystem(quantity('24 psi'))?.quantity).toMatchObject({ number: { text: '165' }, unitText: 'kPa' });
    });
});

describe('a temperature', () => {
    // NIST SP 811 B.8, seen second-hand; whole °F to the nearest half °C: IEEE/ASTM SI 10, from memory.
    test.each([
        ['77 °F', '25 °C'],
        ['212 °F', '100 °C'],
        ['32 °F', '0 °C'],
        ['-40 °F', '-40 °C'],
        ['98.6 °F', '37.0 °C'],
        ['72 °F', '22 °C'],
        ['73 °F', '23 °C'],
        ['74 °F', '23.5 °C'],
        ['100 °F', '38 °C'],
        ['25 °C', '77 °F'],
        ['22 °C', '72 °F'],
        ['22.5 °C', '72.5 °F'],
        ['0 °C', '32 °F'],
        ['300 K', '80 °F'],
    ])('on its scale keeps its place: %s is %s', (written, shown) => {
        expect(other(written)).toBe(shown);
    });

    // NIST SP 811 B.8, temperature intervals, seen second-hand: 1 °F is 1/1.8 K.
    test.each([
        ['9 °F', '5 K'],
        ['10 °F', '5.6 K'],
        ['5 K', '9 °F'],
        ['5 °C', '9 °F'],
        ['-18 °F', '-10 K'],
    ])('as a difference takes no notice of the zero: %s is %s', (written, shown) => {
        expect(other(written, { asDifference: true })).toBe(shown);
    });
});

describe('the unit is chosen', () => {
    // Common practice, no source.
    test.each([
        ['4 inH2O', {}, '1000 Pa'],
        ['10 inH2O', {}, '2.5 kPa'],
        ['25 mbar', {}, '10.0 inH2O'],
        ['2.5 bar', {}, '36 psi'],
        ['-80 kPa', { quantity: 'pressure' }, '-11.6 psi'],
        ['-80 kPa', { quantity: 'vacuum' }, '-23.6 inHg'],
        ['0.5 mbar', { quantity: 'vacuum' }, '380 micron'],
        ['500 microns', {}, '67 Pa'],
        ['0.5 hp', {}, '370 W'],
        ['20 N·m', {}, '14.8 lbf·ft'],
        ['2 N·m', {}, '18 lbf·in'],
        ['40 in-lb', {}, '4.5 N·m'],
        ['2.5 m/s', {}, '490 ft/min'],
        ['3 kW', { heat: true }, '10200 Btu/h'],
        ['800 W', { heat: true }, '2730 Btu/h'],
        ['0 bar', {}, '0 psi'],
        ['0.5 L', {}, '17 fl oz'],
        ['2.0 L', {}, '0.53 gal'],
        ['0.0002 in', {}, '5 µm'],
    ] as const)('%s, measured as %j, is %s', (written, measured, shown) => {
        expect(other(written, measured)).toBe(shown);
    });

    test.each([
        '24 V',
        '5 mA',
        '10 kΩ',
        '3 kW',
        '2 kWh',
        '5 min',
        '10 %',
        '60 Hz',
        '1450 rpm',
        '20 EUR',
        '7',
        '5 xyz',
        '10 scfm',
        '60 dB(A)',
        '7 pH',
    ])('and %s has no other', written => {
        expect(other(written)).toBeUndefined();
        expect(otherBand(`< ${written}`)).toBeUndefined();
    });

    test('by the reader, who may want it as it was written', () => {
        expect(unitPreferences).toEqual(['as written', 'SI', 'US customary']);
        const shown = unitPreferences.map(preference =>
            ['24 psi', '2 bar', '3 kgf/cm²', '10 gal (UK)', '24 V'].map(
                written => inPreferredSystem(quantity(written), preference)?.text,
            ),
        );
        expect(shown).toEqual([
            [undefined, undefined, undefined, undefined, undefined],
            ['165 kPa', undefined, '2.9 bar', '45 L', undefined],
            [undefined, '29 psi', '43 psi', '12 gal', undefined],
        ]);
    });

    test('for a unit of neither system from the SI', () => {
        expect(other('3 kgf/cm²')).toBe('2.9 bar');
        expect(other('10 PS')).toBe('7.4 kW');
        expect(other('2 gal (UK)')).toBe('9 L');
    });
});

describe('a band', () => {
    test.each([
        ['21.6 psi .. 26.4 psi', '148.9 kPa .. 182.0 kPa'],
        ['21.6 .. 26.4 psi', '148.9 kPa .. 182.0 kPa'],
        ['< 3 psi', '< 21 kPa'],
        ['>= 100 °F', '>= 38 °C'],
        ['> 200 kPa .. < 230 kPa', '> 29 psi .. < 33 psi'],
        ['24 psi ± 10 %', '165 kPa ± 10 %'],
        ['24 psi ± 2 psi', '165 kPa ± 14 kPa'],
        ['24 ± 2 psi', '165 kPa ± 14 kPa'],
        ['24 psi', '165 kPa'],
        ['68 °F .. 77 °F', '20 °C .. 25 °C'],
        ['70 °F .. 71 °F', '21 °C .. 21.5 °C'],
        ['20 °C ± 2 °C', '68 °F ± 3.6 °F'],
        ['25 °C ± 2 K', '77 °F ± 3.6 °F'],
        ['72 °F ± 3 °F', '22.2 °C ± 1.7 °C'],
        ['0 psi .. 30 psi', '0 kPa .. 207 kPa'],
        ['0 psi .. 3000 psi', '0 bar .. 207 bar'],
        ['14.6 psi .. 14.8 psi', '100.7 kPa .. 102.0 kPa'],
        ['1 bar .. 30 psi', '14.5 psi .. 30 psi'],
    ])('%s is %s', (written, shown) => {
        expect(otherBand(written)).toBe(shown);
    });

    test('around a temperature turns a percentage into degrees, since a share of °F is no share of °C', () => {
        // 10 % of 72 °F is 7.2 °F, which is 4 K; 10 % of 22.2 °C would be 2.2 K.
        expect(otherBand('72 °F ± 10 %')).toBe('22.2 °C ± 4 °C');
        expect(otherBand('20 °C ± 5 %')).toBe('68 °F ± 1.8 °F');
        expect(otherBand('9 °F ± 10 %', { asDifference: true })).toBe('5 K ± 10 %');
    });

    test('of differences of temperatures is one of differences', () => {
        expect(otherBand('9 °F .. 18 °F', { asDifference: true })).toBe('5 K .. 10 K');
    });

    test('that cannot be read has none', () => {
        expect(otherBand('3 psi .. 5 xyz')).toBeUndefined();
        expect(otherBand('3 psi .. 5 mm')).toBeUndefined();
        expect(otherBand('3 psi ± 5 V')).toBeUndefined();
    });

    test('follows the preference of the reader', () => {
        const show = (text: string) =>
            unitPreferences.map(preference => bandInPreferredSystem(band(text), preference)?.text);
        expect(show('< 3 psi')).toEqual([undefined, '< 21 kPa', undefined]);
        expect(show('1 bar .. 30 psi')).toEqual([undefined, '100 kPa .. 207 kPa', '14.5 psi .. 30 psi']);
        expect(show('24 V ± 10 %')).toEqual([undefined, undefined, undefined]);
    });
});
