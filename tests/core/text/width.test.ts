/** Widths on a screen, and lines broken to fit. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { displayWidth, wrap } from '../../../language/src/core/text/width.js';

describe('the width of', () => {
    test.each([
        ['plain text', 10],
        ['', 0],
        ['Ω µ °', 5],
        ['e\u0301', 1],
        ['漢字', 4],
        ['カタカナ', 8],
        ['한국어', 6],
        ['\uFF21', 2],
        ['😀', 2],
        // A family drawn as one emoji from three with joiners between them.
        ['\u{1F468}\u200D\u{1F469}\u200D\u{1F467}', 2],
        // A sign in its emoji style.
        ['\u26A0\uFE0F', 2],
        ['\u200Bzero', 4],
    ])('%j is %i', (text, width) => {
        expect(displayWidth(text)).toBe(width);
    });
});

describe('text is wrapped', () => {
    test.each([
        ['Turn the main isolator off.', 10, ['Turn the', 'main', 'isolator', 'off.']],
        ['short', 80, ['short']],
        ['', 10, ['']],
        ['a  b', 10, ['a b']],
        ['one\ntwo', 10, ['one', 'two']],
        ['one\r\n\r\ntwo', 10, ['one', '', 'two']],
        ['abcdefgh', 3, ['abc', 'def', 'gh']],
        ['go abcdefgh', 4, ['go a', 'bcde', 'fgh']],
        ['漢字漢字漢字', 5, ['漢字', '漢字', '漢字']],
        ['測定する。次', 8, ['測定す', 'る。次']],
        ['e\u0301e\u0301e\u0301', 2, ['e\u0301e\u0301', 'e\u0301']],
        ['abc漢字de', 4, ['abc', '漢字', 'de']],
        ['ab', 0, ['a', 'b']],
    ])('%j at %i as %j', (text, width, lines) => {
        expect(wrap(text, width)).toEqual(lines);
    });

    test('so that no line is too wide and nothing but spaces is lost', () => {
        fc.assert(
            fc.property(
                fc.array(fc.constantFrom('a', 'bcd', ' ', '漢', '。', '\u0301', '😀', '\n', 'Ω'), { maxLength: 40 }),
                fc.integer({ min: 2, max: 12 }),
                (parts, width) => {
                    const text = parts.join('');
                    const lines = wrap(text, width);
                    expect(lines.filter(line => displayWidth(line) > width)).toEqual([]);
                    expect(lines.join('').replace(/\s/g, '')).toBe(text.replace(/\s/g, ''));
                },
            ),
        );
    });

    test('and wrapping what is wrapped changes nothing', () => {
        fc.assert(
            fc.property(
                fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { maxLength: 12 }),
                fc.integer({ min: 1, max: 20 }),
                (words, width) => {
                    const lines = wrap(words.join(' '), width);
                    expect(wrap(lines.join('\n'), width)).toEqual(lines);
                },
            ),
        );
    });
});
