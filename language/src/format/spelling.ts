// How single words are written: the spaces in amounts, the signs that have one spelling, and the spaces between words.

import type { Word } from './layout-tree.js';

/** A token as it is to be written; what the writer chose freely (names, units, texts) stays. */
export function writtenAs(type: string, text: string, isName: boolean): string {
    if (type === 'AMOUNT') {
        const number = numberPart.exec(text)?.[0] ?? '';
        const unit = text.slice(number.length).trimStart();
        // An angle's degrees stand close to their number.
        return unit === '' || unit === '°' ? text : `${number} ${unit}`;
    }
    return isName ? text : (oneSpelling.get(text) ?? text);
}

/** The space between two neighboring words of one heading or statement. */
export function spaceBetween(before: Word, word: Word): '' | ' ' {
    const tight =
        opening.has(before.type) ||
        closing.has(word.type) ||
        // The name of a function and its arguments.
        (word.type === '(' && word.rule === 'Operand' && before.isName);
    return tight ? '' : ' ';
}

/**
 * Whether a word must not follow an amount on the same line, because it would be read as the amount's unit.
 * That happens where the writer broke the line between a bare number and a name.
 */
export function wouldJoin(before: Word, word: Word): boolean {
    if (before.pattern === undefined || !/^[\p{L}%°‰]/u.test(word.text)) {
        return false;
    }
    const pattern = new RegExp(before.pattern.source, 'y');
    return (pattern.exec(`${before.text} ${word.text}`)?.[0].length ?? 0) !== before.text.length;
}

const numberPart = /^[+\-−]?[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/;

const oneSpelling: ReadonlyMap<string, string> = new Map([
    ['+-', '±'],
    ['+/-', '±'],
    ['<=', '≤'],
    ['>=', '≥'],
]);

const opening = new Set(['(', '[', '.']);
const closing = new Set([')', ']', ',', ':', '.']);
