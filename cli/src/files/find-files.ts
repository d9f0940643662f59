// Finds the `.fault` files of a folder, in an order that is the same everywhere, and never outside the workspace.

import { lstatSync, readdirSync, realpathSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { settingsFile } from 'halfsplit-language';
import { whyNot } from './read-file.js';

/** Something on the way that cannot be read or must not be followed. */
export interface PathProblem {
    /** Absolute. */
    readonly path: string;
    readonly code: 'unreadable-file' | 'path-outside' | 'settings-invalid';
    readonly message: string;
    readonly advice?: string;
}

export interface FoundFiles {
    /** Absolute paths, sorted; each file once, also where several links lead to it. */
    readonly files: readonly string[];
    readonly problems: readonly PathProblem[];
    /** Settings files below the workspace's own, which count for nothing. */
    readonly innerSettings: readonly string[];
}

/** Whether a path lies in a folder or is the folder. Both are absolute and without links. */
export function isWithin(path: string, folder: string): boolean {
    const way = relative(folder, path);
    return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !/^([A-Za-z]:|[/\\])/.test(way));
}

/** What is wrong with a folder that is called as a source is. */
export const folderWithSourceName = 'This is a folder, but its name is that of a source.';

/** Whether a name is that of a source. */
export function isFaultFile(name: string): boolean {
    return name.endsWith('.fault');
}

/**
 * Walks a folder of the workspace `root`. Hidden folders and `node_modules` are passed over. Links are followed after
 * everything else, only within the workspace, and never to what has been seen, so that circles end.
 */
export function findFaultFiles(folder: string, root: string): FoundFiles {
    const search: Search = {
        root,
        files: [],
        problems: [],
        innerSettings: [],
        seen: new Set([realpathSync(folder)]),
        folders: [folder],
        links: [],
    };
    for (;;) {
        const next = search.folders.pop();
        if (next !== undefined) {
            lookIntoFolder(search, next);
            continue;
        }
        const link = search.links.sort(comparePaths).shift();
        if (link === undefined) break;
        followLink(search, link);
    }
    return {
        files: search.files.sort(comparePaths),
        problems: search.problems,
        innerSettings: search.innerSettings.sort(comparePaths),
    };
}

/** The sources that stand directly in a folder, sorted; none where it cannot be read. Links are left aside. */
export function listFaultFiles(folder: string): readonly string[] {
    try {
        const entries = readdirSync(folder, { withFileTypes: true });
        const names = entries.filter(entry => entry.isFile() && isFaultFile(entry.name) && !isHidden(entry.name));
        return names.map(({ name }) => join(folder, name)).sort(comparePaths);
    } catch {
        return [];
    }
}

interface Search {
    readonly root: string;
    readonly files: string[];
    readonly problems: PathProblem[];
    readonly innerSettings: string[];
    /** Real paths of the folders and files that were found. */
    readonly seen: Set<string>;
    readonly folders: string[];
    readonly links: string[];
}

function lookIntoFolder(search: Search, folder: string): void {
    let names: string[];
    let real: string;
    try {
        names = readdirSync(folder).sort();
        real = realpathSync(folder);
    } catch (problem) {
        search.problems.push({
            path: folder,
            code: 'unreadable-file',
            message: `This folder cannot be read. ${whyNot(problem)}`,
        });
        return;
    }
    for (const name of names) lookAt(search, join(folder, name), join(real, name), name);
}

function lookAt(search: Search, path: string, real: string, name: string): void {
    const sort = sortOf(path);
    if (sort === 'link') {
        if (!isHidden(name)) search.links.push(path);
        return;
    }
    if (sort === 'folder') {
        if (isHidden(name) || name === 'node_modules') return;
        if (isFaultFile(name)) {
            const advice = 'Give the folder another name.';
            search.problems.push({ path, code: 'unreadable-file', message: folderWithSourceName, advice });
        }
        if (search.seen.has(real)) return;
        search.seen.add(real);
        search.folders.push(path);
        return;
    }
    if (name === settingsFile && real !== join(search.root, settingsFile)) search.innerSettings.push(path);
    if (!isFaultFile(name) || isHidden(name) || search.seen.has(real)) return;
    search.seen.add(real);
    search.files.push(path);
}

function followLink(search: Search, path: string): void {
    let real: string;
    let isFolder: boolean;
    try {
        real = realpathSync(path);
        isFolder = statSync(real).isDirectory();
    } catch (problem) {
        // A link that leads nowhere matters only where it stands for a source.
        if (!isFaultFile(path)) return;
        const code = (problem as NodeJS.ErrnoException).code;
        const message = code === 'ENOENT' ? 'This link leads to a file that is not there.' : whyNot(problem);
        search.problems.push({ path, code: 'unreadable-file', message });
        return;
    }
    if (!isFolder && !isFaultFile(path)) return;
    if (!isWithin(real, search.root)) {
        search.problems.push({
            path,
            code: 'path-outside',
            message: 'This link leads out of the workspace, so it is not followed.',
            advice: 'Put a copy of what it leads to into the workspace, or take the link out.',
        });
        return;
    }
    if (search.seen.has(real)) return;
    search.seen.add(real);
    if (isFolder) search.folders.push(path);
    else search.files.push(path);
}

function sortOf(path: string): 'file' | 'folder' | 'link' {
    try {
        const stats = lstatSync(path);
        if (stats.isSymbolicLink()) return 'link';
        return stats.isDirectory() ? 'folder' : 'file';
    } catch {
        // It has gone since the folder was listed, or cannot be asked: reading it says why.
        return 'file';
    }
}

function isHidden(name: string): boolean {
    return name.startsWith('.');
}

// By UTF-16 units of the path with one separator, so that the order is the same on every system.
function comparePaths(one: string, other: string): number {
    const [first, second] = [one.replaceAll(sep, '/'), other.replaceAll(sep, '/')];
    if (first === second) return 0;
    return first < second ? -1 : 1;
}
