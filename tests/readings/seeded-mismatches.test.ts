/**
 * Each seeded mistake with units, curves and calculations is found as you type, by the finding that names it, with one more at most; what
 * is used before it is taken shows when the trees are walked.
 */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../language/src/core/findings/finding.js';
import { rules } from '../../language/src/rules/index.js';
import { readFolder } from '../support/read-folder.js';
import { readTexts, type Texts, verifyTexts } from '../support/read-texts.js';
import { type SeededMismatch, seededMismatches } from './seeded-mismatches.js';

const examples: Readonly<Record<SeededMismatch['example'], Texts>> = {
    'cold-room': readFolder('examples/cold-room'),
    'dust-extractor': readFolder('examples/dust-extractor'),
    'ev-charger': readFolder('examples/ev-charger'),
};

test('there are enough mistakes, and some for each code', () => {
    expect(seededMismatches.length).toBeGreaterThanOrEqual(25);
    const codes = [
        'unit-mismatch',
        'ac-dc-mismatch',
        'gauge-or-absolute',
        'difference-or-value',
        'curve-unclear',
        'used-before-taken',
    ];
    for (const code of codes) {
        expect(seededMismatches.filter(mistake => mistake.code === code).length, code).toBeGreaterThanOrEqual(3);
    }
    expect(new Set(seededMismatches.map(({ slip }) => slip)).size).toBe(seededMismatches.length);
});

describe.each(seededMismatches)('$slip', mistake => {
    const texts = examples[mistake.example];

    test('is named, with one more finding at most', () => {
        expect(texts[mistake.file]?.split(mistake.oldText)).toHaveLength(2);
        const edited = {
            ...texts,
            [mistake.file]: texts[mistake.file]?.replace(mistake.oldText, () => mistake.newText) ?? '',
        };
        expect(readTexts(edited).findings).toEqual([]);
        const cost = rules.find(({ code }) => code === mistake.code)?.cost ?? 'fast';
        const { findings } = verifyTexts(edited, { cost });
        const found = findings.map(finding => `${finding.code} in ${toldOf(finding, edited)}`);
        const isNamed = findings.some(
            finding => finding.code === mistake.code && toldOf(finding, edited).includes(mistake.at),
        );
        expect(isNamed, found.join('\n')).toBe(true);
        expect(found.length, found.join('\n')).toBeLessThanOrEqual(2);
    });
});

/** The lines of a finding's range, and its message. */
function toldOf({ file, start, end, message }: Finding, texts: Texts): string {
    const text = texts[file] ?? '';
    const first = text.lastIndexOf('\n', start - 1) + 1;
    const last = text.indexOf('\n', end);
    return `${text.slice(first, last < 0 ? text.length : last)}: ${message}`;
}
