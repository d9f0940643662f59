// What has become of a world on its way through a tree, and the one text for each such state.

import type { Milliseconds } from '../meaning/unit.js';

/** Everything is said by numbers of the unit. A state is never changed: each action makes a new one. */
export interface State {
    /** The value of each condition, -1 where the build does not have the condition. */
    readonly conditions: readonly number[];
    /** Gates that are closed. */
    readonly closed: ReadonlySet<number>;
    /** Hazards that a wait has made safe. */
    readonly safe: ReadonlySet<number>;
    /** Faults that are present now. */
    readonly present: ReadonlySet<number>;
    /** For each fault that was cleared while a present one causes it: how long that has run since then. */
    readonly cleared: ReadonlyMap<number, Milliseconds>;
    /** For each test that remembers: the faults that it remembers. */
    readonly memory: ReadonlyMap<number, ReadonlySet<number>>;
    /** For each reading that has been taken and that other tests need: whether something has changed since (see noted.ts of the meaning). */
    readonly readings: ReadonlyMap<number, number>;
    /** For each fault of the arrival: whether its part has been replaced. */
    readonly replaced: readonly boolean[];
    /** Whether an answer rested on a choice that the model leaves. */
    readonly guessed: boolean;
}

/**
 * The state as one text, the same for equal states and different for others:
 * `c:0,1,-1|g:0,2|s:1|p:3,7|x:7@60000|m:4=3,7;5=|r:0|n:2=1|q:0`.
 */
export function stateKey(state: State): string {
    const cleared = sorted(state.cleared.keys()).map(fault => `${fault}@${state.cleared.get(fault) ?? 0}`);
    const memory = sorted(state.memory.keys()).map(test => `${test}=${sorted(state.memory.get(test) ?? []).join()}`);
    const readings = sorted(state.readings.keys()).map(test => `${test}=${state.readings.get(test) ?? 0}`);
    const replaced = state.replaced.length > 0 ? state.replaced : [false];
    return [
        `c:${state.conditions.join()}`,
        `g:${sorted(state.closed).join()}`,
        `s:${sorted(state.safe).join()}`,
        `p:${sorted(state.present).join()}`,
        `x:${cleared.join()}`,
        `m:${memory.join(';')}`,
        `r:${replaced.map(Number).join()}`,
        ...(readings.length > 0 ? [`n:${readings.join()}`] : []),
        `q:${Number(state.guessed)}`,
    ].join('|');
}

/** Numbers in ascending order. */
export function sorted(numbers: Iterable<number>): number[] {
    return [...numbers].sort((a, b) => a - b);
}
