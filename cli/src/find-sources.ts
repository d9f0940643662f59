// Finds the sources that the person who called the program means, and the workspace that they belong to.

import { realpathSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { type FileId, type Finding, makeFinding } from 'halfsplit-language';
import { Refusal } from './command.js';
import {
    findFaultFiles,
    folderWithSourceName,
    isFaultFile,
    listFaultFiles,
    type PathProblem,
} from './files/find-files.js';
import { whyNot } from './files/read-file.js';
import { commonFolder, findSettingsFolder, toFileId } from './files/workspace-root.js';
import type { Io } from './io.js';
import { visible } from './visible.js';

export interface FoundSources {
    /** The folder of the workspace: absolute, without links. */
    readonly root: string;
    /** Where the settings file is; undefined where there is none, and the root is only what the paths have in common. */
    readonly settingsFolder: string | undefined;
    /** Absolute paths, sorted. */
    readonly files: readonly string[];
    /**
     * Other sources of the workspace, sorted: all of them where there is a settings file, otherwise those beside the
     * given ones. What they say of the given sources counts: a part that only they name is used.
     */
    readonly others: () => readonly string[];
    /** What cannot be opened or must not be followed. */
    readonly problems: readonly PathProblem[];
    /** Settings files that count for nothing, because they lie below the workspace's own. Absolute. */
    readonly innerSettings: readonly string[];
}

/**
 * Looks for sources under the paths, as they were written. `inputPath` is where a text from standard input would lie.
 * Refuses where there is nothing at all to read.
 */
export function findSources(paths: readonly string[], io: Io, inputPath?: string): FoundSources {
    const targets = paths.map(path => lookUp(path, io));
    const inputFolder = inputPath === undefined ? [] : [realFolder(dirname(inputPath))];
    const folders = [...targets.flatMap(({ folder }) => folder ?? []), ...inputFolder];
    const [first = realpathSync(io.folder), ...more] = folders;
    const common = commonFolder([first, ...more]);
    const settingsFolder = findSettingsFolder(common);
    const root = settingsFolder ?? common;
    const found = findAll(targets, root);
    if (found.files.length === 0 && found.problems.length === 0 && inputPath === undefined) throw nothingToRead(paths);
    const besides = [...targets.flatMap(({ folder, isFolder }) => (isFolder ? [] : (folder ?? []))), ...inputFolder];
    const isWhole = targets.some(({ path, isFolder }) => isFolder && path === root);
    const others = () => (isWhole ? [] : findOthers(besides, settingsFolder, new Set(found.files)));
    return { root, settingsFolder, ...found, others };
}

function findOthers(
    besides: readonly string[],
    settingsFolder: string | undefined,
    known: ReadonlySet<string>,
): readonly string[] {
    const found =
        settingsFolder === undefined
            ? [...new Set(besides)].flatMap(listFaultFiles)
            : findFaultFiles(settingsFolder, settingsFolder).files;
    return found.filter(file => !known.has(file));
}

/** How a file of the workspace is shown: as seen from the current folder. The file `` is the workspace itself. */
export function shownPath(file: FileId, root: string, io: Io): string {
    return visible(relative(realpathSync(io.folder), join(root, file)) || '.');
}

/** The finding that a problem on the way is. */
export function pathFinding({ path, code, message, advice }: PathProblem, root: string): Finding {
    const place = { file: toFileId(path, root), start: 0, end: 0 };
    return makeFinding(code, 'error', message, place, advice === undefined ? {} : { advice });
}

/** What a given path leads to. */
interface Target {
    /** Absolute, without links; as given where it cannot be looked up. */
    readonly path: string;
    /** The folder that it is or lies in; undefined where it leads nowhere. */
    readonly folder: string | undefined;
    readonly isFolder: boolean;
    readonly problem: PathProblem | undefined;
}

function lookUp(written: string, io: Io): Target {
    const path = resolve(io.folder, written);
    try {
        const real = realpathSync(path);
        const isFolder = statSync(real).isDirectory();
        const problem = problemOfGiven(real, isFolder);
        return { path: real, folder: isFolder ? real : dirname(real), isFolder, problem };
    } catch (problem) {
        const message = whyNot(problem);
        return { path, folder: undefined, isFolder: false, problem: { path, code: 'unreadable-file', message } };
    }
}

function problemOfGiven(path: string, isFolder: boolean): PathProblem | undefined {
    if (isFolder !== isFaultFile(path)) return undefined;
    const code = 'unreadable-file';
    if (isFolder) return { path, code, message: folderWithSourceName, advice: 'Give the folder another name.' };
    return {
        path,
        code,
        message: 'This file is not read: the name of a source ends in `.fault`.',
        advice: 'Give the path of a `.fault` file or of a folder.',
    };
}

function realFolder(folder: string): string {
    try {
        return realpathSync(folder);
    } catch (problem) {
        throw new Refusal(`The folder \`${visible(folder)}\` cannot be used. ${whyNot(problem)}`);
    }
}

function findAll(targets: readonly Target[], root: string): Pick<FoundSources, 'files' | 'problems' | 'innerSettings'> {
    const files = new Set<string>();
    const problems = new Map<string, PathProblem>();
    const innerSettings = new Set<string>();
    for (const { path, isFolder, problem } of targets) {
        if (problem) problems.set(path, problem);
        if (isFolder) {
            const found = findFaultFiles(path, root);
            for (const file of found.files) files.add(file);
            for (const other of found.problems) problems.set(other.path, other);
            for (const settings of found.innerSettings) innerSettings.add(settings);
        } else if (!problem) {
            files.add(path);
        }
    }
    return { files: [...files].sort(), problems: [...problems.values()], innerSettings: [...innerSettings].sort() };
}

function nothingToRead(paths: readonly string[]): Refusal {
    const where =
        paths.length === 1 && paths[0] === '.' ? 'this folder' : paths.map(path => `\`${visible(path)}\``).join(', ');
    return new Refusal(
        `There is no \`.fault\` file in ${where}.`,
        '`halfsplit new FOLDER` makes a small workspace to begin with.',
    );
}
