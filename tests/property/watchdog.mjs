/**
 * Ends a test process that hangs: a thread of its own, because nothing else runs while a test is busy.
 *
 * The test puts the number of its case into the shared memory. Where the number stays the same for too long, this
 * says which case it is and ends the process, which fails the run.
 */
import { writeSync } from 'node:fs';
import { workerData } from 'node:worker_threads';

/** @type {{ memory: SharedArrayBuffer, seconds: number, seed: number }} */
const { memory, seconds, seed } = workerData;
const current = new Int32Array(memory);
let seen = 0;
let since = performance.now();

setInterval(() => {
    const number = Atomics.load(current, 0);
    if (number !== seen || number === 0) {
        seen = number;
        since = performance.now();
    } else if (performance.now() - since > seconds * 1000) {
        writeSync(2, `\nThe case of seed ${seed} and path "${number - 1}" has not come to an end in ${seconds} s.\n`);
        process.kill(process.pid, 'SIGKILL');
    }
}, 500);
