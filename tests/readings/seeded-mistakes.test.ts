/** Each seeded mistake with readings is found as you type, by the finding that names it, with one more at most. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../language/src/core/findings/finding.js';
import { readFolder } from '../support/read-folder.js';
import { readTexts, type Texts, verifyTexts } from '../support/read-texts.js';
import { type SeededMistake, seededMistakes } from './seeded-mistakes.js';

const examples: Readonly<Record<SeededMistake['example'], Texts>> = {
    'dust-extractor': readFolder('examples/dust-extractor'),
    'ev-charger': readFolder('examples/ev-charger'),
};

/** What is said of readings, of which each must be wanted by some mistakes. */
const codes = ['reading-gap', 'reading-overlap', 'out-of-range', 'too-coarse', 'impossible-reading'];

test('there are enough mistakes, and several for each code', () => {
    expect(seededMistakes.length).toBeGreaterThanOrEqual(40);
    for (const code of codes) {
        expect(seededMistakes.filter(mistake => mistake.code === code).length, code).toBeGreaterThanOrEqual(5);
    }
});

test.each(Object.entries(examples))('nothing is found in %s without a mistake', (_, texts) => {
    expect(verifyTexts(texts, { cost: 'fast' }).findings).toEqual([]);
});

test('the mistakes differ', () => {
    const edits = seededMistakes.map(({ example, file, oldText, newText }) =>
        JSON.stringify([example, file, oldText, newText]),
    );
    expect(new Set(edits).size).toBe(edits.length);
    expect(new Set(seededMistakes.map(({ slip }) => slip)).size).toBe(seededMistakes.length);
});

describe.each(seededMistakes)('$slip', mistake => {
    const texts = examples[mistake.example];

    test('the old text stands in its file exactly once', () => {
        expect(texts[mistake.file]?.split(mistake.oldText)).toHaveLength(2);
    });

    test('the edit leaves sources that can be read, and is named, with one more finding at most', () => {
        const edited = withMistake(texts, mistake);
        expect(readTexts(edited).findings).toEqual([]);
        const { findings } = verifyTexts(edited, { cost: 'fast' });
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

function withMistake(texts: Texts, { file, oldText, newText }: SeededMistake): Texts {
    // A function, because a text put in as it is may hold signs that `replace` would take for its own.
    return { ...texts, [file]: (texts[file] ?? '').replace(oldText, () => newText) };
}
