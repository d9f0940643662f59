// What reading a file as text can find: plain data with a place, in the writer's words.

/** `unreadable-file` also stands for the limits of what is read: size, line length, nesting. */
export type SyntaxCode =
    'unreadable-file' | 'unexpected-text' | 'unexpected-character' | 'unclosed-text' | 'internal-failure';

/** A stretch of the text to replace by `text`; an empty stretch inserts. */
export interface SyntaxEdit {
    readonly start: number;
    readonly end: number;
    readonly text: string;
}

/**
 * One thing that is wrong with the spelling of a file.
 * `start` and `end` (exclusive) are UTF-16 offsets; the place is never empty and never past the end of the text.
 */
export interface SyntaxFinding {
    readonly code: SyntaxCode;
    readonly start: number;
    readonly end: number;
    readonly message: string;
    /** How to mend it, as a sentence; undefined where the message says all there is to say. */
    readonly mend: string | undefined;
    /** The mend as edits, where the writer's meaning is plain; otherwise empty. */
    readonly edits: readonly SyntaxEdit[];
}

/** A comment of the file with its marks (`//`, or between slash and star). */
export interface Comment {
    readonly start: number;
    readonly end: number;
    readonly text: string;
}

/** The finding's message and mend as the lines that a bare editor shows. */
export function findingLines(finding: SyntaxFinding): string {
    return finding.mend === undefined ? finding.message : `${finding.message}\n${finding.mend}`;
}
