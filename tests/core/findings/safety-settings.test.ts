/** The settings for safety: named limits and orders, and values that can only be stricter than the named ones. */
import { describe, expect, test } from 'vitest';
import { readSettings } from '../../../language/src/core/findings/read-settings.js';
import { defaultSettings } from '../../../language/src/core/findings/settings.js';
import { safetyLimitSets } from '../../../language/src/core/safety/limit-sets.js';
import { lockoutOrders } from '../../../language/src/core/safety/lockout-orders.js';

const file = 'halfsplit.json';
const read = (text: string) => readSettings(text, file, []);
const values = (text: string) => read(text).settings.safetyLimits.values;

/** Each finding as the text that it is at, and its message. */
function findingsIn(text: string): readonly string[] {
    return read(text).findings.map(finding => {
        expect(finding).toMatchObject({ code: 'settings-invalid', severity: 'error', file });
        return `${text.slice(finding.start, finding.end)}: ${finding.message}`;
    });
}

test('where nothing is said, the limits of IEC 61010-1 and the order of 29 CFR 1910.147 hold', () => {
    const { settings } = read('{}');
    expect(settings.safetyLimits.title).toBe('IEC 61010-1, normal condition, dry');
    expect(settings.lockoutOrder.title).toBe('29 CFR 1910.147');
    expect(settings).toEqual(defaultSettings);
});

test('every set and every order can be chosen by its name', () => {
    for (const set of safetyLimitSets) {
        expect(read(`{ "safetyLimits": "${set.name}" }`)).toEqual({
            settings: { ...defaultSettings, safetyLimits: set },
            findings: [],
        });
    }
    for (const order of lockoutOrders) {
        expect(read(`{ "lockoutOrder": "${order.name}" }`).settings.lockoutOrder).toBe(order);
    }
});

describe('a stricter value', () => {
    test('holds in place of that of the set, and the others stay', () => {
        expect(values('{ "stricter": { "dcVoltage": "50 V" } }')).toEqual({
            ...safetyLimitSets[0].values,
            dcVoltage: '50 V',
        });
    });

    test('is compared with the set that is chosen, in whatever order the two stand', () => {
        const stricter = '"stricter": { "dcVoltage": "100 V" }';
        const limits = '"safetyLimits": "iec-61140"';
        for (const text of [`{ ${stricter}, ${limits} }`, `{ ${limits}, ${stricter} }`]) {
            expect(read(text).findings).toEqual([]);
            expect(values(text).dcVoltage).toBe('100 V');
        }
        expect(findingsIn(`{ ${stricter} }`)).toHaveLength(1);
    });

    test('may be in another unit, and may be the value of the set itself', () => {
        expect(values('{ "stricter": { "gaugePressure": "7 psi", "accidentalTouch": "140 °F" } }')).toMatchObject({
            gaugePressure: '7 psi',
            accidentalTouch: '140 °F',
        });
        expect(findingsIn('{ "stricter": { "gaugePressure": "50 kPa", "longContact": "321.15 K" } }')).toEqual([]);
    });

    test('that is laxer is a finding, and the value of the set stays', () => {
        const text = '{ "stricter": { "dcVoltage": "60.1 V" } }';
        expect(findingsIn(text)).toEqual([
            '"60.1 V": `dcVoltage` is laxer than in `iec-61010-1`, where it is 60 V: a workspace can only be stricter.',
        ]);
        expect(values(text).dcVoltage).toBe('60 V');
        expect(read(text).findings[0]?.advice).toBe('Write 60 V or less, or take this setting out.');
    });
});

describe('findings', () => {
    test.each([
        [
            '{ "safetyLimits": "iec-61010" }',
            '"iec-61010": There is no set of limits called `iec-61010`.',
            'There are names like it: `iec-61010-1` and `iec-61140`.',
        ],
        [
            '{ "lockoutOrder": "something else" }',
            '"something else": There is no lockout order called `something else`.',
            'The names are `osha-1910-147`, `nfpa-70e` and `en-50110-1`.',
        ],
        [
            '{ "lockoutOrder": 3 }',
            '3: `lockoutOrder` must be the name of a lockout order: `"osha-1910-147"`, `"nfpa-70e"` or `"en-50110-1"`.',
            undefined,
        ],
        [
            '{ "stricter": "60 V" }',
            '"60 V": `stricter` must be an object: a limit and its amount, in braces.',
            'Write it as in `"stricter": { "dcVoltage": "50 V" }`.',
        ],
        [
            '{ "stricter": { "colors": "50 V" } }',
            '"colors": There is no limit called `colors`.',
            'The names are `acVoltage`, `peakVoltage`, `dcVoltage`, `storedEnergy`, `longContact`, `accidentalTouch` and `gaugePressure`.',
        ],
        [
            '{ "stricter": { "dcVoltage": 50 } }',
            '50: `dcVoltage` must be an amount in quotes, such as `"60 V"`.',
            undefined,
        ],
        [
            '{ "stricter": { "dcVoltage": "50 A" } }',
            '"50 A": `dcVoltage` must be an amount in quotes, such as `"60 V"`.',
            undefined,
        ],
        [
            '{ "stricter": { "dcVoltage": "-5 V" } }',
            '"-5 V": `dcVoltage` must be an amount in quotes, such as `"60 V"`.',
            undefined,
        ],
        [
            '{ "stricter": { "dcVoltage": "50" } }',
            '"50": `dcVoltage` must be an amount in quotes, such as `"60 V"`.',
            undefined,
        ],
        [
            '{ "stricter": { "dcVoltage": "50 V", "dcVoltage": "40 V" } }',
            '"dcVoltage": `dcVoltage` is set twice.',
            'Take one of them out.',
        ],
    ])('of %s', (text, finding, advice) => {
        expect(findingsIn(text)).toEqual([finding]);
        expect(read(text).findings[0]?.advice).toBe(advice);
        // What cannot be used leaves the defaults in force.
        expect(read(text).settings.lockoutOrder).toBe(lockoutOrders[0]);
    });

    test('on names that objects have by themselves are as on any other', () => {
        expect(findingsIn('{ "stricter": { "__proto__": "1 V", "constructor": "1 V" } }')).toHaveLength(2);
    });
});
