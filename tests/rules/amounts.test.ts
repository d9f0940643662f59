/** Amounts: units that are not known, and amounts that do not fit where they stand. */
import { describe, expect, test } from 'vitest';
import { check, checkMend } from '../support/check.js';

describe('an unknown unit', () => {
    const part = (takes: string) => `equipment e { part p { replace "Replace it." takes ${takes} } }`;

    test('is marked without its number', () => {
        expect(check(part('20 mni'))).toEqual(['unit-unknown at 1:55-1:58: There is no unit `mni`.']);
    });

    test('of another case or written out is mended', () => {
        expect(checkMend(part('20 MIN<|>'), 'Write `min`')).toBe(part('20 min'));
        expect(checkMend(part('20 Minutes<|>'), 'Write `min`')).toBe(part('20 min'));
    });

    test('with the kind of voltage run into it is mended by the unit alone', () => {
        const test = (band: string) => `equipment e { test t { measure voltage AC normal ${band} } }`;
        expect(checkMend(test('230 VAC<|>'), 'Write `V`')).toBe(test('230 V'));
    });

    test('that both ends of a range share is told once', () => {
        expect(check('equipment e { test t { measure voltage DC normal 1 .. 2 Vlot } }')).toEqual([
            'unit-unknown at 1:57-1:61: There is no unit `Vlot`.',
        ]);
    });

    test('stands for a number that cannot be read as well', () => {
        expect(check(part('1e500 min'))).toEqual(['unit-unknown at 1:52-1:61: The number `1e500 min` cannot be read.']);
    });
});

describe('an amount', () => {
    const world = (clause: string) => `equipment e { ${clause} }`;
    const found = (text: string) => check(text).map(line => line.replace(/ at [\d:-]+: /, ': '));

    test.each([
        ['part p { replace "R" takes 3 V }', '`takes` needs a time, and `V` is a unit of voltage.'],
        ['part p { replace "R" costs 3 min }', '`costs` needs a sum of money, and `min` is a unit of time.'],
        ['test t { observe takes -3 min normal yes }', '`takes` cannot be below zero, as `-3 min` is.'],
        [
            'test t { observe during "the start" 3 A normal yes }',
            'A duration needs a time, and `A` is a unit of electric current.',
        ],
        ['option o { a share 3 min b }', '`share` needs a share, and `min` is a unit of time.'],
        ['option o { a share 100.1 % b }', '`share` cannot be above 100 %, as `100.1 %` is.'],
        [
            'option o { a duty 3 min per 1 h b }',
            '`duty` needs a number of starts, operations or cycles, and `min` is a unit of time.',
        ],
        ['option o { a duty 3 starts per 0 h b }', 'The `per` of a duty cannot be zero.'],
        ['part p { fault f rate 3 min per 1e6 h }', '`rate` needs a number of faults, and `min` is a unit of time.'],
        [
            'part p { fault f rate 3 per 1e6 V }',
            'The `per` of a rate needs a time or a number of starts, operations or cycles, and `V` is a unit of voltage.',
        ],
        ['part p { fault f { causes p.f after 3 m } }', '`after` needs a time, and `m` is a unit of length.'],
        ['hazard h { thermal cools in 3 m }', 'How long a hazard lasts needs a time, and `m` is a unit of length.'],
        [
            'hazard h { electrical stored 3 V through 3 s }',
            '`stored` needs a capacitance, and `V` is a unit of voltage.',
        ],
        ['hazard h { electrical stored 3 µF through 3 s }', '`through` needs a resistance, and `s` is a unit of time.'],
        [
            'zone z { category III 3 A }',
            'The voltage of a `category` needs a voltage, and `A` is a unit of electric current.',
        ],
        ['gate g { release "R" 3 A }', 'A duration needs a time, and `A` is a unit of electric current.'],
    ])('that does not fit in %s is told', (clause, message) => {
        expect(found(world(clause))[0]).toBe(`amount-does-not-fit: ${message}`);
    });

    test.each([
        'option o { a share 0 % duty 12 cycles per 1 h b share 100 % }',
        'part p { fault f rate 0 per 1e6 starts fault g rate 2 per 100 operations replace "R" takes 0.5 h costs 0 EUR }',
        'hazard h { electrical stored 470 µF through 47 kΩ cools in 2 min }',
        'zone z { category III 600 V }',
        'instrument i { measures voltage DC -3 V .. 3 V }',
    ])('that fits in %s is not told', clause => {
        expect(found(world(clause))).toEqual([]);
    });

    test('in a tree must fit as well', () => {
        const text = [
            'equipment e { part p { fault f } test t { checks p.f as off observe normal yes off no } }',
            'tree c of e { complaint t off mistaken 3 V step s { wait 3 V test t { normal -> r off -> d } } conclude d { p.f } refer r }',
            'scenario "S" of c { fault p.f expect d within 3 V }',
        ].join('\n');
        expect(found(text).filter(line => line.startsWith('amount'))).toEqual([
            'amount-does-not-fit: `mistaken` needs a share, and `V` is a unit of voltage.',
            'amount-does-not-fit: `wait` needs a time, and `V` is a unit of voltage.',
            'amount-does-not-fit: `within` needs a time, and `V` is a unit of voltage.',
        ]);
    });
});
