/** Findings move with a text that changes, and go where their own place was touched. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makeFinding } from '../../language/src/core/findings/rule.js';
import { moveFindings } from '../../language/src/services/moved-findings.js';

/** Marks `<|stretch|>` in the text before, changes it, and shows where the stretch is then. */
function move(marked: string, after: string): string {
    const start = marked.indexOf('<|');
    const end = marked.indexOf('|>') - 2;
    const before = marked.replace('<|', '').replace('|>', '');
    const [moved] = moveFindings([makeFinding('c', 'warning', 'm', { file: 'f', start, end })], 'f', before, after);
    return moved
        ? `${after.slice(0, moved.start)}<|${after.slice(moved.start, moved.end)}|>${after.slice(moved.end)}`
        : 'gone';
}

test.each([
    ['what stands before a change stays', '<|ab|> cd', 'ab cde', '<|ab|> cde'],
    ['what stands behind a change moves', 'ab <|cd|>', 'xyz ab cd', 'xyz ab <|cd|>'],
    ['what is touched is gone', 'ab <|cd|> e', 'ab cXd e', 'ab <|cXd|> e'],
    ['what is replaced is gone', 'ab <|cd|> e', 'ab XY e', 'gone'],
    ['what is typed at the end of a place does not belong to it', '<|ab|>', 'abc', '<|ab|>c'],
])('%s', (_, before, after, expected) => {
    expect(move(before, after)).toBe(expected);
});

test('places in other files stay, those in the same file move', () => {
    const finding = makeFinding(
        'c',
        'warning',
        'm',
        { file: 'f', start: 2, end: 3 },
        {
            related: [
                { file: 'g', start: 2, end: 3, text: 'other' },
                { file: 'f', start: 3, end: 4, text: 'same' },
            ],
            mends: [{ title: 't', safety: 'safe', edits: [] }],
        },
    );
    const [moved] = moveFindings([finding], 'f', 'abcd', 'xabcd');
    expect(moved?.related.map(({ start }) => start)).toEqual([2, 4]);
    expect(moved?.mends).toEqual([]);
});

test('a place that is kept has the same text in it, or the same text around it', () => {
    fc.assert(
        fc.property(fc.string(), fc.string(), fc.string(), fc.nat(), fc.nat(), (head, old, tail, one, other) => {
            const before = head + old + tail;
            const after = `${head}NEW${tail}`;
            const places = [one % (before.length + 1), other % (before.length + 1)].sort((a, b) => a - b);
            const [start = 0, end = 0] = places;
            const place = makeFinding('c', 'warning', 'm', { file: 'f', start, end });
            const [moved] = moveFindings([place], 'f', before, after);
            if (!moved) return;
            const inside = after.slice(moved.start, moved.end) === before.slice(start, end);
            const around =
                after.slice(0, moved.start) === before.slice(0, start) && after.slice(moved.end) === before.slice(end);
            expect(inside || around).toBe(true);
        }),
    );
});
