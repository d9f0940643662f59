// The shortest time that can have passed at each station since the energy was cut off: since the gate that is closed there was closed.
//
// Times of actions, waits and tests count only while a gate that controls something is closed. Each is taken at its least, and of
// several ways the quickest counts, whoever goes it: what is too short on it may still be long enough for all who come, which a
// replay then shows.

import type { Action, Station } from '../meaning/route.js';
import type { GuardedTime, Milliseconds } from '../meaning/unit.js';
import type { RouteWalk } from './walk-route.js';

/** By station, on arrival; undefined where nobody comes. */
export function elapsedOf(walk: RouteWalk): readonly (Milliseconds | undefined)[] {
    const { route } = walk;
    const least: (Elapsed | undefined)[] = route.stations.map(() => undefined);
    const exitsOf: number[][] = route.stations.map(() => []);
    for (const exit of route.exits) exitsOf[exit.station]?.push(exit.number);
    const open: number[] = [];
    const arrive = (number: number, elapsed: Elapsed) => {
        if ((walk.stations[number]?.size ?? 0) === 0) return;
        const before = least[number];
        if (before && before.time <= elapsed.time && before.closed <= elapsed.closed) return;
        least[number] = before
            ? { time: Math.min(before.time, elapsed.time), closed: Math.min(before.closed, elapsed.closed) }
            : elapsed;
        open.push(number);
    };
    arrive(0, { time: 0, closed: 0 });
    for (let number = open.pop(); number !== undefined; number = open.pop()) {
        const station = route.stations[number];
        const arrived = least[number];
        if (!station || !arrived) continue;
        const after = elapsedAfter(station, arrived, walk, station.actions.length);
        for (const exit of exitsOf[number] ?? []) {
            if (route.exits[exit]?.why === 'result') continue;
            for (const to of stationsBehind(exit, walk)) arrive(to, after);
        }
        for (const action of station.actions) {
            if (action.sort === 'follow' && action.to.sort === 'station') arrive(action.to.station, after);
        }
    }
    return least.map(one => one?.time);
}

/** The least time that has passed before one action of a station. */
export function elapsedBefore(
    station: Station,
    action: Action,
    onArrival: readonly (Milliseconds | undefined)[],
    walk: RouteWalk,
): Milliseconds {
    const time = onArrival[station.number] ?? 0;
    const closed = time > 0 ? 1 : 0;
    return elapsedAfter(station, { time, closed }, walk, station.actions.indexOf(action)).time;
}

interface Elapsed {
    readonly time: Milliseconds;
    /** How many gates are closed at least. */
    readonly closed: number;
}

function elapsedAfter(station: Station, arrived: Elapsed, walk: RouteWalk, actions: number): Elapsed {
    const { unit } = walk.route;
    let { time, closed } = arrived;
    for (const action of station.actions.slice(0, actions)) {
        if (action.sort === 'gate') {
            if ((unit.gates[action.gate]?.controls.length ?? 0) === 0) continue;
            // Where some builds do not close it, nothing can be counted.
            if (!action.guard) closed += 1;
        } else if (action.sort === 'restore') {
            closed = Math.max(0, closed - 1);
            if (closed === 0) time = 0;
        } else if (closed > 0 && !action.guard) {
            time += leastTime(action, walk);
        }
    }
    return { time, closed };
}

function leastTime(action: Action, { route }: RouteWalk): Milliseconds {
    if (action.sort === 'do' || action.sort === 'wait') return action.time;
    if (action.sort !== 'ask') return 0;
    return leastOf(route.unit.tests[action.test]?.takes ?? []);
}

/** The least of times that depend on the build: none at all where some build has none. */
function leastOf(times: readonly GuardedTime[]): Milliseconds {
    return times.some(({ guard }) => !guard) ? Math.min(...times.map(({ time }) => time)) : 0;
}

function stationsBehind(exit: number, walk: RouteWalk): number[] {
    const to = walk.route.exits[exit]?.to;
    if ((walk.exits[exit]?.size ?? 0) === 0) return [];
    if (to?.sort === 'result') return to.exits.flatMap(result => stationsBehind(result, walk));
    return to?.sort === 'station' ? [to.station] : [];
}
