/** Looking units up, suggesting near ones, and telling a lexer where units end. */

import { describe, expect, test } from 'vitest';
import { units } from '../../../language/src/core/quantities/unit.js';
import {
    findUnit,
    longUnitSpellings,
    nearUnits,
    splitUnit,
    unitCharacters,
    unitMeant,
    unitStartCharacters,
} from '../../../language/src/core/quantities/unit-spellings.js';

describe('a unit is found', () => {
    test.each([
        ['V', 'V'],
        ['uF', 'µF'],
        ['μF', 'µF'],
        ['µF', 'µF'],
        ['ohm', 'Ω'],
        ['k\u2126', 'kΩ'],
        ['kohm', 'kΩ'],
        ['degC', '°C'],
        ['degF', '°F'],
        ['l/min', 'L/min'],
        ['m3/h', 'm³/h'],
        ['in. w.c.', 'inH2O'],
        ['in w.c.', 'inH2O'],
        ['in.  w.c.', 'inH2O'],
        ['r/min', 'rpm'],
        ['Nm', 'N·m'],
        ['digit', 'digits'],
        ['cycles', 'cycles'],
        ['umHg', 'micron'],
        ['EUR', 'EUR'],
        ['deg', '°'],
    ])('as %s and shown as %s', (spelling, symbol) => {
        expect(findUnit(spelling)?.symbol).toBe(symbol);
    });

    test('only in the right case', () => {
        expect(findUnit('mΩ')?.name).toBe('milliohm');
        expect(findUnit('MΩ')?.name).toBe('megaohm');
        expect(findUnit('mV')?.name).toBe('millivolt');
        expect(findUnit('MV')).toBeUndefined();
        expect(findUnit('v')).toBeUndefined();
        expect(findUnit('KPA')).toBeUndefined();
        expect(findUnit('')).toBeUndefined();
        expect(findUnit('constructor')).toBeUndefined();
    });
});

describe('near units', () => {
    test.each([
        ['MV', ['mV']],
        ['mw', ['MW', 'mW']],
        ['v', ['V']],
        ['KPA', ['kPa']],
        ['Kohm', ['kΩ']],
        ['volts', ['V']],
        ['millivolts', ['mV']],
        ['amps', ['A']],
        ['liters per minute', ['L/min']],
        ['Celsius', ['°C']],
        ['L/mim', ['L/min']],
        ['k', ['kΩ', 'K']],
        ['VAC', ['V']],
        ['psig', ['psi']],
        ['euros', ['EUR']],
    ])('of %s begin with what was meant', (spelling, symbols) => {
        expect(nearUnits(spelling).slice(0, symbols.length)).toEqual(symbols);
    });

    test('are at most three, each once, and none for nonsense', () => {
        for (const { symbol } of units) {
            const near = nearUnits(`${symbol}x`);
            expect(near.length).toBeLessThanOrEqual(3);
            expect(new Set(near).size).toBe(near.length);
        }
        expect(nearUnits('flibbertigibbet')).toEqual([]);
        expect(nearUnits('per')).toEqual([]);
        expect(nearUnits('EUT')).toContain('EUR');
        expect(nearUnits('')).toEqual([]);
        expect(nearUnits(' .')).toEqual([]);
    });
});

describe('a unit with a remark run into it is taken apart', () => {
    test.each([
        ['VAC', 'V', 'AC'],
        ['Vdc', 'V', 'DC'],
        ['V DC', 'V', 'DC'],
        ['mADC', 'mA', 'DC'],
        ['psig', 'psi', 'gauge'],
        ['psia', 'psi', 'absolute'],
        ['psid', 'psi', 'difference'],
        ['bar(g)', 'bar', 'gauge'],
        ['barg', 'bar', 'gauge'],
        ['mbara', 'mbar', 'absolute'],
        ['kPa(a)', 'kPa', 'absolute'],
        ['kPa abs', 'kPa', 'absolute'],
    ])('%s as %s with %s', (spelling, symbol, modifier) => {
        expect(splitUnit(spelling)).toEqual({ unit: findUnit(symbol), modifier });
    });

    test.each(['V', 'kg', 'ΩAC', 'AC', 'a', 'x(g)', ''])('but not %j', spelling => {
        expect(splitUnit(spelling)).toBeUndefined();
    });
});

describe('for a lexer', () => {
    const plain = new RegExp(`^[${unitStartCharacters}][${unitCharacters}]*$`, 'u');

    test('every spelling is either plain or in the list of long ones', () => {
        const spellings = units.flatMap(unit => unit.spellings);
        expect(spellings.filter(spelling => plain.test(spelling) === longUnitSpellings.includes(spelling))).toEqual([]);
    });

    test('the long spellings come with the longest first', () => {
        const lengths = longUnitSpellings.map(spelling => spelling.length);
        expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
        expect(longUnitSpellings).toContain('in. w.c.');
        expect(longUnitSpellings).toContain('1/min');
        expect(longUnitSpellings).not.toContain('V');
    });

    test('a plain unit takes in neither the dots of a range nor a bracket', () => {
        const rest = new RegExp(`[${unitStartCharacters}][${unitCharacters}]*`, 'u');
        expect(rest.exec('V..26 V')?.[0]).toBe('V');
        expect(rest.exec('V}')?.[0]).toBe('V');
    });
});

describe('an unknown spelling can mean one unit only', () => {
    test.each([
        ['v', 'V'],
        ['KV', 'kV'],
        ['OHM', 'Ω'],
        ['volts', 'V'],
        ['Minutes', 'min'],
        ['eur', 'EUR'],
        ['€', 'EUR'],
    ])('as %s means %s', (spelling, symbol) => {
        expect(unitMeant(spelling)?.symbol).toBe(symbol);
    });

    test.each(['mw', '$', 'Vlot', 'xyz', '', '  '])('and %j does not', spelling => {
        expect(unitMeant(spelling)).toBeUndefined();
    });
});
