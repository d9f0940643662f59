/** Lines and columns of offsets. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lineStarts, offsetAt, positionAt } from '../../../language/src/core/text/positions.js';

describe('lines begin', () => {
    test.each([
        ['', [0]],
        ['one', [0]],
        ['a\nb', [0, 2]],
        ['a\r\nb', [0, 3]],
        ['a\rb', [0, 2]],
        ['a\n\rb', [0, 2, 3]],
        ['a\r\r\nb\n', [0, 2, 4, 6]],
        // A line separator of Unicode ends no line, as in the Language Server Protocol 3.17 (from memory).
        ['a\u2028b', [0]],
    ])('in %j at %j', (text, starts) => {
        expect(lineStarts(text)).toEqual(starts);
    });
});

describe('the position of an offset', () => {
    const starts = lineStarts('ab\r\ncd\rе😀f');

    test.each([
        [0, 1, 1],
        [2, 1, 3],
        [3, 1, 4],
        [4, 2, 1],
        [7, 3, 1],
        [10, 3, 4],
        [-5, 1, 1],
        [99, 3, 93],
    ])('%i is line %i, column %i', (offset, line, column) => {
        expect(positionAt(starts, offset)).toEqual({ line, column });
    });

    test('leads back to the offset', () => {
        fc.assert(
            fc.property(fc.stringMatching(/^[ab\r\n]{0,30}$/), fc.nat(), (text, seed) => {
                const offset = seed % (text.length + 1);
                const found = lineStarts(text);
                expect(offsetAt(found, positionAt(found, offset))).toBe(offset);
                // The line number is one more than the line ends before the offset, as a pattern counts them.
                const before = text.slice(0, offset).match(/\r\n|\r(?!\n)|\n/g) ?? [];
                const splitPair = text[offset - 1] === '\r' && text[offset] === '\n' ? 1 : 0;
                expect(positionAt(found, offset).line).toBe(before.length + 1 - splitPair);
            }),
        );
    });

    test('of a line that is not there is unknown', () => {
        expect(offsetAt(starts, { line: 9, column: 1 })).toBeUndefined();
        expect(offsetAt(starts, { line: 0, column: 1 })).toBeUndefined();
    });
});
