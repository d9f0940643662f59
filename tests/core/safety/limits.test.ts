/** The sets of limits against published values; beside each stands where it was published and how it was had. */
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { type LimitName, safetyLimitSets } from '../../../language/src/core/safety/limit-sets.js';
import {
    gaugePressure,
    limitKinds,
    limitNames,
    limitValue,
    voltageLimit,
    withStricter,
} from '../../../language/src/core/safety/limits.js';
import { sameDimensions } from '../../../language/src/core/quantities/dimensions.js';
import { parseQuantity } from '../../../language/src/core/quantities/quantity.js';

const named = (name: string) => safetyLimitSets.find(one => one.name === name) ?? safetyLimitSets[0];
const si = (set: string, limit: LimitName) => limitValue(named(set), limit).valueOf();

describe('the limits', () => {
    test.each([
        // IEC 61010-1, normal condition, dry: 30 V rms, 42.4 V peak, 60 V DC. Seen second-hand.
        ['iec-61010-1', 'acVoltage', 30],
        ['iec-61010-1', 'peakVoltage', 42.4],
        ['iec-61010-1', 'dcVoltage', 60],
        // IEC 61010-1, normal condition, wet: 16 V rms, 22.6 V peak, 35 V DC. From memory.
        ['iec-61010-1-wet', 'acVoltage', 16],
        ['iec-61010-1-wet', 'peakVoltage', 22.6],
        ['iec-61010-1-wet', 'dcVoltage', 35],
        // IEC 61140 and 60364-4-41, band I: 50 V AC, 120 V ripple-free DC. From memory.
        ['iec-61140', 'acVoltage', 50],
        ['iec-61140', 'dcVoltage', 120],
        // NFPA 70E, article 360: below 100 V a hazard above 100 J. From memory.
        ['iec-61010-1', 'storedEnergy', 100],
        // ISO 13732-1, bare smooth metal: 48 °C for 10 min, seen second-hand; 65 °C for 1 s, from memory. In kelvins.
        ['iec-61010-1', 'longContact', 321.15],
        ['iec-61010-1', 'accidentalTouch', 338.15],
        // Directive 2014/68/EU, article 1(1): 0.5 bar above the air. From memory. In pascals.
        ['iec-61010-1', 'gaugePressure', 50_000],
    ] as const)('of %s have the published %s', (set, limit, value) => {
        expect(si(set, limit)).toBe(value);
    });

    test('for a peak are those of a sine with the limit for rms, in every set', () => {
        // The peak of a sine is √2 times its rms value; the published pairs are rounded to a tenth of a volt.
        for (const { name } of safetyLimitSets) {
            expect(Math.abs(si(name, 'peakVoltage') - Math.SQRT2 * si(name, 'acVoltage'))).toBeLessThan(0.1);
        }
    });

    test('are amounts of what they limit, in every set', () => {
        for (const { values } of safetyLimitSets) {
            expect(Object.keys(values).sort()).toEqual([...limitNames].sort());
            for (const name of limitNames) {
                const unit = parseQuantity(values[name])?.unit;
                expect(unit && sameDimensions(unit.dimension, limitKinds[name].dimension)).toBe(true);
            }
        }
    });

    test('may be stricter one by one', () => {
        const stricter = withStricter(safetyLimitSets[0], { dcVoltage: '50 V' });
        expect(limitValue(stricter, 'dcVoltage').valueOf()).toBe(50);
        expect(limitValue(stricter, 'acVoltage').valueOf()).toBe(30);
    });
});

describe('a voltage', () => {
    test.each([
        [['AC'], 'acVoltage'],
        [['AC', 'rms'], 'acVoltage'],
        [['rms'], 'acVoltage'],
        [['AC', 'peak'], 'peakVoltage'],
        [['DC'], 'dcVoltage'],
        [['DC', 'difference'], 'dcVoltage'],
        // Of two that may be meant, the lower one holds.
        [[], 'acVoltage'],
    ] as const)('that is written with %j is compared with %s', (modes, limit) => {
        for (const set of safetyLimitSets) expect(voltageLimit(set, modes)).toBe(limit);
    });
});

describe('a pressure', () => {
    test('above the air stays as it is', () => {
        expect(gaugePressure(new Fraction(50_000), ['gauge']).valueOf()).toBe(50_000);
        expect(gaugePressure(new Fraction(50_000), ['difference']).valueOf()).toBe(50_000);
    });

    test('that is absolute loses one atmosphere', () => {
        // 1 atm = 101 325 Pa exactly: NIST SP 811, appendix B.8, seen second-hand.
        expect(gaugePressure(new Fraction(151_325), ['absolute']).valueOf()).toBe(50_000);
    });
});
