// Turns what the language does not know (stray signs, unclosed and oddly quoted texts) into findings,
// and gives the parser what the writer most likely meant, so that one slip gives one finding.

import { quoteName } from '../../core/text/words.js';
import { mostFindings } from './limits.js';
import type { SyntaxFinding } from './syntax-finding.js';
import { replaceToken, tokenEnd, type Token, type TokenType, type TokenTypes } from './token.js';
import { strayNames } from './token-builder.js';

/** The tokens that the parser gets, and what was wrong with the others. */
export interface Settled {
    readonly tokens: Token[];
    readonly findings: readonly SyntaxFinding[];
    /** Whether a text or comment without its end swallowed the rest of the file. */
    readonly swallowedRest: boolean;
}

/** Settles every stray token. Without any, call nothing: the pass is not free. */
export function settleStrayText(tokens: readonly Token[], types: TokenTypes): Settled {
    const work: Work = { tokens, types, settled: [], findings: [], lastLine: 0, swallowedRest: false };
    for (let index = 0; index < tokens.length; index += 1) {
        const token = tokens[index];
        if (token !== undefined) {
            index = settle(work, token, index);
        }
    }
    return { tokens: work.settled, findings: work.findings, swallowedRest: work.swallowedRest };
}

interface Work {
    readonly tokens: readonly Token[];
    readonly types: TokenTypes;
    readonly settled: Token[];
    readonly findings: SyntaxFinding[];
    /** The line of the last finding; one line gives one finding of stray signs. */
    lastLine: number;
    swallowedRest: boolean;
}

// Returns the index of the last token that it used up.
function settle(work: Work, token: Token, index: number): number {
    switch (token.tokenType.name) {
        case strayNames.comment:
            work.swallowedRest = true;
            report(work, token, {
                code: 'unclosed-text',
                end: token.startOffset + 2,
                message: 'This comment has no end.',
                mend: 'Write `*/` where the comment ends.',
            });
            return index;
        case strayNames.text:
            return token.image.startsWith('"""') ? settleLongText(work, token, index) : settleText(work, token, index);
        case strayNames.quoted:
            settleQuoted(work, token);
            return index;
        case strayNames.characters:
            return settleCharacters(work, token, index);
        default:
            work.settled.push(token);
            return index;
    }
}

function settleLongText(work: Work, token: Token, index: number): number {
    work.swallowedRest = true;
    work.settled.push(asType(work, token, 'TEXT', token.image));
    report(work, token, {
        code: 'unclosed-text',
        end: token.startOffset + 3,
        message: 'This text begins with three quotes, but no three quotes close it.',
        mend: 'Write `"""` where the text ends.',
    });
    return index;
}

function settleText(work: Work, token: Token, index: number): number {
    const closing = closingOfSeveralLines(work, token, index);
    if (closing !== undefined) {
        return settleSeveralLines(work, index, closing);
    }
    const [text, tail] = splitBraces(token.image);
    const odd = hasTextBefore(work, token);
    work.settled.push(asType(work, token, 'TEXT', text));
    pushBraces(work, token, text.length, tail);
    report(work, token, {
        code: 'unclosed-text',
        end: token.startOffset + text.length,
        message: odd
            ? 'This line has an odd number of quotes: one of its texts has no closing quote.'
            : 'This text has no closing quote on its line.',
        mend: 'Write `"` where the text ends. A text of several lines stands between three quotes: `"""`.',
    });
    return index;
}

function hasTextBefore({ settled }: Work, token: Token): boolean {
    for (let index = settled.length - 1; settled[index]?.endLine === token.startLine; index -= 1) {
        if (settled[index]?.tokenType.name === 'TEXT') {
            return true;
        }
    }
    return false;
}

// A quote that follows a letter or a full stop closes a text; one that stands before a letter opens the next.
function closingOfSeveralLines(work: Work, token: Token, index: number): number | undefined {
    for (let next = index + 1; next < work.tokens.length && next <= index + mostWordsOfText; next += 1) {
        const other = work.tokens[next];
        const before = work.tokens[next - 1];
        const name = other?.tokenType.name;
        if (other === undefined || before === undefined || name === 'TEXT' || name === '{' || name === '}') {
            return undefined;
        }
        if (name === strayNames.text) {
            const attached = before !== token && tokenEnd(before) === other.startOffset;
            return attached && /^"(?!"")(?:[\s{}]|$)/.test(other.image) ? next : undefined;
        }
    }
    return undefined;
}

function settleSeveralLines(work: Work, index: number, closingIndex: number): number {
    const parts = work.tokens.slice(index, closingIndex);
    const [token] = parts;
    const closing = work.tokens[closingIndex];
    if (token === undefined || closing === undefined) {
        return closingIndex;
    }
    const text: Token = {
        ...asType(work, token, 'TEXT', spread(parts, token.startOffset, closing.startOffset)),
        endOffset: closing.startOffset,
    };
    work.settled.push(withEnd(text, closing));
    pushBraces(work, closing, 1, splitBraces(closing.image)[1]);
    report(work, token, {
        code: 'unclosed-text',
        end: token.startOffset + token.image.length,
        message: 'This text runs over several lines, but it stands between single quotes.',
        mend: 'Write three quotes `"""` at both its ends.',
        edits: [
            { start: token.startOffset, end: token.startOffset + 1, text: '"""' },
            { start: closing.startOffset, end: closing.startOffset + 1, text: '"""' },
        ],
    });
    return closingIndex;
}

