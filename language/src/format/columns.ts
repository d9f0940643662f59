// Aligns neighboring lines of one sort in columns: names, titles and the rest; outcomes and bands; branches and arrows; rows of tables.

import { beginsClause } from './breaks.js';
import { flatStops, flatWidth, gapAt, headingEnd, widestLine, wordAt } from './flat.js';
import type { Item, LayoutTree } from './layout-tree.js';

/** The columns of words that begin a column, by the words' indexes. */
export type Columns = ReadonlyMap<number, number>;

/**
 * The columns in a block, for the words of all its lines. `indent` is that of the block.
 * A run of neighbors is aligned whole or, where a line would become too wide, not at all.
 */
export function alignedColumns(tree: LayoutTree, lines: readonly (readonly Item[])[], indent: number): Columns {
    const columns = new Map<number, number>();
    let run: Item[] = [];
    for (const line of [...lines, []]) {
        const item = alignable(tree, line, indent);
        if (item === undefined || run.at(-1)?.rule !== item.rule || !isNeighbor(tree, item)) {
            align(tree, run, indent, columns);
            run = [];
        }
        if (item !== undefined) {
            run.push(item);
        }
    }
    return columns;
}

/** The indexes of the words that begin the columns behind the first; undefined for a column that a line leaves empty. */
type Starts = readonly (number | undefined)[];

// The sorts of lines that are aligned, and how their columns are found.
const columnStarts: Readonly<Record<string, (tree: LayoutTree, item: Item) => Starts>> = {
    Branch: (tree, item) => startsAt(tree, item, '->'),
    Choice: titleAndRest,
    Conclusion: titleAndRest,
    Condition: titleAndRest,
    ConditionValue: titleAndRest,
    Fault: titleAndRest,
    Hazard: titleAndRest,
    Location: titleAndRest,
    Option: titleAndRest,
    Outcome: (_, item) => [item.first < item.last ? item.first + 1 : undefined],
    Part: titleAndRest,
    Referral: titleAndRest,
    Result: titleAndRest,
    Row: (tree, item) => startsAt(tree, item, '='),
    Supply: titleAndRest,
    Zone: titleAndRest,
};

function startsAt(tree: LayoutTree, item: Item, type: string): Starts {
    for (let index = item.first; index <= item.last; index += 1) {
        if (wordAt(tree, index).type === type) {
            return [index];
        }
    }
    return [undefined];
}

function titleAndRest(tree: LayoutTree, item: Item): Starts {
    for (let index = item.first + 1; index < headingEnd(item); index += 1) {
        const word = wordAt(tree, index);
        if (word.type === 'TEXT') {
            return [index, index < item.last ? index + 1 : undefined];
        }
        // A kind belongs to the name that it explains.
        if (beginsClause(item, word) && word.type !== 'is') {
            return [undefined, index];
        }
    }
    return [undefined, item.open];
}

function alignable(tree: LayoutTree, line: readonly Item[], indent: number): Item | undefined {
    const [item] = line;
    if (item === undefined || line.length > 1 || !Object.hasOwn(columnStarts, item.rule)) {
        return undefined;
    }
    const { comments, apart } = gapAt(tree, item.first);
    return comments.length === apart && indent + flatWidth(tree, item) <= widestLine ? item : undefined;
}

// A blank line or a comment of its own separates what is not to be compared.
function isNeighbor(tree: LayoutTree, item: Item): boolean {
    const { comments, breaks } = gapAt(tree, item.first);
    return breaks < 2 && comments.every(({ breaksBefore, severalLines }) => breaksBefore === 0 && !severalLines);
}

interface Cell {
    /** Index of the word that begins it. */
    readonly start: number;
    readonly width: number;
}

function align(tree: LayoutTree, run: readonly Item[], indent: number, columns: Map<number, number>): void {
    if (run.length < 2) {
        return;
    }
    const rows = run.map(item => cellsOf(tree, item));
    const found: (readonly [number, number])[] = [];
    let begin = indent;
    for (let column = 0; column < (rows[0]?.length ?? 0); column += 1) {
        let widest = 0;
        for (const row of rows) {
            const cell = row[column];
            if (cell === undefined) {
                continue;
            }
            if (begin + cell.width > widestLine) {
                return;
            }
            found.push([cell.start, begin]);
            // Only a cell that others follow makes its column wide.
            const followed = row.slice(column + 1).some(other => other !== undefined);
            widest = followed ? Math.max(widest, cell.width) : widest;
        }
        begin += widest === 0 ? 0 : widest + 1;
    }
    for (const [word, column] of found) {
        columns.set(word, column);
    }
}

function cellsOf(tree: LayoutTree, item: Item): readonly (Cell | undefined)[] {
    const stops = flatStops(tree, item);
    const starts: Starts = [item.first, ...(columnStarts[item.rule]?.(tree, item) ?? [])];
    return starts.map((start, column) => {
        if (start === undefined) {
            return undefined;
        }
        const next = starts.slice(column + 1).find(other => other !== undefined);
        const nextStop = next === undefined ? undefined : stops.words.get(next);
        const end = nextStop === undefined ? stops.width : nextStop.column - nextStop.space;
        return { start, width: end - (stops.words.get(start)?.column ?? 0) };
    });
}
