// The changes that the program makes to the real disk.

import { closeSync, fchmodSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import type { Disk } from '../io.js';

export const processDisk: Disk = {
    makeFolder: folder => {
        mkdirSync(folder, { recursive: true });
    },
    createFile,
    rename: renameSync,
    remove: file => rmSync(file, { force: true }),
};

function createFile(file: string, text: string, mode: number | undefined): void {
    const descriptor = openSync(file, 'wx', mode ?? 0o666);
    try {
        writeFileSync(descriptor, text);
        if (mode !== undefined) fchmodSync(descriptor, mode);
        fsyncSync(descriptor);
    } finally {
        closeSync(descriptor);
    }
}
