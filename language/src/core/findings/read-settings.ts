// Reads the settings file of a workspace; what is wrong in it is a finding at its place.

import type { FileId } from '../model/written.js';
import { type JsonTree, readJson } from '../text/json-tree.js';
import { listOf, quoteName } from '../text/words.js';
import type { Finding, Severity } from './finding.js';
import { readLockoutOrder, readSafetyLimits, readStricter } from './read-safety-settings.js';
import { makeFinding, type Rule } from './rule.js';
import { namePlace, type Reading, reportName, singleProperties } from './setting-parts.js';
import { defaultSettings, type Settings } from './settings.js';

/** The settings as far as they could be read, and what is wrong with the file. */
export interface SettingsReading {
    readonly settings: Settings;
    readonly findings: readonly Finding[];
}

/**
 * Reads the text of a settings file. Never throws; what cannot be used is left at its default and is a finding.
 * `rules` tells which codes there are.
 */
export function readSettings(text: string, file: FileId, rules: readonly Rule[]): SettingsReading {
    const findings: Finding[] = [];
    const reading: Reading = {
        rules: new Map(rules.map(rule => [rule.code, rule])),
        report: (place, message, extras) => {
            const { start, end } = place;
            findings.push(makeFinding('settings-invalid', 'error', message, { file, start, end }, extras));
        },
        file,
    };
    const tree = readJson(text);
    if (tree.sort === 'problem') {
        reading.report(tree, `The settings are no valid JSON: ${lowerFirst(tree.message)}`);
        return { settings: defaultSettings, findings };
    }
    if (tree.sort !== 'object') {
        reading.report(tree, 'The settings must be an object: braces with names and values in them.');
        return { settings: defaultSettings, findings };
    }
    let settings = defaultSettings;
    let stricter: JsonTree | undefined;
    for (const { name, value, ...place } of singleProperties(reading, tree)) {
        if (name === 'severities') settings = { ...settings, severities: readSeverities(reading, value) };
        else if (name === 'locale') settings = { ...settings, locale: readLocale(reading, value) };
        else if (name === 'mostPartsAtEnd') settings = { ...settings, mostPartsAtEnd: readMostParts(reading, value) };
        else if (name === 'doubleFaults') settings = { ...settings, doubleFaults: readSwitch(reading, name, value) };
        else if (name === 'testUncertaintyRatio') settings = { ...settings, [name]: readRatio(reading, value) };
        else if (name === 'safetyLimits') settings = { ...settings, safetyLimits: readSafetyLimits(reading, value) };
        else if (name === 'lockoutOrder') settings = { ...settings, lockoutOrder: readLockoutOrder(reading, value) };
        else if (name === 'stricter') stricter = value;
        else reportName(reading, 'setting', name, settingNames, namePlace(place));
    }
    // Stricter than what is known only when all settings have been read, in whatever order they stand.
    if (stricter) {
        settings = { ...settings, safetyLimits: readStricter(reading, stricter, settings.safetyLimits) };
    }
    return { settings, findings };
}

const settingNames = [
    'severities',
    'locale',
    'mostPartsAtEnd',
    'doubleFaults',
    'testUncertaintyRatio',
    'safetyLimits',
    'lockoutOrder',
    'stricter',
];
const severityNames: readonly (Severity | 'off')[] = ['error', 'warning', 'information', 'off'];

function readSeverities(reading: Reading, value: JsonTree): Settings['severities'] {
    if (value.sort !== 'object') {
        reading.report(value, '`severities` must be an object: a code and its severity, in braces.', {
            advice: 'Write it as in `"severities": { "long-sentence": "off" }`.',
        });
        return {};
    }
    const severities: [string, Severity | 'off'][] = [];
    for (const { name, value: wanted, ...place } of singleProperties(reading, value)) {
        const rule = reading.rules.get(name);
        if (!rule) {
            reportName(reading, 'finding', name, [...reading.rules.keys()], namePlace(place));
            continue;
        }
        const severity = readSeverity(reading, wanted);
        if (severity === undefined) continue;
        if (rule.severity === 'error' && severity !== 'error') {
            reading.report(wanted, `${quoteName(name)} stays an error: the export depends on it.`, {
                advice: 'Take this setting out.',
            });
            continue;
        }
        severities.push([name, severity]);
    }
    return Object.fromEntries(severities);
}

function readSeverity(reading: Reading, value: JsonTree): Severity | 'off' | undefined {
    const severity = value.sort === 'scalar' ? severityNames.find(name => name === value.value) : undefined;
    if (severity === undefined) {
        const words = listOf(
            severityNames.map(name => `\`"${name}"\``),
            'or',
        );
        reading.report(value, `A severity is ${words}.`);
    }
    return severity;
}

// The form of a language tag as BCP 47 has it: a language, then parts of letters and digits.
const localePattern = /^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$/;

function readLocale(reading: Reading, value: JsonTree): string {
    if (value.sort === 'scalar' && typeof value.value === 'string' && localePattern.test(value.value)) {
        return value.value;
    }
    reading.report(value, '`locale` must be a language tag such as `"en"` or `"de-AT"`.');
    return defaultSettings.locale;
}

function readMostParts(reading: Reading, value: JsonTree): number {
    const number = value.sort === 'scalar' ? value.value : undefined;
    if (typeof number === 'number' && Number.isInteger(number) && number >= 1) return number;
    reading.report(value, '`mostPartsAtEnd` must be a whole number of parts, 1 or more.');
    return defaultSettings.mostPartsAtEnd;
}

function readRatio(reading: Reading, value: JsonTree): number {
    const number = value.sort === 'scalar' ? value.value : undefined;
    if (typeof number === 'number' && number >= 1 && number <= largestRatio) return number;
    reading.report(value, '`testUncertaintyRatio` must be a number from 1 to 1000, for example `4`.');
    return defaultSettings.testUncertaintyRatio;
}

const largestRatio = 1000;

function readSwitch(reading: Reading, name: string, value: JsonTree): boolean {
    if (value.sort === 'scalar' && typeof value.value === 'boolean') return value.value;
    reading.report(value, `${quoteName(name)} must be \`true\` or \`false\`.`);
    return false;
}

function lowerFirst(sentence: string): string {
    // An abbreviation keeps its capitals.
    return /^[A-Z][A-Z]/.test(sentence) ? sentence : `${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`;
}
