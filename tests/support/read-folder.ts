/** Reads all files of a folder of this repository, for tests over whole worlds. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { listFiles, root } from '../house/project.mjs';
import type { Texts } from './read-texts.js';

/** The files below the folder, by their path from it. */
export function readFolder(folder: string): Texts {
    return Object.fromEntries(
        listFiles(folder).map(path => [path.slice(folder.length + 1), readFileSync(join(root, path), 'utf8')]),
    );
}
