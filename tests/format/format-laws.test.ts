/** Laws of the layout, on all our files and on random layouts of them: it keeps what a file says, keeps comments, and is final. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdits, formatEdits } from '../../language/src/format/format-text.js';
import { commentsOf, corpus, laidOut, saidBy, scrambled } from './support.js';

const files = corpus();

test('there are files to try the laws on', () => {
    expect(files.length).toBeGreaterThan(40);
});

describe.each(files)('$name', ({ text }) => {
    test('says the same, has the same comments and is laid out for good', () => {
        checkLaws(text);
    });
});

describe.each(files.filter(({ text }) => text.length < 6000))('random layouts of $name', ({ text }) => {
    test('say the same, keep their comments and are laid out for good', () => {
        const said = saidBy(text);
        fc.assert(
            fc.property(scrambled(text), other => {
                expect(saidBy(other)).toEqual(said);
                checkLaws(other);
            }),
            { numRuns: 15 },
        );
    });
});

function checkLaws(text: string): void {
    const formatted = laidOut(text);
    expect(saidBy(formatted)).toEqual(saidBy(text));
    expect(commentsOf(formatted)).toEqual(commentsOf(text));
    expect(laidOut(formatted)).toBe(formatted);
    expect(formatted).toMatch(/^(?!\s)[\s\S]*[^\s]\r?\n$/);
    expect(formatted).not.toMatch(/[ \t]\r?\n|\n\r?\n\r?\n|\t/);
    const { edits } = formatEdits(text);
    expect(applyEdits(text, edits)).toBe(formatted);
    edits.forEach((edit, index) => {
        expect(edit.start).toBeGreaterThanOrEqual(edits[index - 1]?.end ?? 0);
        expect(edit.end).toBeGreaterThanOrEqual(edit.start);
    });
}
