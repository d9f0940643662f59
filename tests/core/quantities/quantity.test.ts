/** Quantities: reading them from one token, showing them, and doing so cheaply. */

import { describe, expect, test } from 'vitest';
import { parseDecimal } from '../../../language/src/core/quantities/decimal.js';
import { coherentValue, display, makeQuantity, parseQuantity } from '../../../language/src/core/quantities/quantity.js';
import { quantity, unitOf } from './read.js';

describe('a quantity is read', () => {
    test.each([
        ['24 V', '24', 'V', '24 V'],
        ['24V', '24', 'V', '24 V'],
        ['21.6', '21.6', '', '21.6'],
        ['180 Ω', '180', 'Ω', '180 Ω'],
        ['1e6 h', '1000000', 'h', '1000000 h'],
        ['-0.2 V', '-0.2', 'V', '-0.2 V'],
        ['\u22120.2 V', '-0.2', 'V', '-0.2 V'],
        ['85 °C', '85', '°C', '85 °C'],
        ['5 kΩ', '5', 'kΩ', '5 kΩ'],
        ['4.7 uF', '4.7', 'uF', '4.7 µF'],
        ['2.5 L/min', '2.5', 'L/min', '2.5 L/min'],
        ['30 psi', '30', 'psi', '30 psi'],
        ['10 in. w.c.', '10', 'in. w.c.', '10 inH2O'],
        ['29.9 inHg', '29.9', 'inHg', '29.9 inHg'],
        ['48 EUR', '48', 'EUR', '48 EUR'],
        ['90 s', '90', 's', '90 s'],
        ['2000 rpm', '2000', 'rpm', '2000 rpm'],
        ['2000 1/min', '2000', '1/min', '2000 1/min'],
        ['70 %', '70', '%', '70 %'],
        ['70%', '70', '%', '70 %'],
        ['3 digits', '3', 'digits', '3 digits'],
        ['45 deg', '45', 'deg', '45°'],
        ['7\u00A0bar', '7', 'bar', '7 bar'],
        ['55 % RH', '55', '% RH', '55 % RH'],
    ])('from %j', (text, number, unitText, shown) => {
        const read = quantity(text);
        expect(read.number.text).toBe(number);
        expect(read.unitText).toBe(unitText);
        expect(read.unit === undefined).toBe(unitText === '');
        expect(display(read)).toBe(shown);
    });

    test('with a unit that is not known as it was written', () => {
        expect(quantity('5 parsecs')).toMatchObject({ unit: undefined, unitText: 'parsecs' });
        expect(display(quantity('5 parsecs'))).toBe('5 parsecs');
    });

    test.each(['', 'V', 'about 5 V', '1,5 V', '1.2.3 V', '- 5 V', '1e999 V', '.. 5'])('not from %j', text => {
        expect(parseQuantity(text)).toBeUndefined();
        expect(parseQuantity(text)).toBeUndefined();
    });

    test('as plain data that survives being copied', () => {
        expect(structuredClone(quantity('4.7 uF'))).toEqual(quantity('4.7 uF'));
    });

    test('and what it shows is read as the same quantity', () => {
        for (const text of ['4.7 uF', '45 deg', '10 in. w.c.', '\u22120.2 V', '3 dgt', '1e40 V']) {
            const again = quantity(display(quantity(text)));
            expect(again.unit).toBe(quantity(text).unit);
            expect(again.number.text).toBe(quantity(text).number.text);
        }
    });
});

test('a quantity can be made of a number and a unit', () => {
    const number = parseDecimal('3');
    expect(number && display(makeQuantity(number, unitOf('bar')))).toBe('3 bar');
    expect(number && display(makeQuantity(number, undefined))).toBe('3');
});

test('the value in the coherent SI unit is exact, and a temperature can be a difference', () => {
    expect(coherentValue(quantity('5 kΩ'))?.toFraction()).toBe('5000');
    expect(coherentValue(quantity('0 °C'))?.toString()).toBe('273.15');
    expect(coherentValue(quantity('9 °F'), true)?.toFraction()).toBe('5');
    expect(coherentValue(quantity('0.5'))?.toFraction()).toBe('1/2');
    expect(coherentValue(quantity('5 parsecs'))).toBeUndefined();
});

test('a text that comes again gives the same object, and more texts than are kept are still read', () => {
    expect(parseQuantity('24 V')).toBe(parseQuantity('24 V'));
    const texts = Array.from(
        { length: 30_000 },
        (_, index) => `${index}.5 ${['V', 'kΩ', 'in. w.c.', 'nonsense'][index % 4] ?? ''}`,
    );
    const read = texts.map(text => parseQuantity(text));
    expect(read.every((found, index) => found?.number.text === `${index}.5`)).toBe(true);
    expect(parseQuantity(texts[29_999] ?? '')).toBe(read[29_999]);
    // The first ones are no longer kept: they are read again, and alike.
    expect(parseQuantity(texts[0] ?? '')).not.toBe(read[0]);
    expect(parseQuantity(texts[0] ?? '')).toEqual(read[0]);
});
