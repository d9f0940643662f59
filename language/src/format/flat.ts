// Prints an item on one line, or tells that it has to take several.

import type { Gap, Item, LayoutTree, Word } from './layout-tree.js';
import { spaceBetween, wouldJoin } from './spelling.js';
import type { Writer } from './writer.js';

/** The widest line that is printed where there is a choice, in characters. */
export const widestLine = 100;

/** The width of an item on one line; infinite where a comment, a text or the writer's own layout needs several lines. */
export function flatWidth(tree: LayoutTree, item: Item): number {
    let width = 0;
    const fits = visitFlat(tree, item, 0, (index, space) => {
        width += wordWidth(tree, index, space, index === item.first);
    });
    return fits ? width : Number.POSITIVE_INFINITY;
}

/** Where the words of an item begin on one line, with the comments before them, counted from the item's beginning. */
export interface FlatStops {
    /** For the index of a word, where it begins and how many blanks stand before it. */
    readonly words: ReadonlyMap<number, { readonly column: number; readonly space: number }>;
    readonly width: number;
}

/** The stops of an item that fits on one line. */
export function flatStops(tree: LayoutTree, item: Item): FlatStops {
    const words = new Map<number, { readonly column: number; readonly space: number }>();
    let width = 0;
    visitFlat(tree, item, 0, (index, space) => {
        words.set(index, { column: width + space, space });
        width += wordWidth(tree, index, space, index === item.first);
    });
    return { words, width };
}

/** The width of the words `from` up to (without) `to` of a heading on one line; infinite where they need several. */
export function headingWidth(tree: LayoutTree, from: number, to: number): number {
    let width = 0;
    for (let index = from; index < to; index += 1) {
        const begins = index === from;
        if ((!begins && !canJoin(tree, index)) || isLongText(wordAt(tree, index))) {
            return Number.POSITIVE_INFINITY;
        }
        width += wordWidth(tree, index, begins ? 0 : spaceBefore(tree, index), begins);
    }
    return width;
}

/** Prints an item on the current line; `columns` are columns that the words at these indexes begin in. */
export function printFlat(tree: LayoutTree, writer: Writer, item: Item, columns?: ReadonlyMap<number, number>): void {
    visitFlat(tree, item, 0, (index, space) => {
        if (index > item.first) {
            writer.space(space);
            writer.spaceTo(columns?.get(index) ?? 0);
            printLeadingComments(tree, writer, index);
        }
        putWord(tree, writer, index);
    });
}

/** Prints one word as it is to be written. */
export function putWord(tree: LayoutTree, writer: Writer, index: number): void {
    const word = wordAt(tree, index);
    writer.put(word, word.text);
}

/** The blanks between a word and the one before it in the same heading. */
export function spaceBefore(tree: LayoutTree, index: number): number {
    return spaceBetween(wordAt(tree, index - 1), wordAt(tree, index)).length;
}

/** Prints the comments that stand on the line of a word, each with a space behind it. */
export function printLeadingComments(tree: LayoutTree, writer: Writer, index: number): void {
    const { comments, apart } = gapAt(tree, index);
    for (const comment of comments.slice(apart)) {
        writer.put(comment, comment.text);
        writer.space(1);
    }
}

/** Whether a word can stand on the line of the word before it. */
export function canJoin(tree: LayoutTree, index: number): boolean {
    const { comments, apart, breaks } = gapAt(tree, index);
    if (apart > 0) {
        return false;
    }
    return comments.length > 0 || breaks === 0 || !wouldJoin(wordAt(tree, index - 1), wordAt(tree, index));
}

/** Whether the writer wrote the items of a block on the line of its braces. */
export function isOneLineBlock(tree: LayoutTree, { open, close }: Item): boolean {
    if (open === undefined || close === undefined) {
        return false;
    }
    const inside = tree.text.slice(wordAt(tree, open).end, wordAt(tree, close).start);
    return !/[\r\n]/.test(inside);
}

/** The blanks between an item and the next on the same line. */
export function spaceAfterItem(tree: LayoutTree, item: Item, next: Item): number {
    const listGoesOn = wordAt(tree, item.last).type === ',';
    const bare = item.first === item.last && next.first === next.last;
    return listGoesOn || bare ? 1 : 2;
}

/** Whether a word is a text of several lines. */
export function isLongText({ type, text }: Word): boolean {
    return type === 'TEXT' && /[\r\n]/.test(text);
}

/** The index behind an item's heading: of its opening brace, or behind its last word. */
export function headingEnd(item: Item): number {
    return item.open ?? item.last + 1;
}

export function wordAt(tree: LayoutTree, index: number): Word {
    const word = tree.words[index];
    if (word === undefined) {
        throw new RangeError(`The file has no word ${index}.`);
    }
    return word;
}

export function gapAt(tree: LayoutTree, index: number): Gap {
    return tree.gaps[index] ?? { comments: [], apart: 0, breaks: 0 };
}

// Visits all words of an item with the blanks before them; returns false as soon as a line has to end between two.
function visitFlat(
    tree: LayoutTree,
    item: Item,
    space: number,
    visit: (index: number, space: number) => void,
): boolean {
    for (let index = item.first; index < headingEnd(item); index += 1) {
        const begins = index === item.first;
        if ((!begins && !canJoin(tree, index)) || isLongText(wordAt(tree, index))) {
            return false;
        }
        visit(index, begins ? space : spaceBefore(tree, index));
    }
    const { open, close } = item;
    if (open === undefined || close === undefined) {
        return true;
    }
    if (!canJoin(tree, open) || !canJoin(tree, close) || (item.items.length > 0 && !isOneLineBlock(tree, item))) {
        return false;
    }
    visit(open, 1);
    let before: Item | undefined;
    for (const inner of item.items) {
        const blanks = before === undefined ? 1 : spaceAfterItem(tree, before, inner);
        if (!canJoin(tree, inner.first) || !visitFlat(tree, inner, blanks, visit)) {
            return false;
        }
        before = inner;
    }
    visit(close, 1);
    return true;
}

/** The width of a word with the blanks and comments before it; the comments before the word that begins an item do not count. */
function wordWidth(tree: LayoutTree, index: number, space: number, begins: boolean): number {
    const own = space + wordAt(tree, index).text.length;
    return begins ? own : own + leadingWidth(tree, index);
}

/** The width of the comments that stand on the line of a word. */
export function leadingWidth(tree: LayoutTree, index: number): number {
    const { comments, apart } = gapAt(tree, index);
    return comments.slice(apart).reduce((width, { text }) => width + text.length + 1, 0);
}
