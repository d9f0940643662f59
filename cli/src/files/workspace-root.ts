// Finds the folder of a workspace: the nearest one upward that holds the settings file.

import { statSync } from 'node:fs';
import { dirname, join, parse, relative, sep } from 'node:path';
import { settingsFile } from 'halfsplit-language';
import { isWithin } from './find-files.js';

/** The nearest folder, from this one upward, that holds the settings file; undefined where there is none. */
export function findSettingsFolder(folder: string): string | undefined {
    for (let current = folder; ; current = dirname(current)) {
        if (isFile(join(current, settingsFile))) return current;
        if (current === parse(current).root) return undefined;
    }
}

/** The deepest folder that all the folders lie in. There is at least one, and all are absolute. */
export function commonFolder(folders: readonly [string, ...string[]]): string {
    let common = folders[0];
    for (const folder of folders) {
        while (!isWithin(folder, common) && common !== dirname(common)) common = dirname(common);
    }
    return common;
}

/** A path as the language has it: relative to the workspace, with slashes. */
export function toFileId(path: string, root: string): string {
    return relative(root, path).split(sep).join('/');
}

function isFile(path: string): boolean {
    try {
        return statSync(path).isFile();
    } catch {
        return false;
    }
}
