// Cuts a text into tokens, by the patterns of the token types and in their order.
//
// It finds what the parser library's lexer finds (a test compares the two), but needs no analysis of the patterns at
// every start, and looks most words up instead of trying one pattern after the other.

import type { Token, TokenType } from './token.js';

/** What the scanner found. */
export interface Scanned {
    /** All tokens but blanks and comments. */
    readonly tokens: Token[];
    /** The comments. */
    readonly hidden: Token[];
}

/** Cuts texts into tokens. */
export interface Scanner {
    readonly scan: (text: string) => Scanned;
    /** The same tokens, but in pieces of some thousand, each of which ends with the brace of an outermost block. */
    readonly scanInPieces: (text: string) => Generator<Scanned>;
}

/**
 * Prepares a scanner for all token types, in the order in which they are tried: words and signs, which are texts,
 * then the others, which are patterns. The first that fits counts, unless one that it names as longer fits further.
 * What no pattern fits becomes a token of the last type, one character long.
 */
export function makeScanner(types: readonly TokenType[]): Scanner {
    const patterns = prepare(types);
    return {
        scan: text => {
            const reading = startReading(patterns, text);
            scanUpTo(patterns, reading, Number.POSITIVE_INFINITY);
            return reading;
        },
        *scanInPieces(text) {
            const reading = startReading(patterns, text);
            while (reading.offset < text.length) {
                reading.tokens = [];
                reading.hidden = [];
                scanUpTo(patterns, reading, tokensInPiece);
                yield { tokens: reading.tokens, hidden: reading.hidden };
            }
        },
    };
}

/** So many tokens are about 500 lines. */
const tokensInPiece = 4000;

interface Patterns {
    /** The words of the language. Each could also be a name, so the pattern of names finds where it ends. */
    readonly words: ReadonlyMap<string, Word>;
    /** The signs of the language by their first character, in their order. */
    readonly signs: ReadonlyMap<number, readonly Sign[]>;
    readonly list: readonly Pattern[];
    readonly space: Pattern;
    readonly name: Pattern;
    readonly amount: Pattern;
    /** Whose type a character gets that no pattern fits. */
    readonly rest: Pattern;
}

interface Word {
    readonly type: TokenType;
    readonly image: string;
}

interface Sign extends Word {
    /** The first of these that is longer stands in its place. */
    readonly longer: readonly Pattern[];
}

interface Pattern {
    readonly type: TokenType;
    readonly expression: RegExp;
}

interface Reading {
    readonly text: string;
    /** The words of the language and the names so far. */
    readonly known: Map<string, Word>;
    tokens: Token[];
    hidden: Token[];
    /** How many blocks are open. */
    depth: number;
    offset: number;
    line: number;
    column: number;
}

function prepare(types: readonly TokenType[]): Patterns {
    const words = new Map<string, Word>();
    const signs = new Map<number, Sign[]>();
    const list: Pattern[] = [];
    const pattern = (wanted: string): Pattern => {
        const found = list.find(({ type }) => type.name === wanted);
        if (found === undefined) throw new Error(`There is no pattern ${wanted} for the scanner.`);
        return found;
    };
    for (const type of types) {
        if (type.PATTERN instanceof RegExp) list.push({ type, expression: new RegExp(type.PATTERN, 'y') });
    }
    for (const type of types) {
        const image = type.PATTERN;
        if (typeof image !== 'string') continue;
        const first = image.charCodeAt(0);
        if (isLetter(first)) {
            words.set(image, { type, image });
        } else {
            const longer = [type.LONGER_ALT ?? []].flat().map(({ name }) => pattern(name));
            signs.set(first, [...(signs.get(first) ?? []), { type, image, longer }]);
        }
    }
    return {
        words,
        signs,
        list,
        space: pattern('SPACE'),
        name: pattern('ID'),
        amount: pattern('AMOUNT'),
        rest: pattern(types.at(-1)?.name ?? ''),
    };
}

function startReading({ words }: Patterns, text: string): Reading {
    // The same word is the same string wherever it stands, so that a file keeps each of its names only once.
    const known = new Map(words);
    return { text, known, tokens: [], hidden: [], depth: 0, offset: 0, line: 1, column: 1 };
}

// Ends behind the brace that closes an outermost block once there are so many tokens, or where the text ends.
function scanUpTo(patterns: Patterns, reading: Reading, tokens: number): void {
    const { text } = reading;
    while (reading.offset < text.length) {
        const first = text.charCodeAt(reading.offset);
        scanOne(patterns, reading, first);
        if (first === openBrace) {
            reading.depth += 1;
        } else if (first === closeBrace) {
            reading.depth -= 1;
            if (reading.depth <= 0 && reading.tokens.length >= tokens) return;
        }
    }
}

