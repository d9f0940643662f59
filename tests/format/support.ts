/** What the tests of the layout share: files to lay out, what a file says apart from its layout, and random layouts. */

import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { textValue } from '../../language/src/core/text/prose.js';
import { formatText } from '../../language/src/format/format-text.js';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** The text laid out; fails where the text has findings. */
export function laidOut(text: string): string {
    const { text: formatted, findings } = formatText(text);
    if (findings.length > 0) {
        throw new Error(`The text has findings: ${findings.map(({ message }) => message).join(' ')}`);
    }
    return formatted;
}

/** What a file says, as plain data: its syntax tree without places, and with signs, amounts and texts by their meaning. */
export function saidBy(text: string): unknown {
    const { root: file, findings } = parseText(text, 'file.fault');
    if (findings.length > 0) {
        throw new Error(`The text has findings: ${findings.map(({ message }) => message).join(' ')}`);
    }
    return plain(file);
}

/** The comments of a file, in order, without the blanks around their lines. */
export function commentsOf(text: string): string[] {
    return parseText(text, 'file.fault').comments.map(comment => comment.text.trimEnd().replace(/\s*\n\s*/g, '\n'));
}

/** The files to try laws on: the examples, the worlds of the tests, and each example of the reference page. */
export function corpus(): { readonly name: string; readonly text: string }[] {
    const files = ['examples', 'tests/worlds'].flatMap(folder =>
        readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
            .filter(path => path.endsWith('.fault'))
            .map(path => ({ name: `${folder}/${path}`, text: readFileSync(join(root, folder, path), 'utf8') })),
    );
    const page = readFileSync(join(root, 'language/reference.md'), 'utf8');
    const blocks = [...page.matchAll(/^```fault\n([\s\S]*?)^```$/gm)].map(([, text = '']) => text);
    const examples = blocks.map((text, index) => ({ name: `example ${index + 1} of the reference page`, text }));
    return [...files, ...examples].filter(({ text }) => parseText(text, 'file.fault').findings.length === 0);
}

/** The same words with other white space and with comments among them. */
export function scrambled(text: string): fc.Arbitrary<string> {
    const words = lexer.tokenize(text).tokens.map(({ image, tokenType }) => ({ image, type: tokenType.name }));
    return fc
        .array(fc.nat(gaps.length * 7 - 1), { minLength: words.length + 1, maxLength: words.length + 1 })
        .map(picks => {
            let comments = 0;
            const gapAt = (index: number): string => {
                const before = words[index - 1];
                const after = words[index];
                const pick = picks[index] ?? 0;
                // Most gaps are plain, as in files that people write.
                const gap = pick < gaps.length ? (gaps[pick] ?? ' ') : pick % 3 === 0 ? '\n' : ' ';
                const tight =
                    before === undefined || after === undefined || marks.has(before.image) || marks.has(after.image);
                const bare = before?.type === 'AMOUNT' && /[0-9]$/.test(before.image);
                const safe = (gap === '' && !tight) || (bare && !/[\r\n/]/.test(gap)) ? '\n' : gap;
                return safe.replace('#', () => String((comments += 1)));
            };
            return words.map(({ image }, index) => gapAt(index) + image).join('') + gapAt(words.length);
        });
}

const lexer = createParserServices().parser.Lexer;

const marks = new Set(['{', '}', '(', ')', '[', ']', ',', ':']);

const gaps = [
    '',
    '  ',
    '\t',
    '\n\n\n',
    '\r\n',
    '\n    ',
    ' /* comment # */ ',
    '/* comment # */',
    ' // comment #  \n',
    '\n// comment #\n',
    '\n\n  // comment #\n\n',
    '\n/* comment #\n     in two lines */\n',
    ' /* comment #\n in two lines */ ',
    '\n/* comment # */ ',
    ' /* comment # */\n',
];

function plain(value: unknown, key = ''): unknown {
    if (typeof value === 'string') {
        return plainText(value, key);
    }
    if (Array.isArray(value)) {
        return value.map(item => plain(item, key));
    }
    if (typeof value !== 'object' || value === null) {
        return value;
    }
    if ('$refText' in value) {
        return { refersTo: value.$refText };
    }
    const said = Object.entries(value).filter(([name]) => name === '$type' || !name.startsWith('$'));
    return Object.fromEntries(said.map(([name, item]) => [name, plain(item, name)]));
}

function plainText(value: string, key: string): string {
    if (value.startsWith('"')) {
        return textValue(value);
    }
    if (key === 'comparison') {
        return value.replace('<=', '≤').replace('>=', '≥');
    }
    // Blanks between a number and its unit mean nothing.
    return /^[+\-−]?[0-9]/.test(value) ? value.replace(/[ \t]+/g, '') : value;
}
