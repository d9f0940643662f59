/** Whatever is done to a file, Halfsplit reads, links, verifies and lays it out in good time, and says what is wrong and where. */
import fc from 'fast-check';
import { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { checkDamaged, type Slowest } from './check-damaged.js';
import { damaged } from './damage.js';
import { runs } from './runs.js';
import { pieces, type Sample, samples } from './samples.js';

const minutes = 60_000;

// What the thread that ends a hanging test looks at: the number of the case, from 1; 0 where none is running.
const memory = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
const current = new Int32Array(memory);
let watchdog: Worker | undefined;

beforeAll(() => {
    const workerData = { memory, seconds: 30, seed: runs(0).seed };
    watchdog = new Worker(new URL('./watchdog.mjs', import.meta.url), { workerData });
});

afterAll(async () => {
    await watchdog?.terminate();
});

test('there are files and pieces of them to damage', () => {
    expect(samples.length).toBeGreaterThan(15);
    expect(pieces.length).toBeGreaterThan(100);
});

test('a damaged piece of a file is read, linked, verified and laid out', { timeout: 5 * minutes }, () => {
    checkAll(pieces, 'file', 7500);
});

test('a damaged file is read, linked, verified and laid out, and so is its world', { timeout: 5 * minutes }, () => {
    checkAll(samples, 'world', 2500);
});

function checkAll(among: readonly Sample[], scope: 'file' | 'world', count: number): void {
    const slowest: Slowest = new Map();
    try {
        fc.assert(
            fc.property(damaged(among), one => {
                Atomics.add(current, 0, 1);
                const wrong = checkDamaged(one, scope, slowest);
                if (wrong.length > 0) throw new Error(wrong.join('\n'));
            }),
            runs(count),
        );
    } finally {
        Atomics.store(current, 0, 0);
    }
    const times = [...slowest].map(([work, { time, name }]) => `${work} ${Math.round(time)} ms (${name})`);
    console.log(`${count} cases; the slowest: ${times.join('; ')}`);
}