// The common cases first: no other pattern begins with a plain letter, a digit or a blank.
function scanOne(patterns: Patterns, reading: Reading, first: number): void {
    const { text, offset } = reading;
    if (first === space && isPrinted(text.charCodeAt(offset + 1))) {
        reading.offset += 1;
        reading.column += 1;
    } else if (isLetter(first)) {
        const word = lookUp(patterns, reading, endOfPlainName(text, offset) ?? endOf(patterns.name, reading));
        add(reading, word.type, word.image);
    } else if (isDigit(first)) {
        add(reading, patterns.amount.type, text.slice(offset, endOf(patterns.amount, reading)));
    } else if (isBlank(first)) {
        const end = endOfPlainSpace(text, offset) ?? endOf(patterns.space, reading);
        addWithLines(reading, patterns.space.type, text.slice(offset, end));
    } else if (!addSign(patterns, reading, first)) {
        addAny(patterns, reading);
    }
}

function lookUp(patterns: Patterns, { text, offset, known }: Reading, end: number): Word {
    const image = text.slice(offset, end);
    let word = known.get(image);
    if (word === undefined) {
        word = { type: patterns.name.type, image };
        known.set(image, word);
    }
    return word;
}

function addSign(patterns: Patterns, reading: Reading, first: number): boolean {
    const { text, offset } = reading;
    const sign = patterns.signs.get(first)?.find(({ image }) => text.startsWith(image, offset));
    if (sign === undefined) {
        return false;
    }
    const longer = sign.longer.find(pattern => endOf(pattern, reading) > offset + sign.image.length);
    if (longer === undefined) {
        add(reading, sign.type, sign.image);
    } else {
        addWithLines(reading, longer.type, text.slice(offset, longer.expression.lastIndex));
    }
    return true;
}

function addAny(patterns: Patterns, reading: Reading): void {
    const { text, offset } = reading;
    const pattern = patterns.list.find(one => endOf(one, reading) > offset);
    const end = pattern?.expression.lastIndex ?? offset + 1;
    addWithLines(reading, (pattern ?? patterns.rest).type, text.slice(offset, end));
}

// Most names and blanks are plain ASCII. Then no pattern is needed, whose wide classes of characters take long to compile.
function endOfPlainName(text: string, offset: number): number | undefined {
    let end = offset + 1;
    for (;;) {
        const code = text.charCodeAt(end);
        const after = code === hyphen ? text.charCodeAt(end + 1) : code;
        if (after >= firstBeyondAscii) {
            return undefined;
        }
        if (!isLetter(after) && !isDigit(after) && after !== underscore) {
            return end;
        }
        end += code === hyphen ? 2 : 1;
    }
}

function endOfPlainSpace(text: string, offset: number): number | undefined {
    let end = offset + 1;
    while (isBlank(text.charCodeAt(end))) end += 1;
    return text.charCodeAt(end) >= firstBeyondAscii ? undefined : end;
}

/** Where the pattern ends that begins at the place of reading; 0 where it does not fit. */
function endOf({ expression }: Pattern, { text, offset }: Reading): number {
    expression.lastIndex = offset;
    expression.test(text);
    return expression.lastIndex;
}

function add(reading: Reading, tokenType: TokenType, image: string): Token {
    const { offset, line, column } = reading;
    const length = image.length;
    const token: Token = {
        image,
        startOffset: offset,
        endOffset: offset + length - 1,
        startLine: line,
        endLine: line,
        startColumn: column,
        endColumn: column + length - 1,
        tokenTypeIdx: tokenType.tokenTypeIdx ?? 0,
        tokenType,
    };
    reading.offset = offset + length;
    reading.column = column + length;
    // The library names the group of what is left out by a sentence of its own.
    if (tokenType.GROUP === undefined) reading.tokens.push(token);
    else if (tokenType.GROUP === 'hidden') reading.hidden.push(token);
    return token;
}

// A line ends at a line feed, at a return, or at both together.
function addWithLines(reading: Reading, type: TokenType, image: string): void {
    const token = add(reading, type, image);
    let breaks = 0;
    let afterLast = 0;
    for (let index = 0; index < image.length; index += 1) {
        const code = image.charCodeAt(index);
        if (code === lineFeed || (code === carriageReturn && image.charCodeAt(index + 1) !== lineFeed)) {
            breaks += 1;
            afterLast = index + 1;
        }
    }
    if (breaks === 0) {
        return;
    }
    reading.line += breaks;
    reading.column = image.length - afterLast + 1;
    if (afterLast < image.length) {
        token.endLine = reading.line;
        token.endColumn = reading.column - 1;
    } else if (breaks > 1) {
        token.endLine = reading.line - 1;
        token.endColumn = reading.column;
    }
}

const tabulator = 0x09;
const lineFeed = 0x0a;
const carriageReturn = 0x0d;
const space = 0x20;
const hyphen = 0x2d;
const underscore = 0x5f;
const openBrace = 0x7b;
const closeBrace = 0x7d;
const firstBeyondAscii = 0x80;

function isLetter(code: number): boolean {
    return (code >= 0x61 && code <= 0x7a) || (code >= 0x41 && code <= 0x5a);
}

function isDigit(code: number): boolean {
    return code >= 0x30 && code <= 0x39;
}

function isBlank(code: number): boolean {
    return code === space || (code >= tabulator && code <= carriageReturn);
}

/** Whether this is a sign, digit or letter of ASCII, so that blanks before it end here. */
function isPrinted(code: number): boolean {
    return code > space && code < 0x7f;
}
