// Words the finding for text that the grammar does not allow at its place.

import { nearNames } from '../../core/text/near-names.js';
import { listOf, quoteName } from '../../core/text/words.js';
import { thingsOf, type Expected, type ExpectedLevel } from './expected-words.js';
import type { SyntaxFinding } from './syntax-finding.js';
import { tokenEnd, type Token } from './token.js';
import { expectedWord, holderWord } from './trade-words.js';

/** What is known where reading stopped. */
export interface Unexpected {
    /** The text that is not allowed; undefined at the end of the file. */
    readonly actual: Token | undefined;
    /** The text before it; undefined at the beginning of the file. */
    readonly previous: Token | undefined;
    /** The first text of the line on which `actual` stands, where it is another than `actual`. */
    readonly firstOfLine: Token | undefined;
    /** What may stand here, the innermost rule first. */
    readonly levels: readonly ExpectedLevel[];
}

/** The finding for unexpected text; undefined for a file without any text, which cannot have one. */
export function describeUnexpected(unexpected: Unexpected): SyntaxFinding | undefined {
    const { actual, previous, levels } = unexpected;
    if (actual === undefined) {
        return previous === undefined ? undefined : describeEnd(previous, levels);
    }
    return (
        describeMisspelt(unexpected, actual) ?? describeWrongSort(actual, levels) ?? describeOther(unexpected, actual)
    );
}

const mostWords = 6;

function describeEnd(previous: Token, levels: readonly ExpectedLevel[]): SyntaxFinding {
    return finding(previous, `The file ends here, but ${isExpected(thingsOf(levels))}`, undefined);
}

// A word that is nearly one of those that may stand here, or one before it that was taken for a name.
function describeMisspelt({ firstOfLine, previous, levels }: Unexpected, actual: Token): SyntaxFinding | undefined {
    const block = levels.filter(level => level.block);
    return (
        misspelt(actual, isWord(actual), levels) ??
        misspelt(previous, isMistakenName(previous, actual), levels) ??
        misspelt(firstOfLine, isMistakenName(firstOfLine, actual), block)
    );
}

function misspelt(
    token: Token | undefined,
    possible: boolean,
    levels: readonly ExpectedLevel[],
): SyntaxFinding | undefined {
    const near = token === undefined || !possible ? [] : nearNames(token.image, wordsOf(levels));
    if (token === undefined || near.length === 0) {
        return undefined;
    }
    const level = levels.find(candidate => wordsOf([candidate]).some(word => near.includes(word)));
    return finding(token, standsHere(token, level === undefined ? levels : [level], false), spellingMend(near), near);
}

function isMistakenName(token: Token | undefined, actual: Token): boolean {
    return (
        token?.tokenType.name === 'ID' && token.startLine === actual.startLine && token.image.length >= shortestMisspelt
    );
}

// A name or a text is wanted, and something stands here that was most likely meant as one.
function describeWrongSort(actual: Token, levels: readonly ExpectedLevel[]): SyntaxFinding | undefined {
    const things = thingsOf(levels);
    const [wanted] = things;
    if (wanted === undefined || levels.some(level => level.block)) {
        return undefined;
    }
    if (wanted.sort === 'name' && isAlphabetic(actual.image) && actual.tokenType.name !== 'ID') {
        const message = `${quoteName(actual.image)} is a word of the language, so it cannot be a name here.`;
        return finding(actual, message, 'Choose another name, or join it to a second word with a hyphen.');
    }
    if (wanted.sort === 'name' && actual.tokenType.name === 'AMOUNT') {
        const message = `${quoteName(actual.image)} cannot be a name here: a name begins with a letter.`;
        return finding(actual, message, `Write ${nameLike(wanted)}.`);
    }
    if (wanted.sort === 'name' && actual.tokenType.name === 'TEXT') {
        return finding(actual, `A text stands here, but ${isExpected(things)}`, 'Write the name before the text.');
    }
    return undefined;
}

function nameLike(wanted: Expected): string {
    return wanted.sort === 'name' && wanted.of !== undefined
        ? expectedWord(wanted)
        : 'a name that begins with a letter';
}

function describeOther({ previous, levels }: Unexpected, actual: Token): SyntaxFinding {
    const beginsLine = previous === undefined || previous.endLine !== actual.startLine;
    return finding(actual, standsHere(actual, levels, beginsLine), beginsLine ? undefined : mendOther(actual, levels));
}

function mendOther(actual: Token, levels: readonly ExpectedLevel[]): string | undefined {
    const textWanted = thingsOf(levels).some(thing => thing.sort === 'text');
    return textWanted && isWord(actual) && actual.tokenType.name === 'ID'
        ? 'If it belongs to a text, write the text between quotes.'
        : undefined;
}

// At the beginning of a line the block is meant; within a line the rule that is not complete.
function standsHere(actual: Token, levels: readonly ExpectedLevel[], beginsLine: boolean): string {
    const here = actual.image === '}' ? 'The block ends here' : `Here stands ${shown(actual)}`;
    const block = levels.find(level => level.block);
    const inner = thingsOf(levels.filter(level => level !== block));
    const holder = block === undefined ? undefined : holderWord(block.rule);
    if (block === undefined) {
        return `${here}, but ${isExpected(inner)}`;
    }
    if (holder !== undefined && (beginsLine || inner.length === 0)) {
        const held = thingsOf([block]).filter(thing => thing.sort !== 'word' || thing.word !== '}');
        return `${here}; ${holder} can hold ${sentenceEnd(listed(held, 'and'))}`;
    }
    // Where a block could open here, what follows the whole declaration is hardly meant.
    const opens = inner.some(thing => thing.sort === 'word' && thing.word === '{');
    return `${here}; ${listed(opens ? inner : thingsOf(levels), 'or')} can stand here.`;
}

function listed(things: readonly Expected[], joint: 'and' | 'or'): string {
    const words = [...new Set(things.map(expectedWord))];
    return words.length > mostWords ? `${words.slice(0, mostWords).join(', ')}, …` : listOf(words, joint);
}

function isExpected(things: readonly Expected[]): string {
    return `${listed(things, 'or')} is expected.`;
}

function sentenceEnd(text: string): string {
    return text.endsWith('…') ? text : `${text}.`;
}

function shown(token: Token): string {
    return token.tokenType.name === 'TEXT' ? 'a text' : quoteName(token.image);
}

function spellingMend(near: readonly string[]): string {
    const words = listOf(near.map(quoteName), 'and');
    return near.length === 1
        ? `There is a word with a similar spelling: ${words}.`
        : `There are words with a similar spelling: ${words}.`;
}

function wordsOf(levels: readonly ExpectedLevel[]): readonly string[] {
    return thingsOf(levels).flatMap(thing => (thing.sort === 'word' && isAlphabetic(thing.word) ? [thing.word] : []));
}

function isWord(token: Token): boolean {
    return isAlphabetic(token.image);
}

function isAlphabetic(text: string): boolean {
    return /^\p{L}/u.test(text);
}

/** Shorter words are names more often than misspelt words. */
const shortestMisspelt = 4;

function finding(token: Token, message: string, mend: string | undefined, near: readonly string[] = []): SyntaxFinding {
    const [start, end] = [token.startOffset, tokenEnd(token)];
    const [only] = near;
    const edits = only !== undefined && near.length === 1 ? [{ start, end, text: only }] : [];
    return { code: 'unexpected-text', start, end, message, mend, edits };
}
