// Tells of files that an author names whether they are there, without ever looking outside the workspace.

import { realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Presence } from 'halfsplit-language';
import { isWithin } from './find-files.js';

/** Whether a file of the workspace is there. The path is relative to the workspace; a link out of it counts as outside. */
export function presenceOf(path: string, root: string): Presence {
    try {
        const real = realpathSync(join(root, path));
        if (!isWithin(real, root)) return 'outside';
        return statSync(real).isFile() ? 'present' : 'missing';
    } catch {
        return 'missing';
    }
}
