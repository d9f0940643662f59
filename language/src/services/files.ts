// Looks for files as the command line does: sources below a folder, the settings file above it, and never outside a workspace.

import { settingsFile } from '../core/findings/settings.js';
import { type FileSystemNode, type FileSystemProvider, type URI, UriUtils } from 'langium';
import type { Presence } from '../core/model/model.js';
import type { FileId } from '../core/model/written.js';

/** Files that can tell where a link leads. */
export interface LinkedFiles extends FileSystemProvider {
    /** The address without links; rejects where nothing is there. A host without links leaves this out. */
    realPath?(uri: URI): Promise<URI>;
}

/** Folders whose files do not belong to a workspace. */
export function isLeftOut(folder: string): boolean {
    return folder === 'node_modules' || folder.startsWith('.');
}

/** The path of a file below a folder; undefined where it stands elsewhere. */
export function relativePathOf(folder: URI, uri: URI): FileId | undefined {
    if (folder.scheme !== uri.scheme || folder.authority !== uri.authority) return undefined;
    const start = folder.path.endsWith('/') ? folder.path : `${folder.path}/`;
    return uri.path.startsWith(start) && uri.path.length > start.length ? uri.path.slice(start.length) : undefined;
}

/** Whether a file of a workspace is there; one that a link leads to must lie in the workspace too. */
export async function presenceOf(root: URI, path: FileId, files: LinkedFiles): Promise<Presence> {
    const uri = UriUtils.joinPath(root, path);
    try {
        if (!(await isWithin(root, uri, files))) return 'outside';
        return (await files.stat(uri)).isFile ? 'present' : 'missing';
    } catch {
        return 'missing';
    }
}

/** The nearest folder, from this one upward, that holds the settings file. */
export async function findSettingsFolder(folder: URI, files: LinkedFiles): Promise<URI | undefined> {
    for (let current = folder; ; current = UriUtils.dirname(current)) {
        if (await exists(UriUtils.joinPath(current, settingsFile), files)) return current;
        if (UriUtils.equals(current, UriUtils.dirname(current))) return undefined;
    }
}

/** What stands below a folder. */
export interface FoundFiles {
    readonly sources: readonly URI[];
    /** Folders that hold a settings file, with none above them here. */
    readonly settled: readonly URI[];
}

/** What a search needs to know and to tell. */
export interface SearchOptions {
    readonly files: LinkedFiles;
    readonly isSource: (uri: URI) => boolean;
    /** Hears of a folder that cannot be read; it is left out. */
    readonly unreadable: (folder: URI, problem: unknown) => void;
}

/**
 * The sources below a folder. Links are followed after everything else, only within the folder, and never to what was
 * seen, so that circles end.
 */
export async function findFiles(root: URI, options: SearchOptions): Promise<FoundFiles> {
    const search: Search = { root, options, sources: [], settled: [], seen: new Set(), links: [] };
    await searchFolder(search, root);
    for (let link = search.links.shift(); link; link = search.links.shift()) await followLink(search, link);
    return search;
}

interface Search {
    readonly root: URI;
    readonly options: SearchOptions;
    readonly sources: URI[];
    readonly settled: URI[];
    /** Real addresses of what was found. */
    readonly seen: Set<string>;
    readonly links: URI[];
}

async function searchFolder(search: Search, folder: URI): Promise<void> {
    if (!(await isNew(search, folder))) return;
    const entries = await entriesOf(folder, search.options);
    const isSettled = entries.some(({ isFile, uri }) => isFile && UriUtils.basename(uri) === settingsFile);
    const isInner = search.settled.some(outer => relativePathOf(outer, folder) !== undefined);
    if (isSettled && !isInner) search.settled.push(folder);
    for (const { isDirectory, isFile, uri } of entries) {
        const name = UriUtils.basename(uri);
        if (isDirectory) {
            if (!isLeftOut(name)) await searchFolder(search, uri);
        } else if (!name.startsWith('.')) {
            if (!isFile) search.links.push(uri);
            else if (search.options.isSource(uri) && (await isNew(search, uri))) search.sources.push(uri);
        }
    }
}

async function followLink(search: Search, link: URI): Promise<void> {
    const { files, isSource } = search.options;
    try {
        if (!(await isWithin(search.root, link, files))) return;
        const { isDirectory, isFile } = await files.stat(link);
        if (isDirectory) await searchFolder(search, link);
        else if (isFile && isSource(link) && (await isNew(search, link))) search.sources.push(link);
    } catch {
        // A link that leads nowhere is nothing; whoever names it in `uses` is told so.
    }
}

async function isNew({ seen, options }: Search, uri: URI): Promise<boolean> {
    const real = (await realPath(uri, options.files)).toString();
    if (seen.has(real)) return false;
    seen.add(real);
    return true;
}

async function isWithin(root: URI, uri: URI, files: LinkedFiles): Promise<boolean> {
    const [realRoot, real] = await Promise.all([realPath(root, files), realPath(uri, files)]);
    return UriUtils.equals(realRoot, real) || relativePathOf(realRoot, real) !== undefined;
}

async function realPath(uri: URI, files: LinkedFiles): Promise<URI> {
    return files.realPath ? files.realPath(uri) : uri;
}

async function entriesOf(folder: URI, { files, unreadable }: SearchOptions): Promise<readonly FileSystemNode[]> {
    try {
        return await files.readDirectory(folder);
    } catch (problem) {
        unreadable(folder, problem);
        return [];
    }
}

async function exists(uri: URI, files: LinkedFiles): Promise<boolean> {
    try {
        return (await files.stat(uri)).isFile;
    } catch {
        return false;
    }
}
