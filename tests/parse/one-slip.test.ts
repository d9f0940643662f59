/** One slip of the hand gives one finding, wherever in a file it happens. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';
import { runs } from '../property/runs.js';
import { samples } from '../property/samples.js';

const lexer = createParserServices().parser.Lexer;
const files = samples.map(({ text }) => ({ text, words: lexer.tokenize(text).tokens }));

/** What can happen to the word that stands between two offsets. */
const slips: Readonly<Record<string, (text: string, start: number, end: number) => string>> = {
    'is left out': (text, start, end) => text.slice(0, start) + text.slice(end),
    'is written twice': (text, start, end) => `${text.slice(0, end)} ${text.slice(start)}`,
    'follows a word that does not belong there': (text, start) => `${text.slice(0, start)}zzz ${text.slice(start)}`,
    'lacks its second letter': (text, start) =>
        /[a-z]/i.test(text.charAt(start)) ? text.slice(0, start + 1) + text.slice(start + 2) : text,
    'lacks its last character': (text, _, end) => text.slice(0, end - 1) + text.slice(end),
};

test.each(Object.keys(slips))('a word that %s gives one finding, or none where the text is still good', sort => {
    const cases = 1000;
    let findings = 0;
    let several = 0;
    fc.assert(
        fc.property(fc.nat(files.length - 1), fc.nat(), (file, at) => {
            const { text, words } = files[file] ?? { text: '', words: [] };
            const word = words[at % words.length];
            const start = word?.startOffset ?? 0;
            const slipped = slips[sort]?.(text, start, start + (word?.image.length ?? 0)) ?? text;
            const { length } = parseText(slipped, 'file.fault').findings;
            findings += length;
            several += length > 1 ? 1 : 0;
            expect(length).toBeLessThanOrEqual(2);
        }),
        runs(cases),
    );
    // A missing brace within a line, or a quote among apostrophes, may leave two places that look wrong.
    expect(several).toBeLessThanOrEqual(cases / 200);
    expect(findings).toBeGreaterThan(cases / 4);
});
