// The real computer: the streams, the disk and the clock of this process.

import { constants } from 'node:os';
import type { WriteStream } from 'node:tty';
import { Refusal } from './command.js';
import { processDisk } from './files/disk.js';
import type { Io, TextStream } from './io.js';
import { linesOf } from './lines-of.js';

/** What the program works with when it is run by a person. */
export function processIo(): Io {
    return {
        get folder() {
            return currentFolder();
        },
        environment: process.env,
        output: toTextStream(process.stdout),
        messages: toTextStream(process.stderr),
        readInput,
        readLines: () => linesOf(process.stdin as AsyncIterable<Buffer>),
        now: () => Number(process.hrtime.bigint() / 1_000_000n),
        disk: processDisk,
        uninterrupted,
    };
}

function currentFolder(): string {
    try {
        return process.cwd();
    } catch {
        throw new Refusal('The current folder is not there any more.', 'Change to another folder first.');
    }
}

function toTextStream(stream: WriteStream): TextStream {
    let closed = false;
    // Whoever reads may stop reading, as `head` does; that is no error, and there is nobody left to tell anything.
    stream.on('error', () => {
        closed = true;
    });
    return {
        write: text => {
            if (!closed) stream.write(text);
        },
        isTerminal: stream.isTTY === true,
        get columns() {
            // A stream that is no terminal has no width.
            return stream.isTTY === true ? stream.columns : undefined;
        },
    };
}

async function readInput(limit: number): Promise<Uint8Array> {
    const chunks: Buffer[] = [];
    let length = 0;
    for await (const chunk of process.stdin as AsyncIterable<Buffer>) {
        chunks.push(chunk);
        length += chunk.length;
        if (length >= limit) break;
    }
    return Buffer.concat(chunks).subarray(0, limit);
}

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

async function uninterrupted(work: () => void): Promise<void> {
    let received: (typeof signals)[number] | undefined;
    const listeners = signals.map(signal => ({
        signal,
        listener: () => {
            received ??= signal;
        },
    }));
    for (const { signal, listener } of listeners) process.on(signal, listener);
    try {
        work();
        // A signal that came meanwhile is told of only when Node gets to look for it.
        await new Promise(resolve => setImmediate(resolve));
    } finally {
        for (const { signal, listener } of listeners) process.off(signal, listener);
    }
    if (received !== undefined) process.exit(128 + constants.signals[received]);
}