// The text between the quotes as far as its words tell; its length is what counts for places.
function spread(parts: readonly Token[], start: number, closingQuote: number): string {
    let text = '';
    for (const part of parts) {
        text = text.padEnd(part.startOffset - start) + part.image;
    }
    return `${text.padEnd(closingQuote - start)}"`;
}

function settleQuoted(work: Work, token: Token): void {
    const inside = token.image.slice(1, -1);
    work.settled.push(asType(work, token, 'TEXT', token.image));
    report(work, token, {
        code: 'unexpected-character',
        end: tokenEnd(token),
        message: `This text stands between ${quoteName(token.image.slice(0, 1))} and ${quoteName(token.image.slice(-1))}.`,
        mend: 'Write straight double quotes around it: `"`.',
        edits: [{ start: token.startOffset, end: tokenEnd(token), text: `"${inside.replaceAll('\\', '\\\\')}"` }],
    });
}

function settleCharacters(work: Work, token: Token, index: number): number {
    const known = knownSigns.find(({ signs }) => signs.test(token.image));
    if (known?.meant !== undefined) {
        work.settled.push(asType(work, token, known.meant, token.image));
    }
    report(work, token, {
        code: 'unexpected-character',
        end: tokenEnd(token),
        message: known?.message ?? `${quoteName(token.image)} has no meaning here.`,
        mend: known?.mend ?? 'Remove it, or write it in a text between quotes.',
        edits:
            known?.written === undefined
                ? []
                : [{ start: token.startOffset, end: tokenEnd(token), text: known.written }],
    });
    return known?.wholeLine === true ? lastOfLine(work, token, index) : index;
}

interface KnownSign {
    readonly signs: RegExp;
    /** The token that stands in its place for the parser. */
    readonly meant?: string;
    /** What the mend writes in its place. */
    readonly written?: string;
    readonly message?: string;
    readonly mend: string;
    /** Whether the rest of the line belongs to it. */
    readonly wholeLine?: boolean;
}

// Signs that come from other notations or from a word processor.
const knownSigns: readonly KnownSign[] = [
    { signs: /^;+$/, written: '', mend: 'Remove it: a line needs no mark at its end.' },
    { signs: /^[→⇒⟶➔➜]$/, meant: '->', written: '->', mend: 'Write the arrow as `->`.' },
    { signs: /^[‐‑‒–—]$/, meant: '-', written: '-', mend: 'Write the hyphen or minus sign as `-`.' },
    { signs: /^#+$/, written: '//', mend: 'A comment begins with `//`.', wholeLine: true },
    {
        signs: /^[%‰°]$/,
        message: 'This unit has no number before it.',
        mend: 'Write the number before the unit, on the same line.',
    },
    { signs: /^…$/, mend: 'Write out what is meant; a range is written with two full stops, as in `3 V .. 5 V`.' },
];

function lastOfLine(work: Work, token: Token, index: number): number {
    let last = index;
    while (work.tokens[last + 1]?.startLine === token.startLine) {
        last += 1;
    }
    return last;
}

// A brace at the end of an unclosed text belongs to the block that the line opens or closes, unless the text swallowed its pair.
function splitBraces(image: string): readonly [text: string, tail: string] {
    const tail = /[ \t]+[{}][ \t]*$/.exec(image.slice(-longestTail))?.[0] ?? '';
    const balance = count(image, '{') - count(image, '}');
    if (tail === '' || balance !== (tail.includes('{') ? 1 : -1)) {
        return [image, ''];
    }
    const text = image.slice(0, image.length - tail.length).trimEnd();
    return [text, image.slice(text.length)];
}

function count(text: string, sign: string): number {
    return text.split(sign).length - 1;
}

function pushBraces(work: Work, token: Token, from: number, tail: string): void {
    for (const match of tail.matchAll(/[{}]/g)) {
        const offset = from + match.index;
        const brace = asType(work, token, match[0], match[0]);
        work.settled.push(at(brace, token.startOffset + offset, (token.startColumn ?? 1) + offset));
    }
}

function at(token: Token, startOffset: number, startColumn: number): Token {
    return { ...token, startOffset, endOffset: startOffset, startColumn, endColumn: startColumn };
}

function withEnd(token: Token, closing: Token): Token {
    const { startLine, startColumn } = closing;
    return startLine === undefined || startColumn === undefined
        ? token
        : { ...token, endLine: startLine, endColumn: startColumn };
}

function asType(work: Work, token: Token, name: string, image: string): Token {
    const type: TokenType = work.types[name] ?? token.tokenType;
    const shorter = token.image.length - image.length;
    const changed = replaceToken(token, type, image);
    return shorter > 0 && token.startLine === token.endLine
        ? {
              ...changed,
              endOffset: token.startOffset + image.length - 1,
              endColumn: (token.endColumn ?? 1) - shorter,
          }
        : changed;
}

type Report = Pick<SyntaxFinding, 'code' | 'end' | 'message' | 'mend'> & Partial<Pick<SyntaxFinding, 'edits'>>;

function report(work: Work, token: Token, { code, end, message, mend, edits = [] }: Report): void {
    const line = token.startLine ?? 0;
    if (line === work.lastLine || work.findings.length >= mostFindings) {
        return;
    }
    work.lastLine = line;
    work.findings.push({ code, start: token.startOffset, end, message, mend, edits });
}

/** How many words of a text of several lines are looked through for its closing quote. */
const mostWordsOfText = 300;

const longestTail = 200;
