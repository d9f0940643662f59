// Starts child processes in groups of their own, so that every one of them can be ended, whatever happens.
import { spawn } from 'node:child_process';

const graceMilliseconds = 3_000;
/** @type {Map<number, Promise<number>>} */
const living = new Map();

/**
 * Where a program runs, with which environment (the whole of it), and who reads what it says, line by line.
 * @typedef {{ cwd?: string, env?: NodeJS.ProcessEnv, onLine?: (line: string) => void }} StartOptions
 */

/**
 * Starts a program in a process group of its own.
 * @param {string} command the program
 * @param {string[]} programArguments its arguments
 * @param {StartOptions} options
 * @returns {{ exited: Promise<number>, output: () => string, stop: () => Promise<void> }} the exit status to come
 *   (127 where the program cannot be started, 128 and more where a signal ended it), all it has said, and its end
 */
export function start(command, programArguments, { onLine, ...options } = {}) {
    const child = spawn(command, programArguments, { ...options, detached: true, stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    const read = lineReader(line => {
        said += `${line}\n`;
        onLine?.(line);
    });
    child.stdout.setEncoding('utf8').on('data', read.take);
    child.stderr.setEncoding('utf8').on('data', read.take);
    /** @type {Promise<number>} */
    const exited = new Promise(settle => {
        child.on('error', error => {
            read.take(`${error.message}\n`);
            settle(127);
        });
        child.on('exit', () => endGroup(child.pid, 'SIGKILL'));
        child.on('close', (status, signal) => {
            read.end();
            if (child.pid !== undefined) {
                living.delete(child.pid);
            }
            settle(status ?? (signal ? 128 : 127));
        });
    });
    if (child.pid !== undefined) {
        living.set(child.pid, exited);
    }
    return { exited, output: () => said, stop: () => stopGroup(child.pid, exited) };
}

/**
 * Runs a program to its end.
 * @param {string} command
 * @param {string[]} programArguments
 * @param {StartOptions} options
 * @returns {Promise<{ status: number, output: string }>} its exit status and all that it said
 */
export async function run(command, programArguments, options) {
    const program = start(command, programArguments, options);
    const status = await program.exited;
    return { status, output: program.output() };
}

/** Ends every program that `start` started and that still runs, with all its children. */
export async function stopAll() {
    await Promise.all([...living].map(([group, exited]) => stopGroup(group, exited)));
}

/**
 * @param {number | undefined} group
 * @param {Promise<number>} exited
 */
async function stopGroup(group, exited) {
    if (group === undefined || !living.has(group)) {
        return;
    }
    endGroup(group, 'SIGTERM');
    const patience = setTimeout(() => endGroup(group, 'SIGKILL'), graceMilliseconds);
    await exited;
    clearTimeout(patience);
}

/**
 * @param {number | undefined} group
 * @param {NodeJS.Signals} signal
 */
function endGroup(group, signal) {
    if (group === undefined) {
        return;
    }
    try {
        process.kill(-group, signal);
    } catch {
        // Nobody is left in the group, which is what was wanted.
    }
}

/** @param {(line: string) => void} onLine */
function lineReader(onLine) {
    let rest = '';
    return {
        take(/** @type {string} */ text) {
            const lines = (rest + text).split(/\r?\n/);
            rest = lines.pop() ?? '';
            lines.forEach(onLine);
        },
        end() {
            if (rest !== '') {
                onLine(rest);
            }
            rest = '';
        },
    };
}

// The last resort: whatever way this process ends, nobody is left behind.
process.on('exit', () => {
    for (const group of living.keys()) {
        endGroup(group, 'SIGKILL');
    }
});
