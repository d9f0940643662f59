// Reads a file that was named, without being led to another place by a link.

import { lstatSync, realpathSync } from 'node:fs';
import { dirname } from 'node:path';
import { isWithin } from './find-files.js';
import { type FileReading, readWholeFile, whyNot } from './read-file.js';

/** Reads a whole file of at most `limit` bytes; a link must stay in the folder that the file is named in. `path` is absolute. */
export function readNear(path: string, limit: number): FileReading {
    try {
        if (!lstatSync(path).isSymbolicLink()) return readWholeFile(path, limit);
        const real = realpathSync(path);
        if (isWithin(real, realpathSync(dirname(path)))) return readWholeFile(real, limit);
        return { sort: 'unreadable', message: 'This link leads out of its folder, so it is not followed.' };
    } catch (problem) {
        return { sort: 'unreadable', message: whyNot(problem) };
    }
}
