// Which answers a technician still has when coming to a station: asked on every way that somebody goes there, with nothing
// done since that could change them.

import type { Action, Station } from '../meaning/route.js';
import { noWorlds } from './sets/world-sets.js';
import type { RouteWalk } from './walk-route.js';

/** By station: the tests whose answers are known and unchanged on arrival. Undefined for a station that nobody comes to. */
type FreshAnswers = readonly (ReadonlySet<number> | undefined)[];

const found = new WeakMap<RouteWalk, FreshAnswers>();

/** What is known on arrival at each station. Worked out once for each walk. */
export function freshAnswers(walk: RouteWalk): FreshAnswers {
    let fresh = found.get(walk);
    if (!fresh) {
        fresh = findFreshAnswers(walk);
        found.set(walk, fresh);
    }
    return fresh;
}

function findFreshAnswers(walk: RouteWalk): FreshAnswers {
    const { route } = walk;
    const fresh: (ReadonlySet<number> | undefined)[] = route.stations.map(() => undefined);
    const open = [0];
    const exitsOf: number[][] = route.stations.map(() => []);
    for (const exit of route.exits) exitsOf[exit.station]?.push(exit.number);
    const arrive = (number: number, answers: ReadonlySet<number>) => {
        if ((walk.stations[number]?.size ?? 0) === 0) return;
        const before = fresh[number];
        const both = before ? new Set([...before].filter(test => answers.has(test))) : answers;
        if (before && both.size === before.size) return;
        fresh[number] = both;
        open.push(number);
    };
    arrive(0, new Set());
    for (let number = open.pop(); number !== undefined; number = open.pop()) {
        const station = route.stations[number];
        if (!station) continue;
        const after = answersAfter(station, fresh[number] ?? new Set(), walk);
        for (const exit of exitsOf[number] ?? []) {
            if (route.exits[exit]?.why === 'result') continue;
            for (const to of stationsBehind(exit, walk)) arrive(to, after);
        }
        for (const action of station.actions) {
            if (action.sort === 'follow' && action.to.sort === 'station') arrive(action.to.station, after);
        }
    }
    return fresh;
}

/** Where somebody goes by an exit; the result of a procedure leads on from the station that follows it. */
function stationsBehind(exit: number, walk: RouteWalk): number[] {
    const to = walk.route.exits[exit]?.to;
    if ((walk.exits[exit]?.size ?? 0) === 0) return [];
    if (to?.sort === 'result') return to.exits.flatMap(result => stationsBehind(result, walk));
    return to?.sort === 'station' ? [to.station] : [];
}

/** What is still known when a station is left: whatever is done there may change any answer, but for asking. */
function answersAfter(station: Station, before: ReadonlySet<number>, walk: RouteWalk): ReadonlySet<number> {
    let known = new Set(before);
    for (const action of station.actions) {
        if (action.sort === 'ask') known.add(action.test);
        else if (mayChange(action, station, walk)) known = new Set();
    }
    return known;
}

/** Whether an action may change an answer. A gate that only permits does not, nor one that is closed already. */
function mayChange(action: Action, { number }: Station, { stations, around }: RouteWalk): boolean {
    if (action.sort === 'ask' || action.sort === 'read' || action.sort === 'follow' || action.sort === 'leave') {
        return false;
    }
    if (action.sort !== 'gate') return true;
    const { sets, unit, variables } = around.space;
    const gate = unit.gates[action.gate];
    if (!gate || gate.closing.some(({ settings }) => settings.length > 0)) return true;
    const closed = sets.is(variables.gates[action.gate] ?? 0, 1);
    const isClosed = [...(stations[number]?.values() ?? [])].every(set => sets.without(set, closed) === noWorlds);
    return gate.controls.length > 0 && !isClosed;
}

/** The tests whose answers are known at each question of a station, in the order of its actions. */
export function knownAtQuestion(
    station: Station,
    before: ReadonlySet<number>,
    walk: RouteWalk,
): ReadonlyMap<number, boolean> {
    const answers = new Map<number, boolean>();
    let known = new Set(before);
    station.actions.forEach((action, index) => {
        if (action.sort === 'ask') {
            answers.set(index, known.has(action.test));
            known.add(action.test);
        } else if (mayChange(action, station, walk)) {
            known = new Set();
        }
    });
    return answers;
}
