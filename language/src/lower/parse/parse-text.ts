// Reads the text of a `.fault` file into a syntax tree, without building a document around it.

import type { FileId } from '../../core/model/written.js';
import type { Declaration, File } from '../../generated/ast.js';
import type { FaultParser } from './fault-parser.js';
import { makeReadingParser } from './reading-services.js';
import type { Comment, SyntaxFinding } from './syntax-finding.js';

/** A file as read. */
export interface ParsedFile {
    readonly file: FileId;
    /** The syntax tree; after errors it holds what could be read. */
    readonly root: File;
    /** What is wrong with the spelling, in the order of the file. */
    readonly findings: readonly SyntaxFinding[];
    /** All comments, in the order of the file. */
    readonly comments: readonly Comment[];
}

/**
 * Reads a text. Whatever the text is, this returns: what cannot be read is a finding.
 * A byte order mark at the beginning counts as blank; offsets count it.
 */
export function parseText(text: string, file: FileId): ParsedFile {
    parser ??= makeReadingParser();
    const { value, findings, comments } = parser.parse<File>(text);
    return { file, root: value, findings, comments };
}

/**
 * Reads a text that has no slips, and hands over each declaration as soon as it is read, so that the syntax tree of
 * a large file is never there as a whole. Gives the rest of the file.
 *
 * Undefined for a text with slips: then what was handed over has to be forgotten, and the text to be read as a whole.
 */
export function parseInPieces(text: string, take: (declaration: Declaration) => void): File | undefined {
    parser ??= makeReadingParser();
    return parser.parseInPieces(text, take);
}

// Made when the first file is read.
let parser: FaultParser | undefined;
