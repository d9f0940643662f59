// The ways out of a station: by which exits worlds leave, where they come to, and what they meet that they should not.

import type { Action, AskAction, Destination, Route, Station } from '../meaning/route.js';
import type { StateCondition } from '../meaning/unit.js';
import type { Crowd, Surroundings } from './changes.js';
import type { Presence } from './presence.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import type { TestAnswers } from './shows.js';
import { buildsWhere } from './space.js';

/** What a crowd met that it should not have. */
export type MeetingSort =
    /** A need of the test is not met. */
    | 'needs'
    /** Nothing flows at the test, and no outcome is meant for that. */
    | 'no energy'
    /** No outcome says what a healthy unit shows. */
    | 'nothing said'
    /** The build lacks the station, the end, or what an action uses. */
    | 'missing'
    /** Nothing leads on. */
    | 'stranded';

export interface Meeting extends Crowd {
    readonly sort: MeetingSort;
    readonly station: number;
    readonly action: Action | undefined;
    /** The end that a build lacks. */
    readonly end: number | undefined;
    /** The exit that led to a station or end that a build lacks. */
    readonly exit: number | undefined;
    readonly need: StateCondition | undefined;
}

/** Where the crowds of one station go. */
export interface Sink {
    /** Worlds that take an exit; they have not yet come to where it leads. */
    exit(exit: number, presence: Presence, set: WorldSet): void;
    /** Worlds that come to a station without an exit: into a procedure. */
    arrive(station: number, presence: Presence, set: WorldSet): void;
    end(end: number, presence: Presence, set: WorldSet): void;
    tree(destination: Extract<Destination, { sort: 'tree' }>, presence: Presence, set: WorldSet): void;
    asked(action: AskAction, outcome: number, presence: Presence, set: WorldSet): void;
    /** Worlds that would take an exit if something could not be read or done, or if an answer were unexpected. */
    detour(exit: number, set: WorldSet): void;
    meet(meeting: Meeting): void;
}

export interface Travelling {
    readonly route: Route;
    readonly around: Surroundings;
    readonly answers: TestAnswers;
    readonly sink: Sink;
}

/** The parts of a crowd within a set and outside it; undefined for an empty part. */
export interface Parts {
    readonly inside: Crowd | undefined;
    readonly outside: Crowd | undefined;
}

export function split(crowd: Crowd, within: WorldSet, { around }: Travelling): Parts {
    const { presence, set } = crowd;
    // The guard of an action is that of its exit too, and mostly that of the step to which it leads.
    if (within === crowd.within || within === allWorlds) return { inside: crowd, outside: undefined };
    const { inside, outside } = around.space.sets.divide(set, within);
    if (inside === set) return { inside: crowd, outside: undefined };
    return {
        inside: inside === noWorlds ? undefined : { presence, set: inside, within },
        outside: outside === noWorlds ? undefined : { presence, set: outside },
    };
}

export function strand(station: Station, action: Action | undefined, crowd: Crowd, travelling: Travelling): void {
    meet('stranded', station, action, crowd, travelling);
}

export function meet(
    sort: MeetingSort,
    station: Station,
    action: Action | undefined,
    { presence, set }: Crowd,
    { sink }: Travelling,
    more: { readonly need?: StateCondition; readonly end?: number; readonly exit?: number | undefined } = {},
): void {
    if (set === noWorlds) return;
    sink.meet({
        sort,
        station: station.number,
        action,
        presence,
        set,
        need: more.need,
        end: more.end,
        exit: more.exit,
    });
}

/** The exits that an outcome may take, in the order in which they are tried. */
export function exitsFor(action: AskAction, outcome: number, { route }: Pick<Travelling, 'route'>): number[] {
    const named = action.branches.filter(exit => route.exits[exit]?.outcomes.includes(outcome));
    return [...named, ...action.otherwise, ...action.disagree];
}

/** The worlds leave by the first exit that their build has; what is left over finds none. */
export function takeFirst(
    exits: readonly number[],
    station: Station,
    action: Action,
    crowd: Crowd,
    travelling: Travelling,
): void {
    let left: Crowd | undefined = crowd;
    for (const number of exits) {
        const exit = travelling.route.exits[number];
        if (!exit || !left) continue;
        const here = buildsWhere(exit.guard, travelling.around.space);
        const { inside: taking, outside: others }: Parts = split(left, here, travelling);
        if (taking) {
            travelling.sink.exit(number, taking.presence, taking.set);
            goTo(exit.to, station, action, taking, travelling, number);
        }
        left = others;
    }
    if (left) strand(station, action, left, travelling);
}

export function goTo(
    to: Destination,
    station: Station,
    action: Action,
    crowd: Crowd,
    travelling: Travelling,
    exit?: number,
): void {
    const { route, around, sink } = travelling;
    switch (to.sort) {
        case 'station': {
            const guard = route.stations[to.station]?.guard;
            const { inside: there, outside: missing } = split(crowd, buildsWhere(guard, around.space), travelling);
            if (missing) {
                meet('missing', route.stations[to.station] ?? station, undefined, missing, travelling, { exit });
            }
            if (there) sink.arrive(to.station, there.presence, there.set);
            return;
        }
        case 'end': {
            const here = buildsWhere(route.ends[to.end]?.guard, around.space);
            const { inside: there, outside: missing } = split(crowd, here, travelling);
            if (missing) meet('missing', station, action, missing, travelling, { end: to.end, exit });
            if (there) sink.end(to.end, there.presence, there.set);
            return;
        }
        case 'result':
            takeFirst(to.exits, station, action, crowd, travelling);
            return;
        case 'tree': {
            const { inside: there, outside: missing } = split(crowd, buildsWhere(to.guard, around.space), travelling);
            if (missing) meet('missing', station, action, missing, travelling, { exit });
            if (there) sink.tree(to, there.presence, there.set);
            return;
        }
        case 'nowhere':
            strand(station, action, crowd, travelling);
            return;
    }
}

/** Worlds that would leave by the first exit that their build has, if things did not go as said. */
export function detour(exits: readonly number[], set: WorldSet, { route, around }: Travelling, sink: Sink): void {
    const { sets } = around.space;
    let left = set;
    for (const number of exits) {
        if (left === noWorlds) return;
        const taking = sets.and(left, buildsWhere(route.exits[number]?.guard, around.space));
        if (taking !== noWorlds) sink.detour(number, taking);
        left = sets.without(left, taking);
    }
}

/** Worlds in which the technician may read anything. */
export function anyAnswer(action: AskAction, set: WorldSet, travelling: Travelling): void {
    for (const exits of [action.branches, action.otherwise, action.disagree]) {
        for (const exit of exits) detour([exit], set, travelling, travelling.sink);
    }
}
