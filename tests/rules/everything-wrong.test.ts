/** A world that is wrong on purpose shows nearly every finding, and the whole report stays as it is in a golden file. */
import { expect, test } from 'vitest';
import { rules } from '../../language/src/rules/index.js';
import { readFolder } from '../support/read-folder.js';
import { findingsOf } from '../support/read-texts.js';
import { writeReport } from '../support/report.js';

const texts = readFolder('tests/worlds-wrong/everything-wrong');
const findings = findingsOf(texts);

/** Codes that the world does not show, and why. */
const notShown: Readonly<Record<string, string>> = {
    'internal-failure': 'it is a mistake of the tool, which is mended where one is known',
    'rule-failed': 'it is a mistake of the tool, which is mended where one is known',
    'settings-invalid': 'it is in the settings file, which is no source; the tests of the settings show it',
    'unreadable-file': 'a file that is no text does not belong among texts',
    'undecided-builds': 'it takes hundreds of lines; a test of its own makes them',
};

test('the world that is wrong on purpose shows every finding there is', () => {
    const shown = new Set(findings.map(({ code }) => code));
    const missing = rules.map(({ code }) => code).filter(code => !shown.has(code));
    expect(missing).toEqual(Object.keys(notShown).sort());
});

test('no rule fails on the world that is wrong on purpose', () => {
    expect(findings.filter(({ code }) => code === 'rule-failed')).toEqual([]);
});

test('the report of the world that is wrong on purpose is the golden one', async () => {
    await expect(writeReport(findings, texts)).toMatchFileSnapshot('golden/everything-wrong.txt');
});
