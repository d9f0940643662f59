// Links all files of a workspace and answers what rules, the export and the editor ask of the links.

import type { Declaration, FileModel } from '../model/file.js';
import type { Model, Presence } from '../model/model.js';
import type { FileId, Reference } from '../model/written.js';
import { type FileLinks, linkFile, type LinkSources } from './linker.js';
import { type GlobalSort, globalSorts, namesOfFile } from './names.js';
import { resolvePath } from './paths.js';

/** The model of a workspace, with the links of each file. */
export interface LinkedModel extends Model, LinkSources {
    links(file: FileId): FileLinks | undefined;
}

/**
 * Links every file; the model has them in the order of their paths.
 * `presence` tells of files that are named but are not sources, such as pictures.
 */
export function linkWorkspace(
    given: ReadonlyMap<FileId, FileModel>,
    presence: (path: string) => Presence,
): LinkedModel {
    const files = inOrderOfPaths(given);
    const sources = makeSources(files);
    const links = new Map<FileId, FileLinks>();
    for (const file of files.values()) links.set(file.file, linkFile(file, sources));
    let referred: Set<Declaration> | undefined;
    return {
        ...sources,
        files,
        links: file => links.get(file),
        target: (reference: Reference) => links.get(reference.file)?.targets[reference.number],
        problems: file => links.get(file)?.problems ?? [],
        visibleFiles: file => sources.visibleFiles(file),
        isReferred: declaration => {
            referred ??= referredDeclarations(links);
            return referred.has(declaration);
        },
        presence,
    };
}

/** The same files in the order of their paths, so that what is said of them never depends on who gave them first. */
export function inOrderOfPaths(files: ReadonlyMap<FileId, FileModel>): ReadonlyMap<FileId, FileModel> {
    return new Map([...files].sort(([one], [other]) => (one < other ? -1 : 1)));
}

function referredDeclarations(links: ReadonlyMap<FileId, FileLinks>): Set<Declaration> {
    const referred = new Set<Declaration>();
    for (const { targets } of links.values()) for (const target of targets) if (target) referred.add(target);
    return referred;
}

/** The files that each file sees and the files that declare each name; both made on first use. */
export function makeSources(files: ReadonlyMap<FileId, FileModel>): LinkSources {
    const visible = new Map<FileId, readonly FileModel[]>();
    let declaring: Map<string, FileId[]> | undefined;
    return {
        visibleFiles: file => {
            let seen = visible.get(file);
            if (!seen) {
                seen = findVisibleFiles(file, files);
                visible.set(file, seen);
            }
            return seen;
        },
        declaring: (sort: GlobalSort, name: string) => {
            declaring ??= listDeclaring(files);
            return declaring.get(`${sort} ${name}`) ?? [];
        },
    };
}

/** A file, the files it uses, those they use in turn: nearest first; a circle does no harm here. */
function findVisibleFiles(file: FileId, files: ReadonlyMap<FileId, FileModel>): readonly FileModel[] {
    const first = files.get(file);
    if (!first) return [];
    const seen = new Set<FileModel>([first]);
    for (const current of seen) {
        for (const uses of current.uses) {
            const path = resolvePath(current.file, uses.path.value);
            const used = path === undefined ? undefined : files.get(path);
            if (used) seen.add(used);
        }
    }
    return [...seen];
}

function listDeclaring(files: ReadonlyMap<FileId, FileModel>): Map<string, FileId[]> {
    const declaring = new Map<string, FileId[]>();
    for (const file of inOrderOfPaths(files).values()) {
        const names = namesOfFile(file);
        for (const sort of globalSorts) {
            for (const name of names[sort].keys()) {
                const key = `${sort} ${name}`;
                const known = declaring.get(key);
                if (known) known.push(file.file);
                else declaring.set(key, [file.file]);
            }
        }
    }
    return declaring;
}
