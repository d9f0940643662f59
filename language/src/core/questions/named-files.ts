// The files that a file names, in `uses` and in pictures, and what is wrong with each.

import { resolvePath } from '../linking/paths.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { FileId, Prose } from '../model/written.js';
import { nearNames } from '../text/near-names.js';
import { clausesOf } from './clauses.js';
import { oncePerFile, oncePerModel } from './remember.js';

/** What is wrong with a named file. */
export type NamedFileProblem =
    /** Nothing stands between the quotes. */
    | 'empty'
    | 'missing'
    /** It is there, but it is no source of the workspace. */
    | 'not-read'
    /** The path begins at the root of a drive, or with a scheme such as `https:`. */
    | 'absolute'
    | 'scheme'
    /** The path leads out of the workspace. */
    | 'outside';

export interface NamedFile {
    readonly by: 'uses' | 'picture';
    /** The path as written, with its place. */
    readonly path: Prose;
    /** The path relative to the workspace; undefined where it has none. */
    readonly resolved: string | undefined;
    readonly problem: NamedFileProblem | undefined;
}

/** All files that a file names, in the order of the text within each sort; not where the path is not written yet. */
export const namedFilesOf = oncePerFile(findNamedFiles);

function findNamedFiles(file: FileModel, model: Model): NamedFile[] {
    const uses = file.uses.map(({ path }) => look('uses', path, file, model));
    const pictures = clausesOf(file, model).pictures.map(({ path }) => look('picture', path, file, model));
    // Where no text stands at all, reading the file has said so.
    return [...uses, ...pictures].filter(({ path }) => path.end > path.start);
}

function look(by: NamedFile['by'], path: Prose, file: FileModel, model: Model): NamedFile {
    const resolved = resolvePath(file.file, path.value);
    if (resolved === undefined) return { by, path, resolved, problem: problemOfPath(path.value) };
    if (by === 'uses' && model.files.has(resolved)) return { by, path, resolved, problem: undefined };
    const presence = model.presence(resolved);
    if (presence !== 'present') return { by, path, resolved, problem: presence };
    return { by, path, resolved, problem: by === 'uses' ? 'not-read' : undefined };
}

function problemOfPath(written: string): NamedFileProblem {
    const path = written.trim();
    if (path === '') return 'empty';
    // A single letter before the colon is a drive, not a scheme.
    if (/^[/\\]|^[A-Za-z]:/.test(path)) return 'absolute';
    return /^[A-Za-z][A-Za-z0-9+.-]*:/.test(path) ? 'scheme' : 'outside';
}

/** Sources that a `uses` of a file that is not there may mean: of the same name in another folder, else of a near name. */
export function sourcesLike(named: NamedFile, model: Model): readonly FileId[] {
    if (named.by !== 'uses') return [];
    const index = sourcesByName(model);
    const name = lastPart(named.path.value.replaceAll('\\', '/').trim());
    const same = index.get(name.toLowerCase());
    if (same) return same.filter(file => file !== named.path.file).slice(0, mostSources);
    if (index.size > mostNames) return [];
    return nearNames(name, index.keys())
        .flatMap(near => index.get(near) ?? [])
        .filter(file => file !== named.path.file)
        .slice(0, mostSources);
}

const mostSources = 3;

/** A larger workspace is not searched for near names: that would compare every file with every slip. */
const mostNames = 2000;

/** The sources of a workspace by the last part of their path, in small letters. */
const sourcesByName = oncePerModel((model: Model) => {
    const index = new Map<string, FileId[]>();
    for (const file of model.files.keys()) {
        const name = lastPart(file).toLowerCase();
        const same = index.get(name);
        if (same) same.push(file);
        else index.set(name, [file]);
    }
    return index;
});

function lastPart(path: string): string {
    return path.slice(path.lastIndexOf('/') + 1);
}
