// Writes files so that each is there whole or not at all: first beside its place, then put there by renaming.

import { dirname, join } from 'node:path';
import { Refusal } from '../command.js';
import type { Io } from '../io.js';
import { whyNot } from './read-file.js';
import { visible } from '../visible.js';

export interface NewFile {
    /** Absolute. */
    readonly path: string;
    /** The path as the person who called the program would write it. */
    readonly shown: string;
    readonly text: string;
    /** Permission bits; the usual ones where it is left out. */
    readonly mode?: number;
}

/**
 * Writes all the files or refuses. Nothing is put in place before everything has been written beside its place, so a
 * full disk changes nothing. The folders are made where they are not there yet.
 */
export async function writeFiles(files: readonly NewFile[], io: Io): Promise<void> {
    let refusal: Refusal | undefined;
    await io.uninterrupted(() => {
        refusal = writeAll(files, io);
    });
    if (refusal) throw refusal;
}

function writeAll(files: readonly NewFile[], { disk }: Io): Refusal | undefined {
    const waiting = new Map<string, NewFile>();
    let current: NewFile | undefined;
    try {
        for (const file of files) {
            current = file;
            const folder = dirname(file.path);
            disk.makeFolder(folder);
            const temporary = join(folder, `.halfsplit-${crypto.randomUUID()}.tmp`);
            waiting.set(temporary, file);
            disk.createFile(temporary, file.text, file.mode);
        }
        for (const [temporary, file] of waiting) {
            current = file;
            disk.rename(temporary, file.path);
            waiting.delete(temporary);
        }
        return undefined;
    } catch (problem) {
        const shown = visible(current?.shown ?? '');
        return new Refusal(`\`${shown}\` cannot be written. ${whyNot(problem)}`, 'No file has been left half written.');
    } finally {
        for (const temporary of waiting.keys()) removeQuietly(temporary, disk);
    }
}

function removeQuietly(file: string, disk: Io['disk']): void {
    try {
        disk.remove(file);
    } catch {
        // It may never have been made; the reason why nothing was written is said already.
    }
}
