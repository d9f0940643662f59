// Prints the items of a block line by line.

import { alignedColumns, type Columns } from './columns.js';
import {
    canJoin,
    flatWidth,
    gapAt,
    isOneLineBlock,
    leadingWidth,
    printFlat,
    printLeadingComments,
    putWord,
    spaceAfterItem,
    widestLine,
} from './flat.js';
import type { Item, LayoutTree } from './layout-tree.js';
import { printComments, printHeading } from './several-lines.js';
import type { Writer } from './writer.js';

/** How much deeper than its heading a block stands. */
const blockIndent = 2;

/** Prints a whole file. */
export function printFile(tree: LayoutTree, writer: Writer): void {
    const block = { indent: 0, begins: true };
    printBlock(tree, writer, tree.items, block, false);
    printEnd(tree, writer, tree.words.length, block);
}

interface Block {
    readonly indent: number;
    /** Whether nothing stands in it yet: no blank line may begin it. */
    begins: boolean;
}

// `apart` gives every item a line of its own, because the line that the writer put them on is too long.
function printBlock(tree: LayoutTree, writer: Writer, items: readonly Item[], block: Block, apart: boolean): void {
    const lines = apart ? items.map(item => [item]) : groupByLine(tree, items, block.indent);
    const columns = alignedColumns(tree, lines, block.indent);
    for (const line of lines) {
        printLine(tree, writer, line, block, columns);
    }
}

// Items that the writer put on one line stay together where they fit.
function groupByLine(tree: LayoutTree, items: readonly Item[], indent: number): readonly (readonly Item[])[] {
    const lines: (readonly Item[])[] = [];
    let line: Item[] = [];
    let width = 0;
    const endLine = (): void => {
        lines.push(...(width <= widestLine && line.length > 0 ? [line] : line.map(item => [item])));
    };
    for (const item of items) {
        const own = flatWidth(tree, item);
        const before = line.at(-1);
        if (before !== undefined && Number.isFinite(width + own) && sharesLine(tree, item)) {
            width += spaceAfterItem(tree, before, item) + leadingWidth(tree, item.first) + own;
            line.push(item);
        } else {
            endLine();
            width = indent + own;
            line = [item];
        }
    }
    endLine();
    return lines;
}

function sharesLine(tree: LayoutTree, { first }: Item): boolean {
    const { comments, apart, breaks } = gapAt(tree, first);
    return apart === 0 && breaks === 0 && comments.every(({ breaksBefore }) => breaksBefore === 0);
}

function printLine(tree: LayoutTree, writer: Writer, line: readonly Item[], block: Block, columns: Columns): void {
    const { indent } = block;
    let before: Item | undefined;
    for (const item of line) {
        if (before === undefined) {
            beginLine(tree, writer, item, block);
        } else {
            writer.space(spaceAfterItem(tree, before, item));
        }
        printLeadingComments(tree, writer, item.first);
        if (line.length > 1 || indent + flatWidth(tree, item) <= widestLine) {
            printFlat(tree, writer, item, columns);
        } else {
            printOnSeveralLines(tree, writer, item, indent);
        }
        before = item;
    }
}

function beginLine(tree: LayoutTree, writer: Writer, { first }: Item, block: Block): void {
    const { comments, apart, breaks } = gapAt(tree, first);
    const begin = (lineBreaks: number): void => beginOwnLine(writer, block, lineBreaks);
    printComments(writer, comments.slice(0, apart), begin);
    begin(comments[apart]?.breaksBefore ?? breaks);
}

function beginOwnLine(writer: Writer, block: Block, breaks: number): void {
    writer.newLine(block.indent, breaks > 1 && !block.begins);
    block.begins = false;
}

function printOnSeveralLines(tree: LayoutTree, writer: Writer, item: Item, indent: number): void {
    const { open, close } = item;
    const reserve = open === undefined ? 0 : 2 + leadingWidth(tree, open);
    printHeading(tree, writer, item, { indent, reserve });
    if (open === undefined || close === undefined) {
        return;
    }
    if (canJoin(tree, open)) {
        writer.space(1);
    } else {
        const { comments, apart } = gapAt(tree, open);
        printComments(writer, comments.slice(0, apart), () => writer.newLine(indent));
        writer.newLine(indent);
    }
    printLeadingComments(tree, writer, open);
    putWord(tree, writer, open);
    const block = { indent: indent + blockIndent, begins: true };
    printBlock(tree, writer, item.items, block, isOneLineBlock(tree, item));
    printEnd(tree, writer, close, block);
    writer.newLine(indent);
    putWord(tree, writer, close);
}

// The comments at the end of a block or of the file.
function printEnd(tree: LayoutTree, writer: Writer, index: number, block: Block): void {
    printComments(writer, gapAt(tree, index).comments, breaks => beginOwnLine(writer, block, breaks));
}
