// Tries a new name out: reads the changed files, links them again, and finds whether every name still means the same.

import { linkFile } from '../core/linking/linker.js';
import { makeSources } from '../core/linking/workspace-links.js';
import { nounFor } from '../core/model/declaration-words.js';
import type { Declaration, FileModel } from '../core/model/file.js';
import type { FileId, Reference } from '../core/model/written.js';
import { takenNamesOf } from '../core/questions/taken-names.js';
import { quoteName } from '../core/text/words.js';
import type { EditorWorkspace } from './editor-workspace.js';
import type { NamePlace } from './names-at.js';

/** A text as read: its model, its declarations in order, and whether it has slips in its spelling. */
export interface TriedFile {
    readonly model: FileModel;
    readonly declarations: readonly Declaration[];
    readonly slips: number;
}

/** Reads a text without putting it in place. */
export type ReadFile = (file: FileId, text: string) => TriedFile;

export interface Trial {
    readonly workspace: EditorWorkspace;
    /** What gets the new name. */
    readonly declarations: readonly Declaration[];
    /** Where the new name is written. */
    readonly places: readonly NamePlace[];
    readonly newName: string;
    readonly readFile: ReadFile;
}

/** Why the new name cannot be used, as a sentence; undefined where it can. */
export function tryRenaming(trial: Trial): string | undefined {
    const { workspace, newName } = trial;
    const before = workspace.links.model;
    const files = new Map(before.files);
    /** The changed files' declarations before the change to those after it. */
    const successors = new Map<Declaration, Declaration>();
    for (const [file, places] of byFile(trial.places)) {
        const source = workspace.get(file);
        if (!source) continue;
        const old = [...source.nodes.keys()];
        const tried = trial.readFile(file, withName(source.text.getText(), places, newName));
        if (tried.slips !== source.slips || tried.declarations.length !== old.length) {
            return `With ${quoteName(newName)} in its place, the file ${quoteName(file)} could not be read.`;
        }
        old.forEach((declaration, index) => successors.set(declaration, tried.declarations[index] ?? declaration));
        files.set(file, tried.model);
    }
    return findTaken(trial, files, successors) ?? findOtherMeaning(trial, files, successors);
}

function byFile(places: readonly NamePlace[]): Map<FileId, NamePlace[]> {
    const files = new Map<FileId, NamePlace[]>();
    for (const place of places) {
        const known = files.get(place.file);
        if (known) known.push(place);
        else files.set(place.file, [place]);
    }
    return files;
}

function withName(text: string, places: readonly NamePlace[], newName: string): string {
    let changed = '';
    let end = 0;
    for (const place of [...places].sort((one, other) => one.start - other.start)) {
        changed += text.slice(end, place.start) + newName;
        end = place.end;
    }
    return changed + text.slice(end);
}

/** A declaration of the same list that has the name already. */
function findTaken(
    { workspace, declarations, newName }: Trial,
    files: ReadonlyMap<FileId, FileModel>,
    successors: ReadonlyMap<Declaration, Declaration>,
): string | undefined {
    const renamed = new Set(declarations.map(declaration => successors.get(declaration)));
    const before = workspace.links.model;
    const sources = makeSources(files);
    const after = { ...before, ...sources, files };
    for (const model of files.values()) {
        const taken = takenNamesOf(model, after).filter(({ name }) => name === newName);
        const old = before.files.get(model.file);
        const known = old ? takenNamesOf(old, before).filter(({ name }) => name === newName).length : 0;
        const [first] = taken;
        if (!first || taken.length <= known) continue;
        const other = renamed.has(first.first) ? first.later : first.first;
        const within = first.within === '' ? '' : ` in ${first.within}`;
        return `There is a ${nounFor(other)} called ${quoteName(newName)}${within} already.`;
    }
    return undefined;
}

/** A reference that would lead elsewhere. */
function findOtherMeaning(
    { workspace, newName }: Trial,
    files: ReadonlyMap<FileId, FileModel>,
    successors: ReadonlyMap<Declaration, Declaration>,
): string | undefined {
    const before = workspace.links.model;
    const sources = makeSources(files);
    const changed = new Set(
        [...files].filter(([file, model]) => before.files.get(file) !== model).map(([file]) => file),
    );
    for (const model of files.values()) {
        if (!sources.visibleFiles(model.file).some(({ file }) => changed.has(file))) continue;
        const old = workspace.links.links(model.file)?.targets ?? [];
        const references: Reference[] = [];
        const { targets } = linkFile(model, sources, reference => {
            references[reference.number] = reference;
        });
        const moved = references.find(({ number }) => {
            const target = old[number];
            return targets[number] !== (target && (successors.get(target) ?? target));
        });
        if (moved) return describeMeaning(moved, targets[moved.number], old[moved.number], newName);
    }
    return undefined;
}

function describeMeaning(
    reference: Reference,
    now: Declaration | undefined,
    before: Declaration | undefined,
    newName: string,
): string {
    const where = `in ${quoteName(reference.file)}`;
    if (now) {
        return `${quoteName(newName)} cannot be used: a name ${where} would then mean the ${nounFor(now)} ${quoteName(reference.text)}.`;
    }
    const sort = before ? `the ${nounFor(before)}` : 'what it means now';
    return `${quoteName(newName)} cannot be used: ${quoteName(reference.text)} ${where} would no longer lead to ${sort}.`;
}
