// Takes a crowd through one station: what its actions do, what is asked, and by which exits the worlds leave.

import type { Action, AskAction, Destination, DoAction, Route, Station } from '../meaning/route.js';
import type { StateCondition, UnitElement, UnitTest } from '../meaning/unit.js';
import {
    applySettings,
    clearFaults,
    clearMemory,
    type Crowd,
    faultsSeen,
    forceState,
    passTime,
    type Surroundings,
} from './changes.js';
import type { Presence } from './presence.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { readingsOf } from './readings.js';
import type { TestAnswers } from './shows.js';
import { buildsWhere } from './space.js';
import { startByRestoring, startBySetting } from './starting.js';
import { whereUsable } from './usable.js';

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

/** One crowd from its arrival at a station until it has left it. */
export function travelStation(station: Station, arriving: Crowd, travelling: Travelling): void {
    let crowds: readonly Crowd[] = [arriving];
    for (const action of station.actions) {
        const going: Crowd[] = [];
        for (const crowd of crowds) {
            const here = buildsWhere(action.guard, travelling.around.space);
            const [inside, outside] = split(crowd, here, travelling);
            if (inside) going.push(...travelAction(action, station, inside, travelling));
            if (outside) going.push(outside);
        }
        crowds = going;
        if (crowds.length === 0) return;
    }
    for (const crowd of crowds) strand(station, undefined, crowd, travelling);
}

/** The part of a crowd within a set, and the part outside; undefined for an empty part. */
function split(crowd: Crowd, within: WorldSet, { around }: Travelling): [Crowd | undefined, Crowd | undefined] {
    const { sets } = around.space;
    const { presence, set } = crowd;
    // The guard of an action is that of its exit too, and mostly that of the step to which it leads.
    if (within === crowd.within) return [crowd, undefined];
    const inside = sets.and(set, within);
    if (inside === set) return [crowd, undefined];
    const outside = sets.without(set, within);
    return [
        inside === noWorlds ? undefined : { presence, set: inside, within },
        outside === noWorlds ? undefined : { presence, set: outside },
    ];
}

function strand(station: Station, action: Action | undefined, crowd: Crowd, travelling: Travelling): void {
    meet('stranded', station, action, crowd, travelling);
}

