// Collects what is printed, piece by piece: each word or comment of the file with the white space before it.

/** A word or comment as printed, and where it stood. */
export interface Piece {
    readonly start: number;
    readonly end: number;
    /** The white space before it, with `\n` for line breaks. */
    readonly before: string;
    readonly text: string;
}

/** Prints pieces one after the other and knows the column it stands in. */
export class Writer {
    readonly pieces: Piece[] = [];
    /** The column of the next piece, from 0. */
    column = 0;
    private before = '';

    /** Ends the line, unless nothing is printed yet. `blank` leaves one line empty. */
    newLine(indent: number, blank = false): void {
        const breaks = this.pieces.length === 0 ? '' : blank ? '\n\n' : '\n';
        this.before = breaks + ' '.repeat(indent);
        this.column = indent;
    }

    /** Leaves blanks before the next piece. */
    space(count: number): void {
        this.before += ' '.repeat(count);
        this.column += count;
    }

    /** Leaves blanks up to a column. */
    spaceTo(column: number): void {
        this.space(Math.max(0, column - this.column));
    }

    /** Prints a word or comment of the source as `text`. */
    put(source: { readonly start: number; readonly end: number }, text: string): void {
        this.pieces.push({ start: source.start, end: source.end, before: this.before, text });
        this.before = '';
        const lastBreak = text.lastIndexOf('\n');
        this.column = lastBreak < 0 ? this.column + text.length : text.length - lastBreak - 1;
    }
}
