// Remembers what was found of a test's readings, because several rules ask for it, and because many tests are alike.

import type { Reading } from './reading.js';

/** Makes a question about a reading that is worked out once. */
export function oncePerReading<T>(answer: (reading: Reading) => T): (reading: Reading) => T {
    const known = new WeakMap<Reading, { readonly answer: T }>();
    return reading => {
        let entry = known.get(reading);
        if (!entry) {
            entry = { answer: answer(reading) };
            known.set(reading, entry);
        }
        return entry.answer;
    };
}

/**
 * Makes a question of which the answers are findings: where one reading has none, none that is alike has, as long as it is asked with the
 * same setting. What was given up is asked again, so that it is told of each.
 */
export function nothingIfAlike<T, Setting extends readonly [] | readonly [number]>(
    find: (reading: Reading, ...setting: Setting) => readonly T[],
): (reading: Reading, ...setting: Setting) => readonly T[] {
    const without = new WeakMap<object, Set<number | undefined>>();
    return (reading, ...setting) => {
        const known = without.get(reading.alike);
        if (known?.has(setting[0])) return [];
        const found = find(reading, ...setting);
        if (found.length === 0 && !reading.search.gaveUp()) {
            without.set(reading.alike, (known ?? new Set()).add(setting[0]));
        }
        return found;
    };
}
