// Reads files without trusting them: only regular files, never more than a limit, and every failure as a sentence.

import { closeSync, constants, fstatSync, openSync, readSync, type Stats } from 'node:fs';

/** What reading a file gave: its bytes and permission bits, or a sentence on why there are none. */
export type FileReading =
    | { readonly sort: 'read'; readonly bytes: Uint8Array<ArrayBuffer>; readonly mode: number }
    | { readonly sort: 'unreadable'; readonly message: string };

/** Reads a whole file of at most `limit` bytes. A pipe or a device is refused before anything is read from it. */
export function readWholeFile(file: string, limit: number): FileReading {
    let descriptor: number | undefined;
    try {
        // Without this flag, opening a pipe would wait for somebody to write into it. Some systems do not have it.
        descriptor = openSync(file, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
        const stats = fstatSync(descriptor);
        if (stats.isDirectory()) return unreadable('This is a folder, and a file is needed.');
        if (!stats.isFile()) return unreadable('This is no ordinary file, so it is not read.');
        if (stats.size > limit) return unreadable(tooLarge(stats.size, limit));
        return readAll(descriptor, stats, limit);
    } catch (problem) {
        return unreadable(whyNot(problem));
    } finally {
        if (descriptor !== undefined) closeSync(descriptor);
    }
}

/** The reason of a failed file operation as a sentence. */
export function whyNot(problem: unknown): string {
    const code = (problem as NodeJS.ErrnoException | undefined)?.code ?? '';
    return reasons[code] ?? `The system says ${code === '' ? String(problem) : `\`${code}\``}.`;
}

/** Text out of bytes. What is no UTF-8 becomes U+FFFD, and a byte order mark stays, so that offsets count it. */
export function decodeText(bytes: Uint8Array): string {
    return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
}

/** The sentence on a file that has more bytes than are read. */
export function tooLarge(bytes: number, limit: number): string {
    const megabytes = 1024 * 1024;
    return `This file has ${(bytes / megabytes).toFixed(1)} MB; more than ${limit / megabytes} MB is not read.`;
}

const reasons: Readonly<Record<string, string>> = {
    ENOENT: 'There is no such file.',
    ENOTDIR: 'There is no such file: a part of its path is no folder.',
    EACCES: 'There is no permission for it.',
    EPERM: 'There is no permission for it.',
    ELOOP: 'Its links lead in a circle.',
    EISDIR: 'This is a folder, and a file is needed.',
    ENAMETOOLONG: 'Its name is too long.',
    ENXIO: 'This is no ordinary file, so it is not read.',
    EMFILE: 'Too many files are open.',
    ENFILE: 'Too many files are open.',
    EIO: 'The disk cannot be read or written there.',
    ENOSPC: 'The disk is full.',
    EDQUOT: 'No more disk space is allowed.',
    EROFS: 'Nothing can be written there: the disk is read-only.',
    EBUSY: 'Another program is using it.',
    EEXIST: 'Something of that name is there already.',
    EXDEV: 'It lies on another disk.',
    ENOTEMPTY: 'The folder is not empty.',
};

// A file can grow after its size was asked, so the limit is kept while reading too.
function readAll(descriptor: number, { size, mode }: Stats, limit: number): FileReading {
    let bytes = new Uint8Array(size + 1);
    let length = 0;
    for (;;) {
        const read = readSync(descriptor, bytes, length, bytes.length - length, null);
        length += read;
        if (length > limit) return unreadable(tooLarge(length, limit));
        if (read === 0) return { sort: 'read', bytes: bytes.slice(0, length), mode: mode & 0o7777 };
        if (length === bytes.length) {
            const longer = new Uint8Array(bytes.length * 2);
            longer.set(bytes);
            bytes = longer;
        }
    }
}

function unreadable(message: string): FileReading {
    return { sort: 'unreadable', message };
}