function meet(
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

/** The crowds that go on to the next action. */
function travelAction(action: Action, station: Station, crowd: Crowd, travelling: Travelling): readonly Crowd[] {
    const { around } = travelling;
    const { space } = around;
    switch (action.sort) {
        case 'do':
            return travelDo(action, station, crowd, travelling);
        case 'wait': {
            const passed = passTime(crowd, action.time, around);
            if (action.hazard === undefined) return passed;
            const { hazard } = action;
            const there = buildsWhere(space.unit.hazards[hazard]?.guard, space);
            return passed.map(({ presence, set }) => ({ presence, set: setHazard(set, hazard, there, 1, travelling) }));
        }
        case 'gate':
        case 'restore':
            return travelGate(action, station, crowd, travelling);
        case 'ask':
            travelAsk(action, station, crowd, travelling);
            return [];
        case 'follow': {
            const [there, missing] = split(crowd, buildsWhere(action.guardOfProcedure, space), travelling);
            if (missing) meet('missing', station, action, missing, travelling);
            if (there) goTo(action.to, station, action, there, travelling);
            return [];
        }
        case 'leave':
            takeFirst([action.exit], station, action, crowd, travelling);
            return [];
    }
}

/** Closes or restores a gate. A build that lacks it goes on without it: the finding says so once. */
function travelGate(
    action: Extract<Action, { sort: 'gate' | 'restore' }>,
    station: Station,
    crowd: Crowd,
    travelling: Travelling,
): readonly Crowd[] {
    const { around } = travelling;
    const { space } = around;
    const { sets, unit, variables } = space;
    const gate = unit.gates[action.gate];
    const [there, missing] = split(crowd, buildsWhere(gate?.guard, space), travelling);
    if (missing) meet('missing', station, action, missing, travelling);
    const others = missing ? [missing] : [];
    if (!there || !gate) return others;
    const elements = action.sort === 'gate' ? gate.closing : gate.restoring;
    let set = action.sort === 'restore' ? startByRestoring(there.set, gate, around.flows) : there.set;
    if (gate.controls.length > 0) {
        set = sets.assign(set, variables.gates[gate.number] ?? 0, action.sort === 'gate' ? 1 : 0);
    }
    if (action.sort === 'restore') {
        for (const { hazard, guard } of gate.controls) {
            set = setHazard(set, hazard, buildsWhere(guard, space), 0, travelling);
        }
    }
    return [{ presence: there.presence, set: applyElements(set, elements, travelling) }, ...others];
}

/** Makes a hazard safe (1) or unsafe again (0) in some builds. */
function setHazard(set: WorldSet, hazard: number, where: WorldSet, safe: 0 | 1, { around }: Travelling): WorldSet {
    const { sets, variables } = around.space;
    const there = sets.assign(sets.and(set, where), variables.hazards[hazard] ?? 0, safe);
    return sets.or(there, sets.without(set, where));
}

function applyElements(set: WorldSet, elements: readonly UnitElement[], { around }: Travelling): WorldSet {
    const { space } = around;
    let changed = set;
    for (const { settings, guard } of elements) {
        if (settings.length === 0) continue;
        const here = buildsWhere(guard, space);
        const inside = applySettings(space.sets.and(changed, here), settings, space);
        changed = space.sets.or(inside, space.sets.without(changed, here));
    }
    return changed;
}

function travelDo(action: DoAction, station: Station, crowd: Crowd, travelling: Travelling): readonly Crowd[] {
    const { around, sink } = travelling;
    const { space, presences } = around;
    const { unit } = space;
    meetMissingParts(action, station, crowd, travelling);
    const { present } = crowd.presence;
    if (action.uses.some(part => present.some(fault => unit.faults[fault]?.part === part))) {
        takeFirst(action.cannot, station, action, crowd, travelling);
        return [];
    }
    detour(action.cannot, crowd.set, travelling, sink);
    const started = startBySetting(crowd.set, action.settings, around.flows);
    const set = applySettings(started, action.settings, space);
    const cleared = [...action.clearsFaults];
    for (const part of action.replaces) cleared.push(...(unit.parts[part]?.faults ?? []));
    let crowds = clearFaults({ presence: crowd.presence, set }, cleared, around);
    for (const test of action.clearsTests) {
        crowds = crowds.map(one => ({ ...one, presence: clearMemory(one.presence, test, presences) }));
    }
    const isArrival = (part: number) => crowd.presence.arrival.some(fault => unit.faults[fault]?.part === part);
    if (action.replaces.some(isArrival)) {
        crowds = crowds.map(one => ({ ...one, presence: presences.of({ ...one.presence, replaced: true }) }));
    }
    return crowds.flatMap(one => passTime(one, action.time, around));
}

/** Tells which builds lack a part, the zone, a condition, a test or all the faults that an action is about; they go on all the same. */
function meetMissingParts(action: DoAction, station: Station, crowd: Crowd, travelling: Travelling): void {
    const { space } = travelling.around;
    const { presence, set } = crowd;
    const missing = space.sets.without(set, whereUsable(action, space));
    meet('missing', station, action, { presence, set: missing }, travelling);
}

function travelAsk(action: AskAction, station: Station, crowd: Crowd, travelling: Travelling): void {
    const { around, answers } = travelling;
    const { space } = around;
    const { sets, unit } = space;
    const test = unit.tests[action.test];
    const [there, missing] = split(crowd, buildsWhere(test?.guard, space), travelling);
    if (missing) meet('missing', station, action, missing, travelling);
    if (!there || !test) return;
    const prepared = prepareTest(test, action, station, there, travelling);
    const { present } = prepared.presence;
    const before = answers.answer(test, faultsSeen(prepared.presence, test.number), present);
    const dark = { ...prepared, set: sets.and(prepared.set, before.dead) };
    meet('no energy', station, action, dark, travelling);
    meet('nothing said', station, action, { ...prepared, set: sets.and(prepared.set, before.unsaid) }, travelling);
    if (dark.set !== noWorlds) anyAnswer(action, dark.set, travelling);
    detour(action.cannotBeRead, prepared.set, travelling, travelling.sink);
    if (action.confirms) anyAnswer(action, prepared.set, travelling);
    for (const [time, set] of timesOf(test, prepared.set, travelling)) {
        for (const passed of passTime({ presence: prepared.presence, set }, time, around)) {
            readAnswer(action, test, station, passed, travelling);
        }
    }
}

/** Tells which needs are not met, and goes on as if they were: the finding says once what has to be done before. */
function prepareTest(test: UnitTest, action: AskAction, station: Station, crowd: Crowd, travelling: Travelling): Crowd {
    const { around } = travelling;
    const { space, flows } = around;
    const { sets } = space;
    const faults = crowd.presence.present;
    const needed = readingsOf(test, space).flatMap(({ needs, where }) =>
        needs.map(({ guard, state }) => ({
            state,
            here: sets.and(where, buildsWhere(guard, space)),
            holds: flows.where(state, faults),
        })),
    );
    let unset: WorldSet = noWorlds;
    for (const { state, here, holds } of needed) {
        const unmet = sets.without(sets.and(crowd.set, here), holds);
        meet('needs', station, action, { ...crowd, set: unmet }, travelling, { need: state });
        unset = sets.or(unset, unmet);
    }
    if (unset === noWorlds) return crowd;
    // A world that meets every need is left as it is; in the others an earlier need may have been set against a later one.
    let set = unset;
    for (const { state, here, holds } of needed) {
        const lacking = sets.without(sets.and(set, here), holds);
        if (lacking === noWorlds) continue;
        set = sets.or(sets.without(set, lacking), forceState(lacking, state, faults, around));
    }
    anyAnswer(action, set, travelling);
    return { presence: crowd.presence, set: sets.or(sets.without(crowd.set, unset), set) };
}

/** How long a test takes, by build: the first time that is given for it, and those of its readings. */
function timesOf(test: UnitTest, set: WorldSet, { around }: Travelling): [number, WorldSet][] {
    const { space } = around;
    const { sets } = space;
    let times: [number, WorldSet][] = [[0, set]];
    for (const { takes, where } of readingsOf(test, space)) {
        times = times.flatMap(([time, within]) => {
            const parts: [number, WorldSet][] = [];
            let left = within;
            for (const { guard, time: more } of takes) {
                const here = sets.and(left, sets.and(where, buildsWhere(guard, space)));
                if (here !== noWorlds) parts.push([time + more, here]);
                left = sets.without(left, here);
            }
            if (left !== noWorlds) parts.push([time, left]);
            return parts;
        });
    }
    return times;
}

function readAnswer(action: AskAction, test: UnitTest, station: Station, crowd: Crowd, travelling: Travelling): void {
    const { around, answers, sink } = travelling;
    const { sets, variables } = around.space;
    const shown = answers.answer(test, faultsSeen(crowd.presence, test.number), crowd.presence.present);
    shown.outcomes.forEach((worlds, outcome) => {
        let set = sets.and(crowd.set, worlds);
        if (set === noWorlds) return;
        const guessed = sets.and(set, shown.guessed[outcome] ?? noWorlds);
        if (guessed !== noWorlds) {
            const sure = sets.and(set, shown.sure[outcome] ?? noWorlds);
            set = sets.or(sure, sets.assign(guessed, variables.guessed, 1));
        }
        sink.asked(action, outcome, crowd.presence, set);
        takeFirst(
            exitsFor(action, outcome, travelling),
            station,
            action,
            { presence: crowd.presence, set },
            travelling,
        );
    });
    const set = sets.and(crowd.set, shown.nothing);
    if (set === noWorlds) return;
    const exits = [...action.otherwise, ...action.disagree];
    takeFirst(exits, station, action, { presence: crowd.presence, set }, travelling);
}

/** The exits that an outcome may take, in the order in which they are tried. */
export function exitsFor(action: AskAction, outcome: number, { route }: Pick<Travelling, 'route'>): number[] {
    const named = action.branches.filter(exit => route.exits[exit]?.outcomes.includes(outcome));
    return [...named, ...action.otherwise, ...action.disagree];
}

/** The worlds leave by the first exit that their build has; what is left over finds none. */
function takeFirst(
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
        const [taking, others]: [Crowd | undefined, Crowd | undefined] = split(
            left,
            buildsWhere(exit.guard, travelling.around.space),
            travelling,
        );
        if (taking) {
            travelling.sink.exit(number, taking.presence, taking.set);
            goTo(exit.to, station, action, taking, travelling, number);
        }
        left = others;
    }
    if (left) strand(station, action, left, travelling);
}

function goTo(
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
            const [there, missing] = split(crowd, buildsWhere(guard, around.space), travelling);
            if (missing) {
                meet('missing', route.stations[to.station] ?? station, undefined, missing, travelling, { exit });
            }
            if (there) sink.arrive(to.station, there.presence, there.set);
            return;
        }
        case 'end': {
            const [there, missing] = split(crowd, buildsWhere(route.ends[to.end]?.guard, around.space), travelling);
            if (missing) meet('missing', station, action, missing, travelling, { end: to.end, exit });
            if (there) sink.end(to.end, there.presence, there.set);
            return;
        }
        case 'result':
            takeFirst(to.exits, station, action, crowd, travelling);
            return;
        case 'tree': {
            const [there, missing] = split(crowd, buildsWhere(to.guard, around.space), travelling);
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
function detour(exits: readonly number[], set: WorldSet, { route, around }: Travelling, sink: Sink): void {
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
function anyAnswer(action: AskAction, set: WorldSet, travelling: Travelling): void {
    for (const exits of [action.branches, action.otherwise, action.disagree]) {
        for (const exit of exits) detour([exit], set, travelling, travelling.sink);
    }
}
