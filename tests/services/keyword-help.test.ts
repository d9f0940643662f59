/** Every word that completion can offer is explained. */
import { expect, test } from 'vitest';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { helpForKeyword } from '../../language/src/services/keyword-help.js';
import { keywordsOf } from '../../language/src/services/keywords.js';

// Words that only ever follow another word of the same phrase, as in `comes and goes`.
const followers = [
    'by',
    'itself',
    'down',
    'goes',
    'caused',
    'cleared',
    'before',
    'wrong',
    'be',
    'read',
    'done',
    'closed',
    'order',
    'safe',
];
// Words between two names or amounts, which explain themselves where they stand.
const joints = ['per', 'to'];

test('every word of the language has its line of help, but for the inner words of phrases', () => {
    const words = keywordsOf(createParserServices().Grammar);
    const without = words.filter(word => helpForKeyword(word, '') === undefined);
    expect(without.sort()).toEqual([...followers, ...joints].sort());
});

test('a word with two uses is explained by where it stands', () => {
    expect(helpForKeyword('test', 'Ask')).toBe('asks a test and branches on its outcomes');
    expect(helpForKeyword('test', 'Test')).toBe('an observation or a measurement with named outcomes');
});

test('help is short, and no sentence', () => {
    for (const word of keywordsOf(createParserServices().Grammar)) {
        const help = helpForKeyword(word, '') ?? '';
        expect(help.length, word).toBeLessThan(70);
        expect(help, word).not.toMatch(/^[A-Z][a-z]|\.$/);
    }
});
