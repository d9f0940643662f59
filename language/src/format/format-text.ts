// The one layout of a `.fault` file. It changes white space and the spelling of a few signs, never what the file says.

import { parseText } from '../lower/parse/parse-text.js';
import type { SyntaxFinding } from '../lower/parse/syntax-finding.js';
import { layoutTree } from './layout-tree.js';
import { printFile } from './print-items.js';
import { Writer, type Piece } from './writer.js';

/** A stretch of the text to replace by `text`; offsets are UTF-16 and `end` is exclusive. */
export interface FormatEdit {
    readonly start: number;
    readonly end: number;
    readonly text: string;
}

/** A file laid out; with findings, the text is the one that was given. */
export interface Formatted {
    readonly text: string;
    readonly findings: readonly SyntaxFinding[];
}

/** Lays out a file. A file that cannot be read without findings stays as it is. */
export function formatText(text: string): Formatted {
    const { edits, findings } = formatEdits(text);
    return { text: applyEdits(text, edits), findings };
}

/**
 * The edits that lay out a file, in its order and apart from each other; each replaces the white space between two words
 * or one word, so that an editor can take those of a few lines only.
 */
export function formatEdits(text: string): {
    readonly edits: readonly FormatEdit[];
    readonly findings: readonly SyntaxFinding[];
} {
    const parsed = parseText(text, '');
    if (parsed.findings.length > 0) {
        return { edits: [], findings: parsed.findings };
    }
    const writer = new Writer();
    printFile(layoutTree(text, parsed), writer);
    return { edits: editsOf(text, writer.pieces), findings: [] };
}

/** Applies edits that are in order and apart from each other. */
export function applyEdits(text: string, edits: readonly FormatEdit[]): string {
    let result = '';
    let end = 0;
    for (const edit of edits) {
        result += text.slice(end, edit.start) + edit.text;
        end = edit.end;
    }
    return result + text.slice(end);
}

function editsOf(text: string, pieces: readonly Piece[]): readonly FormatEdit[] {
    const lineEnd = usesReturns(text) ? '\r\n' : '\n';
    const edits: FormatEdit[] = [];
    let end = 0;
    const replace = (start: number, stop: number, wanted: string): void => {
        const written = lineEnd === '\n' ? wanted : wanted.replaceAll('\n', lineEnd);
        if (text.slice(start, stop) !== written) {
            edits.push({ start, end: stop, text: written });
        }
    };
    for (const piece of pieces) {
        replace(end, piece.start, piece.before);
        replace(piece.start, piece.end, piece.text);
        end = piece.end;
    }
    replace(end, text.length, pieces.length === 0 ? '' : '\n');
    return edits;
}

// A file keeps its carriage returns where every line has one.
function usesReturns(text: string): boolean {
    return text.includes('\r\n') && !/(?:^|[^\r])\n|\r(?!\n)/.test(text);
}
