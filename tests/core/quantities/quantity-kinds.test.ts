/** The quantities that a test can measure: their units and the words beside them. */

import { describe, expect, test } from 'vitest';
import {
    canBeBelowZero,
    modifierProblems,
    quantityKinds,
    unitFits,
    type QuantityKind,
} from '../../../language/src/core/quantities/quantity-kinds.js';
import { units } from '../../../language/src/core/quantities/unit.js';
import { unitOf } from './read.js';

test('the usual unit of every quantity fits it', () => {
    for (const kind of quantityKinds.values()) {
        expect([kind.name, unitFits(kind, unitOf(kind.usualUnit))]).toEqual([kind.name, true]);
    }
});

test('every unit of measure fits some quantity, and every quantity that a unit is kept for exists', () => {
    const kinds = [...quantityKinds.values()];
    expect(units.filter(unit => !unit.money && !kinds.some(kind => unitFits(kind, unit)))).toEqual([]);
    expect(units.flatMap(unit => unit.usedFor ?? []).filter(name => !quantityKinds.has(name))).toEqual([]);
});

describe('a unit', () => {
    test.each([
        ['voltage', 'mV'],
        ['pressure', 'psi'],
        ['vacuum', 'inHg'],
        ['vacuum', 'micron'],
        ['flow', 'L/min'],
        ['flow', 'kg/h'],
        ['level', '%'],
        ['level', 'mm'],
        ['torque', 'N·m'],
        ['energy', 'kWh'],
        ['speed', 'rpm'],
        ['speed', 'm/s'],
        ['humidity', '% RH'],
        ['humidity', '%'],
        ['acidity', 'pH'],
        ['concentration', '% LEL'],
    ])('of %s can be %s', (name, unit) => {
        expect(unitFits(kindOf(name), unitOf(unit))).toBe(true);
    });

    test.each([
        ['voltage', 'A'],
        ['temperature', 'C'],
        ['torque', 'J'],
        ['energy', 'N·m'],
        ['frequency', 'rpm'],
        ['speed', 'Hz'],
        ['ratio', '% RH'],
        ['count', '%'],
        ['level', '% vol'],
        ['resistance', 'EUR'],
    ])('of %s cannot be %s', (name, unit) => {
        expect(unitFits(kindOf(name), unitOf(unit))).toBe(false);
    });

    test('can be left out only where a plain number is a reading', () => {
        expect(unitFits(kindOf('acidity'), undefined)).toBe(true);
        expect(unitFits(kindOf('count'), undefined)).toBe(true);
        expect(unitFits(kindOf('voltage'), undefined)).toBe(false);
    });
});

describe('the words beside a quantity', () => {
    test.each([
        ['voltage', ['DC']],
        ['voltage', ['AC', 'rms']],
        ['voltage', ['DC', 'difference']],
        ['pressure', ['gauge']],
        ['pressure', ['difference']],
        ['temperature', []],
        ['temperature', ['difference']],
        ['resistance', []],
    ])('%s %j are in order', (name, words) => {
        expect(modifierProblems(kindOf(name), words)).toEqual([]);
    });

    test('are reported when they are not known, exclude each other, or are missing', () => {
        expect(modifierProblems(kindOf('resistance'), ['DC'])).toEqual([
            { kind: 'unknown', word: 'DC', allowed: ['difference'] },
        ]);
        expect(modifierProblems(kindOf('voltage'), ['DC', 'AC'])).toEqual([{ kind: 'clash', words: ['DC', 'AC'] }]);
        expect(modifierProblems(kindOf('pressure'), [])).toEqual([
            { kind: 'missing', oneOf: ['gauge', 'absolute', 'difference'] },
        ]);
    });
});

test.each([
    ['resistance', [], false],
    ['voltage', ['DC'], true],
    ['voltage', ['AC'], false],
    ['voltage', ['AC', 'difference'], true],
    ['pressure', ['absolute'], false],
    ['pressure', ['gauge'], true],
    ['pressure', [], true],
    ['temperature', [], false],
    ['temperature', ['difference'], true],
    ['angle', [], true],
])('whether %s %j can be below zero: %j', (name, words, expected) => {
    expect(canBeBelowZero(kindOf(name), words)).toBe(expected);
});

function kindOf(name: string): QuantityKind {
    const kind = quantityKinds.get(name);
    if (kind === undefined) {
        throw new Error(`the test names the quantity ${name}`);
    }
    return kind;
}
