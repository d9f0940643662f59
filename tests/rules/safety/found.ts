/** Short forms for the tests of the safety rules: a text in, the findings of one rule out, each with the words it is at. */
import type { Finding } from '../../../language/src/core/findings/finding.js';
import { readSettings } from '../../../language/src/core/findings/read-settings.js';
import { settingsFile } from '../../../language/src/core/findings/settings.js';
import { onlyFile } from '../../support/check.js';
import { findingsOf } from '../../support/read-texts.js';

/** The findings of a rule as `the words it is at: message [counterexample]`. `settings` is what the settings file holds. */
export function found(code: string, text: string, settings = '{}'): string[] {
    return findingsIn(code, text, settings).map(({ start, end, message, counterexample }) => {
        const build = counterexample ? ` [${counterexample.build.join(', ')}]` : '';
        return `${text.slice(start, end).split('\n')[0] ?? ''}: ${message}${build}`;
    });
}

/** The findings of a rule. */
export function findingsIn(code: string, text: string, settings = '{}'): readonly Finding[] {
    const reading = readSettings(settings, settingsFile, []);
    if (reading.findings[0]) throw new Error(`The settings of a test are wrong: ${reading.findings[0].message}`);
    const all = findingsOf({ [onlyFile]: text }, { settings: reading.settings, cost: 'fast' });
    return all.filter(finding => finding.code === code);
}
