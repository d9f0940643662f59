// Prints a heading or statement that does not fit on one line: broken at its clauses, and a flow at its arrows.

import { breaksOf, clauseBreak, smallBreak } from './breaks.js';
import {
    canJoin,
    gapAt,
    headingEnd,
    headingWidth,
    isLongText,
    leadingWidth,
    printLeadingComments,
    spaceBefore,
    widestLine,
    wordAt,
} from './flat.js';
import type { Item, LayoutTree, PlacedComment } from './layout-tree.js';
import { indentComment, indentText } from './long-text.js';
import type { Writer } from './writer.js';

/** How much deeper than its first line a statement goes on. */
export const continuation = 4;

/**
 * Prints the words of an item up to its block, beginning at the current place.
 * `indent` is the item's own; `reserve` characters stay free at the end of the last line, for the brace.
 */
export function printHeading(
    tree: LayoutTree,
    writer: Writer,
    item: Item,
    { indent, reserve }: { readonly indent: number; readonly reserve: number },
): void {
    const end = headingEnd(item);
    const stretch: Stretch = { from: item.first, to: end, first: item.first, indent, reserve };
    if (fits(tree, writer, stretch)) {
        printStretch(tree, writer, stretch);
        return;
    }
    const breaks = breaksOf(tree, item, end);
    for (const clause of divide(tree, breaks, stretch, clauseBreak)) {
        goOn(tree, writer, clause);
        if (fits(tree, writer, clause)) {
            printStretch(tree, writer, clause);
            continue;
        }
        for (const part of divide(tree, breaks, clause, smallBreak)) {
            if (part.from > clause.from) {
                goOn(tree, writer, part);
            }
            printStretch(tree, writer, part);
        }
    }
}

/** Prints comments: behind what is printed where they stood so, else on lines of their own, which `startLine` begins. */
export function printComments(
    writer: Writer,
    comments: readonly PlacedComment[],
    startLine: (breaks: number) => void,
): void {
    for (const comment of comments) {
        if (comment.breaksBefore === 0 && !comment.severalLines && writer.pieces.length > 0) {
            writer.space(2);
        } else {
            startLine(comment.breaksBefore);
        }
        writer.put(comment, indentComment(comment.text, writer.column));
    }
}

interface Stretch {
    readonly from: number;
    readonly to: number;
    /** The first word of the item, and the item's indentation. */
    readonly first: number;
    readonly indent: number;
    /** Characters that stay free behind it. */
    readonly reserve: number;
}

// Divides a stretch where a line may break, and where one has to.
function divide(tree: LayoutTree, breaks: readonly number[], whole: Stretch, least: number): readonly Stretch[] {
    const { from, to, first, indent, reserve } = whole;
    const parts: Stretch[] = [];
    let start = from;
    for (let index = from + 1; index < to; index += 1) {
        if ((breaks[index - first] ?? 0) >= least || !canJoin(tree, index)) {
            parts.push({ from: start, to: index, first, indent, reserve: 0 });
            start = index;
        }
    }
    parts.push({ from: start, to, first, indent, reserve });
    return parts;
}

function fits(tree: LayoutTree, writer: Writer, { from, to, reserve }: Stretch): boolean {
    return writer.column + headingWidth(tree, from, to) + reserve <= widestLine;
}

// Goes on to the next part on the same line or, where it does not fit there, on the next.
function goOn(tree: LayoutTree, writer: Writer, part: Stretch): void {
    const { from, first, indent } = part;
    if (from === first) {
        return;
    }
    const space = spaceBefore(tree, from);
    const width = space + leadingWidth(tree, from) + firstLineWidth(tree, part) + part.reserve;
    if (canJoin(tree, from) && writer.column + width <= widestLine) {
        writer.space(space);
    } else {
        const { comments, apart } = gapAt(tree, from);
        printComments(writer, comments.slice(0, apart), () => writer.newLine(indent + continuation));
        writer.newLine(indent + continuation);
    }
    printLeadingComments(tree, writer, from);
}

// A text of several lines ends the first line.
function firstLineWidth(tree: LayoutTree, { from, to }: Stretch): number {
    for (let index = from; index < to; index += 1) {
        const word = wordAt(tree, index);
        if (isLongText(word)) {
            const before = index === from ? 0 : headingWidth(tree, from, index) + spaceBefore(tree, index);
            return before + word.text.split(/[\r\n]/, 1).join('').length;
        }
    }
    return headingWidth(tree, from, to);
}

function printStretch(tree: LayoutTree, writer: Writer, { from, to, indent }: Stretch): void {
    for (let index = from; index < to; index += 1) {
        if (index > from) {
            writer.space(spaceBefore(tree, index));
            printLeadingComments(tree, writer, index);
        }
        const word = wordAt(tree, index);
        writer.put(word, isLongText(word) ? indentText(word.text, indent) : word.text);
    }
}
