/** The units of a document: all that the verifier knows can be written, and the player converts by them as the verifier does. */
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { differenceToCoherent, toCoherent } from '../../language/src/core/quantities/unit-conversion.js';
import { units } from '../../language/src/core/quantities/unit.js';
import { writeUnits } from '../../language/src/document/writing/units.js';
import { toNumber } from '../../language/src/player/rational.js';
import type { Tree } from '../../language/src/player/tree.js';
import { fromCoherent, toCoherent as playerCoherent } from '../../language/src/player/units.js';

const coded = units.flatMap(unit => (unit.ucum === undefined ? [] : [{ ...unit, ucum: unit.ucum }]));
const written = writeUnits(coded.map(({ ucum }) => ({ unit: ucum })));
// Only the units of the document are asked for.
const tree = { document: { units: written } } as unknown as Tree;

test('every unit is written once, in the order of the codes', () => {
    const codes = written.map(({ code }) => code);
    expect(codes).toEqual([...new Set(coded.map(({ ucum }) => ucum))].sort());
});

test.each([12.5, -40, 0.001])('%d of every unit is what the verifier has for it, forward and back', value => {
    for (const unit of coded) {
        for (const asDifference of [false, true]) {
            const expected = (asDifference ? differenceToCoherent : toCoherent)(new Fraction(value), unit).valueOf();
            const coherent = playerCoherent(value, unit.ucum, asDifference, tree);
            const scale = Math.max(Math.abs(expected), 1e-30);
            expect(Math.abs(toNumber(coherent.value) - expected) / scale, unit.ucum).toBeLessThan(1e-12);
            const back = fromCoherent(coherent, unit.ucum, asDifference, tree);
            expect(back && toNumber(back), unit.ucum).toBeCloseTo(value, 9);
        }
    }
});

describe('published values', () => {
    // NIST SP 811 (2008), appendix B.8, from memory.
    test.each([
        [1, '[psi]', 6894.757, 3],
        [212, '[degF]', 373.15, 10],
        [1, '[in_i]', 0.0254, 12],
        [1, 'bar', 100_000, 6],
        [1, 'h', 3600, 9],
    ])('%d %s', (value, code, expected, digits) => {
        expect(toNumber(playerCoherent(value, code, false, tree).value)).toBeCloseTo(expected, digits);
    });
});

test('a prefix is taken where the unit takes one, and nowhere else', () => {
    const some = {
        document: { units: written.filter(({ code }) => ['V', 'Cel', '%', 'mA'].includes(code)) },
    } as unknown as Tree;
    const dimension = (code: string): string => playerCoherent(1, code, false, some).dimension;
    expect(dimension('kV')).toBe(dimension('V'));
    expect(toNumber(playerCoherent(5, 'uV', false, some).value)).toBe(5e-6);
    expect(dimension('mCel')).toBe('unit mCel');
    expect(dimension('m%')).toBe('unit m%');
    expect(dimension('A')).toBe('unit A');
    expect(dimension('constructor')).toBe('unit constructor');
});

test('only what a document uses is written, with the unit of the SI beside it', () => {
    expect(writeUnits([{ unit: 'mV', other: { unit: '[degF]' } }]).map(({ code }) => code)).toEqual([
        'K',
        'V',
        '[degF]',
        'mV',
    ]);
});
