// The smallest building blocks of the model: everything remembers where it was written.

/** A file's path relative to the workspace, with `/` between folders. */
export type FileId = string;

/** A stretch of a file, in UTF-16 offsets; `end` is exclusive. */
export interface Span {
    readonly file: FileId;
    readonly start: number;
    readonly end: number;
}

/** A name that a declaration gives. `text` is empty where a half-written file gives none. */
export interface Name extends Span {
    readonly text: string;
}

/** Prose of the author: the value, without quotes and with its lines dedented. */
export interface Prose extends Span {
    readonly value: string;
}

/** A number with its unit, exactly as written; `core/quantities` reads it. */
export interface Amount extends Span {
    readonly written: string;
}

/** A word out of a small set, such as an energy or a measured quantity, with its place. */
export interface Word extends Span {
    readonly text: string;
}

/** What a reference may lead to; the linker looks up each role in its own list of names. */
export type ReferenceRole =
    | 'member'
    | 'stretch-end'
    | 'zone'
    | 'part'
    | 'energy'
    | 'condition'
    | 'value'
    | 'flow'
    | 'place'
    | 'kind'
    | 'gate'
    | 'option'
    | 'choice'
    | 'choice-of-option'
    | 'test'
    | 'test-of-part'
    | 'outcome'
    | 'result'
    | 'fault'
    | 'fault-of-part'
    | 'instrument'
    | 'table'
    | 'equipment'
    | 'tree'
    | 'procedure'
    | 'subject'
    | 'subject-given'
    | 'target';

/**
 * A name that refers to a declaration.
 * `number` counts the references of one file, so that links are a plain array beside the model:
 * the model stays unchanged when only another file changes. `text` is empty where nothing is written yet.
 */
export interface Reference extends Span {
    readonly role: ReferenceRole;
    readonly text: string;
    readonly number: number;
}
