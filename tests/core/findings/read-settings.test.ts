/** The settings of a workspace: what they say, and findings at the exact place of what they cannot say. */
import { describe, expect, test } from 'vitest';
import { readSettings } from '../../../language/src/core/findings/read-settings.js';
import { defineRule } from '../../../language/src/core/findings/rule.js';
import { defaultSettings } from '../../../language/src/core/findings/settings.js';
import type { Severity } from '../../../language/src/core/findings/finding.js';

const rule = (code: string, severity: Severity) =>
    defineRule({ code, severity, since: '0.1.0', group: 'text', cost: 'fast', messages: {} });
const rules = [rule('bad-name', 'error'), rule('long-sentence', 'warning'), rule('costly-order', 'information')];
const file = 'halfsplit.json';
const read = (text: string) => readSettings(text, file, rules);

/** Each finding as the text that it is at, and its message. */
function findingsIn(text: string): readonly string[] {
    return read(text).findings.map(finding => {
        expect(finding).toMatchObject({ code: 'settings-invalid', severity: 'error', file });
        return `${text.slice(finding.start, finding.end)}: ${finding.message}`;
    });
}

test('without anything in them the defaults hold', () => {
    expect(read('{}')).toEqual({ settings: defaultSettings, findings: [] });
    expect(defaultSettings).toMatchObject({ severities: {}, locale: 'en', mostPartsAtEnd: 3, doubleFaults: false });
});

test('severities and the locale are taken over', () => {
    const text =
        '{ "severities": { "long-sentence": "off", "costly-order": "error", "bad-name": "error" }, "locale": "de-AT" }';
    expect(read(text)).toEqual({
        settings: {
            ...defaultSettings,
            severities: { 'long-sentence': 'off', 'costly-order': 'error', 'bad-name': 'error' },
            locale: 'de-AT',
        },
        findings: [],
    });
});

test('how many parts an end may name, and whether two faults at once are looked at, are taken over', () => {
    expect(read('{ "mostPartsAtEnd": 1, "doubleFaults": true }')).toEqual({
        settings: { ...defaultSettings, mostPartsAtEnd: 1, doubleFaults: true },
        findings: [],
    });
});

test('how many times larger than the uncertainty a tolerance must be is taken over', () => {
    expect(defaultSettings.testUncertaintyRatio).toBe(4);
    expect(read('{ "testUncertaintyRatio": 2.5 }')).toEqual({
        settings: { ...defaultSettings, testUncertaintyRatio: 2.5 },
        findings: [],
    });
});

describe('findings', () => {
    test.each([
        ['{', '', 'The settings are no valid JSON: a name in double quotes is expected here.'],
        ['// x', '/', 'The settings are no valid JSON: JSON has no comments.'],
        ['[]', '[]', 'The settings must be an object: braces with names and values in them.'],
        ['{ "sevrities": {} }', '"sevrities"', 'There is no setting called `sevrities`.'],
        ['{ "severities": [] }', '[]', '`severities` must be an object: a code and its severity, in braces.'],
        [
            '{ "severities": { "long-sentense": "off" } }',
            '"long-sentense"',
            'There is no finding called `long-sentense`.',
        ],
        [
            '{ "severities": { "long-sentence": "of" } }',
            '"of"',
            'A severity is `"error"`, `"warning"`, `"information"` or `"off"`.',
        ],
        ['{ "severities": { "bad-name": "off" } }', '"off"', '`bad-name` stays an error: the export depends on it.'],
        [
            '{ "locale": "English, please" }',
            '"English, please"',
            '`locale` must be a language tag such as `"en"` or `"de-AT"`.',
        ],
        ['{ "locale": 1 }', '1', '`locale` must be a language tag such as `"en"` or `"de-AT"`.'],
        ...['0', '2.5', '-1', '1e400', '"3"', 'true', 'null', '[3]'].map(value => [
            `{ "mostPartsAtEnd": ${value} }`,
            value,
            '`mostPartsAtEnd` must be a whole number of parts, 1 or more.',
        ]),
        ...['1', '"true"', 'null', '{}'].map(value => [
            `{ "doubleFaults": ${value} }`,
            value,
            '`doubleFaults` must be `true` or `false`.',
        ]),
        ...['0', '0.9', '1001', '-4', '"4"', 'null', '{}'].map(value => [
            `{ "testUncertaintyRatio": ${value} }`,
            value,
            '`testUncertaintyRatio` must be a number from 1 to 1000, for example `4`.',
        ]),
        ['{ "doubleFaults": true, "doubleFaults": true }', '"doubleFaults"', '`doubleFaults` is set twice.'],
        ['{ "locale": "de", "locale": "en" }', '"locale"', '`locale` is set twice.'],
    ])('of %s', (text, place, message) => {
        expect(findingsIn(text)).toEqual([`${place}: ${message}`]);
    });

    test('name what is like it, and offer it as an edit', () => {
        const [setting] = read('{ "sevrities": {} }').findings;
        expect(setting?.advice).toBe('There is a setting with a similar name: `severities`.');
        expect(setting?.mends).toEqual([
            {
                title: 'Write `severities`',
                safety: 'suggestion',
                edits: [{ file, start: 2, end: 13, text: '"severities"' }],
            },
        ]);
        const [unlike] = read('{ "colors": true }').findings;
        expect(unlike?.advice).toContain(
            'There are the settings `severities`, `locale`, `mostPartsAtEnd`, `doubleFaults`',
        );
        expect(unlike?.mends).toEqual([]);
        const [code] = read('{ "severities": { "something-else": "off" } }').findings;
        expect(code?.advice).toBe('`halfsplit explain` lists the codes of all findings.');
    });

    test('leave everything else in force', () => {
        const { settings, findings } = read(
            '{ "locale": 1, "mostPartsAtEnd": 0, "wrong": 2, "doubleFaults": true, "severities": { "x": 1, "long-sentence": "off" } }',
        );
        expect(findings).toHaveLength(4);
        expect(settings).toEqual({
            ...defaultSettings,
            severities: { 'long-sentence': 'off' },
            doubleFaults: true,
        });
    });
});

test('names that objects have by themselves are names like any other', () => {
    expect(findingsIn('{ "__proto__": {}, "severities": { "constructor": "off", "__proto__": "off" } }')).toHaveLength(
        3,
    );
    expect(read('{ "severities": { "__proto__": "off" } }').settings.severities).toEqual({});
});
