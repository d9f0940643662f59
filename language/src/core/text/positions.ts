// Turns an offset in a text into a line and a column, and back.

/** A place in a text as people count it: both from 1, the column in UTF-16 units. */
export interface Position {
    readonly line: number;
    readonly column: number;
}

/** The offset at which each line begins. A line ends after CR LF, after a CR that stands alone, or after an LF. */
export function lineStarts(text: string): readonly number[] {
    const starts = [0];
    for (let offset = 0; offset < text.length; offset += 1) {
        const code = text.charCodeAt(offset);
        const loneReturn = code === carriageReturn && text.charCodeAt(offset + 1) !== lineFeed;
        if (code === lineFeed || loneReturn) {
            starts.push(offset + 1);
        }
    }
    return starts;
}

/** The line and column of an offset. An offset before the text counts as 0; one behind its end counts on along the last line. */
export function positionAt(starts: readonly number[], offset: number): Position {
    const wanted = Math.max(0, offset);
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
        const middle = Math.ceil((low + high) / 2);
        if ((starts[middle] ?? 0) <= wanted) {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    return { line: low + 1, column: wanted - (starts[low] ?? 0) + 1 };
}

/** The offset of a line and column; undefined for a line that is not there. A column behind the end of its line is not noticed. */
export function offsetAt(starts: readonly number[], position: Position): number | undefined {
    const start = starts[position.line - 1];
    return start === undefined ? undefined : start + Math.max(0, position.column - 1);
}

const lineFeed = 0x0a;
const carriageReturn = 0x0d;
