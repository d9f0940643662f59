/** Each seeded defect is found by the finding that names its cause, with one more at most. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../language/src/core/findings/finding.js';
import { readFolder } from '../support/read-folder.js';
import { readTexts, type Texts, verifyTexts } from '../support/read-texts.js';
import { type SeededDefect, seededDefects } from './seeded-defects.js';

const example = readFolder('examples/dust-extractor');

/** What verification says only after walking the trees. */
const codesOfTheWalk = [
    'unreachable-step',
    'dead-end',
    'endless-loop',
    'impossible-branch',
    'pointless-test',
    'missing-in-build',
    'fault-not-found',
    'wrong-conclusion',
    'too-strong',
    'ambiguous',
    'healthy-condemned',
    'contradiction',
    'test-not-set-up',
    'repeated-test',
    'scenario-failed',
];

test('there are forty defects, most of them for the walk, and each of its codes is wanted', () => {
    const codes = seededDefects.map(({ code }) => code);
    expect(codes).toHaveLength(40);
    expect(codes.filter(code => codesOfTheWalk.includes(code)).length).toBeGreaterThanOrEqual(30);
    expect(codesOfTheWalk.filter(code => !codes.includes(code))).toEqual([]);
});

test('nothing is found in the example without a defect', () => {
    const { findings, accepted } = verifyTexts(example);
    expect(findings).toEqual([]);
    expect(accepted).toEqual([]);
});

test('the defects differ', () => {
    const edits = seededDefects.map(({ file, oldText, newText }) => JSON.stringify([file, oldText, newText]));
    expect(new Set(edits).size).toBe(edits.length);
    expect(new Set(seededDefects.map(({ slip }) => slip)).size).toBe(seededDefects.length);
});

describe.each(seededDefects)('$slip', defect => {
    test('the old text stands in its file exactly once', () => {
        expect(example[defect.file]?.split(defect.oldText)).toHaveLength(2);
    });

    test('the edit changes the example and leaves sources that can be read', () => {
        const edited = withDefect(example, defect);
        expect(edited[defect.file]).not.toBe(example[defect.file]);
        const { findings } = readTexts(edited);
        expect(findings.filter(({ code }) => code !== 'step-goes-on')).toEqual([]);
    });

    test('the finding that is wanted names the cause, and brings one more at most', () => {
        const edited = withDefect(example, defect);
        const { findings } = verifyTexts(edited);
        const found = findings.map(finding => `${finding.code} in ${toldOf(finding, edited)}`);
        expect(
            findings.some(finding => isWanted(finding, defect, edited)),
            found.join('\n'),
        ).toBe(true);
        expect(found.length, found.join('\n')).toBeLessThanOrEqual(2);
    });
});

function isWanted(finding: Finding, { code, at }: SeededDefect, texts: Texts): boolean {
    return finding.code === code && toldOf(finding, texts).includes(at);
}

/** The lines of a finding's range, and its message. */
function toldOf({ file, start, end, message }: Finding, texts: Texts): string {
    const text = texts[file] ?? '';
    const first = text.lastIndexOf('\n', start - 1) + 1;
    const last = text.indexOf('\n', end);
    return `${text.slice(first, last < 0 ? text.length : last)}: ${message}`;
}

function withDefect(texts: Texts, { file, oldText, newText }: SeededDefect): Texts {
    // A function, because a text put in as it is may hold signs that `replace` would take for its own.
    return { ...texts, [file]: (texts[file] ?? '').replace(oldText, () => newText) };
}
