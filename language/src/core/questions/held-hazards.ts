// What may hold hazards on the ways to each step and end: gates that were closed, and waits that made something safe.
//
// Worked out on the route alone, all builds and answers together, so it needs no walk and is there for a tree that is not
// finished. It says what can be in force, not that it is: that a hazard is under control in every build is what the walk proves.

import type { Action, Destination, Route, Way } from '../meaning/route.js';
import type { Unit } from '../meaning/unit.js';

/** Numbers of gates that are closed on some way, and of hazards that a wait has made safe. */
export interface Held {
    readonly gates: ReadonlySet<number>;
    readonly waited: ReadonlySet<number>;
}

export const nothingHeld: Held = { gates: new Set(), waited: new Set() };

/** By number of station and of end. Where no way leads, nothing is held. */
export interface HeldOnWays {
    readonly stations: readonly Held[];
    readonly ends: readonly Held[];
}

/** What is held once an action is done. Where only some builds do it, what is given up stays held for the others. */
export function heldAfter(action: Action, held: Held, { gates }: Unit): Held {
    switch (action.sort) {
        case 'gate':
            return closeGate(held, action.gate, gates);
        case 'wait':
            return action.hazard === undefined ? held : { ...held, waited: including(held.waited, action.hazard) };
        case 'restore': {
            if (action.guard) return held;
            const controlled = gates[action.gate]?.controls.map(({ hazard }) => hazard) ?? [];
            return {
                gates: without(held.gates, [action.gate]),
                waited: without(held.waited, controlled),
            };
        }
        default:
            return held;
    }
}

/** A gate that controls nothing only permits, and is never closed. */
export function closeGate(held: Held, gate: number, gates: Unit['gates']): Held {
    return (gates[gate]?.controls.length ?? 0) === 0 ? held : { ...held, gates: including(held.gates, gate) };
}

/** Follows every way that is written, from the first step of the tree, until nothing new is held anywhere. */
export function heldOnWays(route: Route): HeldOnWays {
    const stations: (Held | undefined)[] = route.stations.map(() => undefined);
    const ends: (Held | undefined)[] = route.ends.map(() => undefined);
    const open = new Set<number>();
    const comeTo = (to: Destination, held: Held): void => {
        if (to.sort === 'end') ends[to.end] = joined(ends[to.end], held);
        else if (to.sort === 'result') comeByExits(to.exits, held);
        else if (to.sort === 'station') {
            const before = stations[to.station];
            const after = joined(before, held);
            if (after === before) return;
            stations[to.station] = after;
            open.add(to.station);
        }
    };
    const comeByExits = (exits: readonly number[], held: Held): void => {
        for (const exit of exits) {
            const way: Way | undefined = route.exits[exit];
            if (way) comeTo(way.to, held);
        }
    };
    if (route.stations.length > 0) comeTo({ sort: 'station', station: 0 }, nothingHeld);
    // The loop also visits what it adds: a station comes up again whenever more is held there.
    for (const number of open) {
        open.delete(number);
        let held = stations[number] ?? nothingHeld;
        for (const action of route.stations[number]?.actions ?? []) {
            held = heldAfter(action, held, route.unit);
            if (action.sort === 'follow') comeTo(action.to, held);
            else comeByExits(exitsOf(action), held);
        }
    }
    return { stations: stations.map(held => held ?? nothingHeld), ends: ends.map(held => held ?? nothingHeld) };
}

function exitsOf(action: Action): readonly number[] {
    switch (action.sort) {
        case 'do':
            return action.cannot;
        case 'read':
            return action.cannotBeRead;
        case 'ask':
            return [...action.branches, ...action.otherwise, ...action.disagree, ...action.cannotBeRead];
        case 'leave':
            return [action.exit];
        default:
            return [];
    }
}

/** Both together; the same object where the second adds nothing. */
function joined(before: Held | undefined, more: Held): Held {
    if (!before) return more;
    const gates = [...more.gates].reduce(including, before.gates);
    const waited = [...more.waited].reduce(including, before.waited);
    return gates === before.gates && waited === before.waited ? before : { gates, waited };
}

function including(set: ReadonlySet<number>, number: number): ReadonlySet<number> {
    return set.has(number) ? set : new Set([...set, number]);
}

function without(set: ReadonlySet<number>, numbers: readonly number[]): ReadonlySet<number> {
    return numbers.some(number => set.has(number)) ? new Set([...set].filter(one => !numbers.includes(one))) : set;
}
