// Says how far the work has come, on a terminal only, and only when it takes longer than half a second.

import type { Io } from './io.js';

export interface Progress {
    /** Notes that one more piece is done. */
    step(): void;
    /** Takes the line away again. */
    end(): void;
}

const patience = 500;
const between = 100;

/** Progress of work on files, such as `Reading: 120 files`. */
export function showProgress(io: Io, what: string, total?: number): Progress {
    const { messages } = io;
    const start = io.now();
    let done = 0;
    let shown: number | undefined;
    return {
        step() {
            done += 1;
            if (!messages.isTerminal) return;
            const now = io.now();
            if (now - start < patience || (shown !== undefined && now - shown < between)) return;
            shown = now;
            messages.write(`\r${what}: ${done}${total === undefined ? '' : ` of ${total}`} files\u001B[K`);
        },
        end() {
            if (shown !== undefined) messages.write('\r\u001B[K');
            shown = undefined;
        },
    };
}
