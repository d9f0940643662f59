// Reads the texts of a workspace into one linked model, file by file, so that only one syntax tree is alive at a time.

import { fromTextFinding } from '../core/findings/combine.js';
import type { Finding } from '../core/findings/finding.js';
import { resolvePath } from '../core/linking/paths.js';
import { type LinkedModel, linkWorkspace } from '../core/linking/workspace-links.js';
import type { FileModel } from '../core/model/file.js';
import type { Presence } from '../core/model/model.js';
import type { FileId } from '../core/model/written.js';
import { lowerFile, startLowering } from '../lower/lower-file.js';
import { parseInPieces, parseText } from '../lower/parse/parse-text.js';

/** One `.fault` file: its path relative to the workspace, and its text. */
export interface SourceText {
    readonly file: FileId;
    readonly text: string;
}

/** A workspace as read: the model, and what reading it had to say. */
export interface Workspace {
    readonly model: LinkedModel;
    /** Findings of the reader, the parser and the lowering. */
    readonly findings: readonly Finding[];
    readonly texts: ReadonlyMap<FileId, string>;
}

export interface ReadOptions {
    /** Tells whether a file that the author names is there. Asked only for pictures and `uses`. */
    readonly presence: (path: string) => Presence;
    /** Findings made before the texts were read, such as files that could not be opened. */
    readonly findings?: readonly Finding[];
    /** Gives the text of a file that a source uses and that was not among the sources; undefined where it is not to be read. */
    readonly used?: (file: FileId) => string | undefined;
    /** Called after each file, for progress. */
    readonly onFile?: (file: FileId) => void;
}

/** Reads all sources. Never throws on what an author wrote. */
export function readWorkspace(sources: Iterable<SourceText>, options: ReadOptions): Workspace {
    const files = new Map<FileId, FileModel>();
    const texts = new Map<FileId, string>();
    const findings: Finding[] = [...(options.findings ?? [])];
    const add = (file: FileId, text: string): void => {
        const read = readSource(file, text);
        files.set(file, read.model);
        texts.set(file, text);
        for (const finding of read.findings) findings.push(finding);
        options.onFile?.(file);
    };
    for (const { file, text } of sources) add(file, text);
    const { used } = options;
    // The map grows while it is walked, so that what a used file uses in turn is read too.
    if (used) for (const model of files.values()) addUsed(model, files, used, add);
    return { model: linkWorkspace(files, options.presence), findings, texts };
}

function addUsed(
    model: FileModel,
    files: ReadonlyMap<FileId, FileModel>,
    used: (file: FileId) => string | undefined,
    add: (file: FileId, text: string) => void,
): void {
    for (const { path } of model.uses) {
        const file = resolvePath(model.file, path.value);
        if (file === undefined || files.has(file)) continue;
        const text = used(file);
        if (text !== undefined) add(file, text);
    }
}

/** Reads one file; its syntax tree is dropped again at once, and never there as a whole where the file has no slips. */
export function readSource(file: FileId, text: string): { model: FileModel; findings: readonly Finding[] } {
    const lowering = startLowering(file);
    const rest = parseInPieces(text, lowering.add);
    if (rest !== undefined) {
        return lowering.finish(rest);
    }
    const parsed = parseText(text, file);
    const lowered = lowerFile(parsed.root, file);
    return {
        model: lowered.model,
        findings: [...parsed.findings.map(finding => fromTextFinding(finding, file)), ...lowered.findings],
    };
}
