// Shows the line of a source that a finding is about, with the stretch underlined.

import { displayWidth, type Position, positionAt, type Span } from 'halfsplit-language';
import { visibleInPlace } from '../visible.js';

/** A text with the beginnings of its lines, so that they are found once for all its findings. */
export interface Source {
    readonly text: string;
    readonly lineStarts: readonly number[];
}

/** A line as shown and the underline below it; both without the margin. */
export interface ShownLine {
    readonly line: number;
    readonly text: string;
    readonly underline: string;
    /** How many more lines the stretch goes on for. */
    readonly moreLines: number;
}

const tabWidth = 4;

/** The line in which a stretch begins. What does not fit into `width` columns is cut, and the stretch stays in view. */
export function showLine(source: Source, place: Pick<Span, 'start' | 'end'>, width: number): ShownLine {
    // A place without any length, such as where something is missing, is still a place.
    const { start } = place;
    const end = Math.max(place.end, start + 1);
    const from = positionAt(source.lineStarts, start);
    const last = positionAt(source.lineStarts, end - 1);
    const written = lineText(source, from);
    const marked = from.line === last.line ? end - start : written.length - (from.column - 1);
    const cells = toCells(written, from.column - 1, from.column - 1 + marked);
    const { text, underline } = cut(cells, width);
    return { line: from.line, text, underline, moreLines: last.line - from.line };
}

function lineText({ text, lineStarts }: Source, { line }: Position): string {
    const start = lineStarts[line - 1] ?? 0;
    return text.slice(start, lineStarts[line] ?? text.length).replace(/[\r\n]+$/, '');
}

interface Cell {
    readonly text: string;
    readonly width: number;
    readonly marked: boolean;
}

// Made for the first line that is shown: it takes a quarter of the time in which a small file is checked.
let graphemes: Intl.Segmenter | undefined;

/** The characters of a line as they are shown, each with the marks that stand on it, and whether the stretch holds it. */
function toCells(line: string, start: number, end: number): readonly Cell[] {
    graphemes ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
    const cells: Cell[] = [];
    let column = 0;
    for (const { segment, index } of graphemes.segment(line)) {
        const text = segment === '\t' ? ' '.repeat(tabWidth - (column % tabWidth)) : visibleInPlace(segment);
        const width = displayWidth(text);
        cells.push({ text, width, marked: index < end && index + segment.length > start });
        column += width;
    }
    return cells;
}

const before = 12;

function cut(cells: readonly Cell[], width: number): { readonly text: string; readonly underline: string } {
    const firstMarked = cells.findIndex(cell => cell.marked);
    const anchor = firstMarked < 0 ? cells.length : firstMarked;
    const total = sum(cells);
    let first = 0;
    // Only a line that is too long loses its beginning, and no more of it than is needed to bring the stretch into view.
    if (total > width && sum(cells.slice(0, anchor)) > width / 2) first = Math.max(0, anchor - before);
    const shown: Cell[] = first > 0 ? [cutMark] : [];
    let used = sum(shown);
    for (const cell of cells.slice(first)) {
        if (used + cell.width > width - 1 && total > width) {
            shown.push(cutMark);
            break;
        }
        shown.push(cell);
        used += cell.width;
    }
    const text = shown.map(cell => cell.text).join('');
    const underline = shown.map(cell => (cell.marked ? '~' : ' ').repeat(cell.width)).join('');
    // The end of a line has no character that could be underlined.
    return { text, underline: firstMarked < 0 ? `${underline}~` : underline.trimEnd() };
}

const cutMark: Cell = { text: '…', width: 1, marked: false };

function sum(cells: readonly Cell[]): number {
    return cells.reduce((total, cell) => total + cell.width, 0);
}
