/** Two worlds that are wrong on purpose show every finding, and each whole report stays as it is in a golden file. */
import { describe, expect, test } from 'vitest';
import { readSettings } from '../../language/src/core/findings/read-settings.js';
import { settingsFile } from '../../language/src/core/findings/settings.js';
import { rules } from '../../language/src/rules/index.js';
import { readFolder } from '../support/read-folder.js';
import { findingsOf } from '../support/read-texts.js';
import { writeReport } from '../support/report.js';

/** What is wrong in `everything-wrong` can be read off the text; what is wrong in `wrong-ways` shows on the ways through it. */
const worlds = ['everything-wrong', 'wrong-ways'].map(name => {
    const texts = readFolder(`tests/worlds-wrong/${name}`);
    const reading = readSettings(texts[settingsFile] ?? '{}', settingsFile, rules);
    return { name, texts, reading, findings: findingsOf(texts, { settings: reading.settings }) };
});

/** Codes that the worlds do not show, and why. */
const notShown: Readonly<Record<string, string>> = {
    'internal-failure': 'it is a mistake of the tool, which is mended where one is known',
    'rule-failed': 'it is a mistake of the tool, which is mended where one is known',
    'settings-invalid': 'it is in the settings file, which is no source; the tests of the settings show it',
    'unreadable-file': 'a file that is no text does not belong among texts',
    'undecided-builds': 'it takes hundreds of lines; a test of its own makes them',
    'undecided-walk': 'it takes hundreds of lines; a test of its own limits the walk instead',
};

test('the worlds that are wrong on purpose show every finding there is', () => {
    const shown = new Set(worlds.flatMap(({ findings }) => findings.map(({ code }) => code)));
    const missing = rules.map(({ code }) => code).filter(code => !shown.has(code));
    expect(missing).toEqual(Object.keys(notShown).sort());
});

test('what shows on the ways is shown by the world that can be read to its end, and nothing else', () => {
    const shown = new Set(worlds.find(({ name }) => name === 'wrong-ways')?.findings.map(({ code }) => code));
    const walked = rules.filter(({ asks }) => asks === 'walked').map(({ code }) => code);
    expect([...shown, 'undecided-walk'].sort()).toEqual(walked);
});

describe.each(worlds)('the world `$name`', ({ name, texts, reading, findings }) => {
    test('has settings that can be read', () => {
        expect(reading.findings).toEqual([]);
    });

    test('makes no rule fail', () => {
        expect(findings.filter(({ code }) => code === 'rule-failed')).toEqual([]);
    });

    test('has the report that is golden', async () => {
        await expect(writeReport(findings, texts)).toMatchFileSnapshot(`golden/${name}.txt`);
    });
});
