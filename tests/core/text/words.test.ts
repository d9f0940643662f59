/** Lists, chains, counted nouns, articles and quoted names. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chainOf, listOf, plural, quoteName, withArticle } from '../../../language/src/core/text/words.js';

describe('a list', () => {
    test.each([
        [[], 'and', ''],
        [['a'], 'and', 'a'],
        [['a', 'b'], 'and', 'a and b'],
        [['a', 'b', 'c'], 'and', 'a, b and c'],
        [['a', 'b', 'c'], 'or', 'a, b or c'],
    ] as const)('of %j with %s is %j', (items, word, text) => {
        expect(listOf(items, word)).toBe(text);
    });

    test('that is too long counts the rest', () => {
        expect(listOf(['a', 'b', 'c', 'd', 'e'], 'and', 2)).toBe('a, b and 3 more');
        expect(listOf(['a', 'b'], 'and', 2)).toBe('a and b');
        expect(listOf(['a', 'b'], 'and', 0)).toBe('2 more');
    });
});

test('a chain is shown whole, or with its middle counted where it is long', () => {
    expect(chainOf(['a', 'b', 'a'])).toBe('a → b → a');
    expect(chainOf(['a', 'b', 'c', 'd', 'e', 'f', 'a'], 4)).toBe('a → b → 4 more → a');
    expect(chainOf(['a', 'b', 'c', 'a'], 4)).toBe('a → b → c → a');
});

test('a noun gets the article that it is spoken with', () => {
    expect(withArticle('part')).toBe('a part');
    expect(withArticle('option')).toBe('an option');
    expect(withArticle('equipment')).toBe('an equipment');
});

test('a noun is counted', () => {
    expect(plural(1, 'part')).toBe('1 part');
    expect(plural(0, 'part')).toBe('0 parts');
    expect(plural(2, 'branch', 'branches')).toBe('2 branches');
});

describe('a name is quoted', () => {
    test.each([
        ['check_fuse', '`check_fuse`'],
        ['naïve-pump', '`naïve-pump`'],
        ['', '``'],
        ['two\nlines', '`two\\u{A}lines`'],
        ['turn\u202Earound', '`turn\\u{202E}around`'],
        ['half\uD800', '`half\\u{D800}`'],
        ['has`tick', '`` has`tick ``'],
        ['has``ticks', '``` has``ticks ```'],
    ])('%j as %s', (name, quoted) => {
        expect(quoteName(name)).toBe(quoted);
    });

    test('and cut when it is very long, between characters', () => {
        expect(quoteName('x'.repeat(80))).toBe(`\`${'x'.repeat(80)}\``);
        expect(quoteName('x'.repeat(81))).toBe(`\`${'x'.repeat(79)}…\``);
        expect(quoteName('😀'.repeat(90))).toBe(`\`${'😀'.repeat(79)}…\``);
    });

    test('and never breaks the line or ends its quotes early', () => {
        fc.assert(
            fc.property(fc.string({ unit: 'binary' }), name => {
                const quoted = quoteName(name);
                expect(quoted).not.toMatch(/[\p{Cc}\u2028\u2029]/u);
                const [fence = ''] = /^`+/.exec(quoted) ?? [];
                const inside = quoted.slice(fence.length, -fence.length);
                expect(inside.split(/[^`]+/)).not.toContain(fence);
            }),
        );
    });
});
