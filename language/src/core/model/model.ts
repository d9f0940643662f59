// The linked workspace that rules look at: files, links, and which other files exist.

import type { LinkProblem } from '../linking/problem.js';
import type { Declaration, FileModel } from './file.js';
import type { FileId, Reference } from './written.js';

/** Whether a file that the author names is there; `outside` means that its path leaves the workspace. */
export type Presence = 'present' | 'missing' | 'outside';

export interface Model {
    readonly files: ReadonlyMap<FileId, FileModel>;
    /** What a reference leads to; undefined where the linker has said why not, or nothing is written yet. */
    target(reference: Reference): Declaration | undefined;
    /** What the linker could not resolve in a file, in the order of the text. */
    problems(file: FileId): readonly LinkProblem[];
    /** Files that a file sees: itself, those it uses, those they use in turn; in that order. */
    visibleFiles(file: FileId): readonly FileModel[];
    /** Whether any reference of the workspace leads to this declaration. */
    isReferred(declaration: Declaration): boolean;
    /** Whether a file named by the author (a picture, a `uses`) is there; the path is relative to the workspace. */
    presence(path: string): Presence;
}
