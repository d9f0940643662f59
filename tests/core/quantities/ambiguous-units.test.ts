/** Names of units with more than one meaning. */

import { describe, expect, test } from 'vitest';
import { ambiguousUnit, furthestApart } from '../../../language/src/core/quantities/ambiguous-units.js';
import { printFraction } from '../../../language/src/core/quantities/decimal.js';
import { coherentValue, display } from '../../../language/src/core/quantities/quantity.js';
import { unitFactor, units } from '../../../language/src/core/quantities/unit.js';
import { unitOf } from './read.js';

describe('an ambiguous name', () => {
    // NIST SP 811 (2008) B.8, seen second-hand; how far apart is recomputed from the printed factors.
    test.each([
        ['inHg', '3376.85 Pa', '0.0028'],
        ['in. w.c.', '248.84 Pa', '0.001'],
        ['Btu/h', '1054.35 J', '0.00067'],
        ['kcal', '4184 J', '0.00067'],
        ['gpm', '4.54609 L', '0.2'],
        ['t', '907.18474 kg', '0.093'],
        ['atm', '98066.5 Pa', '0.032'],
        ['therm', '105505585.262 J', '0.00024'],
    ])('%s could mean one of %s, and is up to %s apart', (spelling, size, apart) => {
        const ambiguous = ambiguousUnit(spelling);
        expect(ambiguous?.unit).toBe(unitOf(spelling));
        expect(ambiguous?.others.map(other => display(other.size))).toContain(size);
        const furthest = ambiguous && furthestApart(ambiguous);
        expect(furthest && printFraction(furthest, 2, 0).text).toBe(apart);
    });

    test('tells every other meaning, and how to write those that have a unit', () => {
        const horsepower = ambiguousUnit('hp');
        expect(horsepower?.others.map(({ name, write }) => [name, write])).toEqual([
            ['metric horsepower', 'PS'],
            ['electric horsepower', undefined],
            ['boiler horsepower', 'BoHP'],
        ]);
        expect(horsepower?.note).toContain('550 ft·lbf/s');
    });

    test('that is read as no unit has all its meanings to choose from, and none to compare them with', () => {
        const ton = ambiguousUnit('ton');
        expect(ton?.unit).toBeUndefined();
        expect(ton?.note).toBeUndefined();
        expect(ton?.others.map(({ write }) => write)).toEqual(['ston', 'lton', 't', 'TR']);
        expect(ton && furthestApart(ton)).toBeUndefined();
        expect(ambiguousUnit('MBtu/h')?.others.map(({ write }) => write)).toEqual(['kBtu/h', 'MMBtu/h']);
    });

    test('that stands for another sort of thing is apart by no number', () => {
        expect(ambiguousUnit('micron')?.others[0]?.apart).toBeUndefined();
        // The gas as it is there and the gas at standard conditions are never compared.
        expect(ambiguousUnit('cfm')?.others[0]?.apart).toBeUndefined();
        expect(ambiguousUnit('scfm')?.others[0]?.write).toBe('cfm');
    });

    test.each(['V', 'psi', 'mm', '°C', '', 'nonsense', 'constructor'])('is not %j', spelling => {
        expect(ambiguousUnit(spelling)).toBeUndefined();
    });
});

describe('the table of ambiguous names', () => {
    const known = units.flatMap(unit => ambiguousUnit(unit.symbol) ?? []);

    test('has a sentence for every unit that it names, and every size in it can be read', () => {
        expect(known.length).toBeGreaterThan(40);
        for (const { word, note, others } of [...known, ambiguousUnit('ton'), ambiguousUnit('ppt')].flatMap(
            x => x ?? [],
        )) {
            expect([word, others.length]).not.toEqual([word, 0]);
            expect(others.filter(({ size }) => size.unit === undefined)).toEqual([]);
            expect(note ?? 'none is taken').toMatch(/./);
        }
    });

    test('says how to write another meaning only with a unit that is exactly as large', () => {
        for (const { size, write } of known.flatMap(({ others }) => others)) {
            if (write !== undefined) {
                expect(coherentValue(size, true)?.equals(unitFactor(unitOf(write)))).toBe(true);
            }
        }
    });

    test('never gives the meaning that is taken as another one', () => {
        for (const { unit, others } of known) {
            expect(others.filter(({ apart }) => apart?.n === 0n).map(() => unit?.symbol)).toEqual([]);
        }
    });
});
