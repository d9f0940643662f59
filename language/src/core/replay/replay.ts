// Plays one world through the route of a tree, step by step, without any diagram: the plain twin of the walk.

import type { Action, AskAction, DoAction, ReadAction, Route } from '../meaning/route.js';
import type { Milliseconds, UnitTest } from '../meaning/unit.js';
import { arrives, stateOnArrival } from './arrival.js';
import {
    afterTime,
    done,
    forced,
    type Surroundings,
    timeIn,
    timeOfElements,
    withGateClosed,
    withGateRestored,
} from './changes.js';
import { endingAt } from './judgment.js';
import type { Ending, Happening, Run, Visit } from './run.js';
import { withReading } from './noted.js';
import { needsOf, type Shown, showsIn, silenceOf } from './shows.js';
import { situationOf } from './situation.js';
import { holds } from './standing.js';
import { type State, stateKey } from './state.js';
import { completeBuild, exists, type World } from './world.js';

export { arrives } from './arrival.js';
export type { Ending, Happening, Run } from './run.js';
export { type World, worldsOf } from './world.js';

export interface ReplayOptions {
    /** After so many runs the rest is cut; one run more is given then, which says so. */
    readonly mostRuns?: number;
    /** The state of a world that another tree hands over. It need not come with the complaint. */
    readonly start?: State;
}

const mostRunsUnlessSaid = 1000;

/**
 * So many visits of steps, over all runs of a world; then the rest is cut. Only where a clearing is done over and over,
 * or a fault comes and goes on and on, are there so many.
 */
const mostVisits = 10_000;

/**
 * Every way that a world can go: several only where faults come and go. None where it does not arrive.
 * The first run is the one in which every fault that comes and goes shows each time.
 */
export function replay(route: Route, world: World, options: ReplayOptions = {}): readonly Run[] {
    if (!options.start && !arrives(route, world)) return [];
    const { unit } = route;
    const build = completeBuild(unit, world.build);
    const scene: Scene = { route, world, unit, build, arrival: world.arrival, visits: 0 };
    const state = options.start ?? stateOnArrival(unit, world);
    const start: Way = { state, time: 0, visits: [], keys: new Set(), station: undefined, action: 0, steps: [] };
    const isMissing = !exists(route.guard, build) || !route.stations[0];
    const ending = isMissing ? missing({}) : enter(0, start, scene);
    if (ending) return [toRun(start, ending)];
    const runs: Run[] = [];
    const pending = [start];
    for (let way = pending.pop(); way; way = pending.pop()) {
        if (runs.length >= (options.mostRuns ?? mostRunsUnlessSaid)) return [...runs, toRun(way, { sort: 'cut' })];
        const last = goOn(way, scene, pending);
        runs.push(toRun(way, last));
        if (last.sort === 'cut') return runs;
    }
    return runs;
}

interface Scene extends Surroundings {
    readonly route: Route;
    readonly world: World;
    /** How many steps have been visited, over all runs. */
    visits: number;
}

/** A world on its way: where it is, and all that has happened. */
interface Way {
    state: State;
    time: Milliseconds;
    /** The visits that are over. */
    visits: readonly Visit[];
    /** The stations and states that it has been in. */
    readonly keys: Set<string>;
    /** Where it is, which of the actions comes next, and what has happened there. */
    station: { readonly number: number; readonly key: string } | undefined;
    action: number;
    steps: readonly Happening[];
    /** The answer that it is given to the question that comes next, where another run has taken the other one. */
    answer?: Shown | undefined;
}

function toRun(way: Way, ending: Ending): Run {
    return { visits: allVisits(way), ending, time: way.time, guessed: way.state.guessed, state: way.state };
}

function allVisits({ visits, station, steps }: Way): readonly Visit[] {
    return station ? [...visits, { station: station.number, key: station.key, steps }] : visits;
}

/** Goes on to an ending. Where an answer can be another, the other way is put beside. */
function goOn(way: Way, scene: Scene, pending: Way[]): Ending {
    for (;;) {
        const number = way.station?.number ?? 0;
        const action = scene.route.stations[number]?.actions[way.action];
        if (!action) return { sort: 'stranded', station: number, action: undefined };
        way.action += 1;
        const ending = exists(action.guard, scene.build) ? act(action, way, scene, pending) : undefined;
        if (ending) return ending;
        if (scene.visits > mostVisits) return { sort: 'cut' };
    }
}

/** Does one action and moves on, to the next action or another station; gives the ending where it is the last. */
function act(action: Action, way: Way, scene: Scene, pending: Way[]): Ending | undefined {
    const { unit, build } = scene;
    switch (action.sort) {
        case 'do':
            return doOrLeave(action, way, scene);
        case 'wait': {
            happen(way, { sort: 'waited', action }, afterTime(way.state, action.time, scene), action.time);
            const hazard = action.hazard === undefined ? undefined : unit.hazards[action.hazard];
            if (hazard && exists(hazard.guard, build)) {
                way.state = { ...way.state, safe: new Set([...way.state.safe, hazard.number]) };
            }
            return undefined;
        }
        case 'gate':
        case 'restore':
            useGate(action, way, scene);
            return undefined;
        case 'read':
            read(action, way, scene);
            return undefined;
        case 'ask':
            return ask(action, way, scene, pending);
        case 'follow':
            if (!exists(action.guardOfProcedure, build)) return missingHere(way, action);
            happen(way, { sort: 'followed', action });
            if (action.to.sort === 'station') return enter(action.to.station, way, scene);
            return stranded(way, action);
        case 'leave':
            happen(way, { sort: 'left', exit: action.exit });
            return leave(action.exit, action, way, scene);
    }
}

function happen(way: Way, happening: Happening, state: State = way.state, time: Milliseconds = 0): void {
    way.steps = [...way.steps, happening];
    way.state = state;
    way.time += time;
}

/** Closes or restores a gate; one that the build lacks is left alone. */
function useGate(action: Extract<Action, { sort: 'gate' | 'restore' }>, way: Way, scene: Scene): void {
    const { unit, build } = scene;
    const gate = unit.gates[action.gate];
    if (!gate || !exists(gate.guard, build)) {
        happen(way, { sort: 'missing', action });
    } else if (action.sort === 'gate') {
        const time = timeOfElements(gate.closing, build) + timeIn(gate.takes, build);
        happen(way, { sort: 'gate', action }, withGateClosed(way.state, action.gate, scene), time);
    } else {
        const time = timeOfElements(gate.restoring, build);
        happen(way, { sort: 'restored', action }, withGateRestored(way.state, action.gate, scene), time);
    }
}

/** Does something; where a part that it needs is faulty, it cannot be done and the technician leaves. */
function doOrLeave(action: DoAction, way: Way, scene: Scene): Ending | undefined {
    const { unit, build, route } = scene;
    if (lacksSomethingFor(action, scene)) happen(way, { sort: 'missing', action });
    const isFaulty = action.uses.some(part => unit.parts[part]?.faults.some(fault => way.state.present.has(fault)));
    if (isFaulty) {
        const exit = firstExit(action.cannot, route, build);
        happen(way, { sort: 'cannot be done', action, exit });
        return exit === undefined ? stranded(way, action) : leave(exit, action, way, scene);
    }
    happen(way, { sort: 'did', action }, done(action, way.state, scene), action.time);
    return undefined;
}

/** Whether the build lacks a part, the zone, a condition, a test or every fault that an action is about. */
function lacksSomethingFor(action: DoAction, { unit, build }: Scene): boolean {
    const parts = [...action.replaces, ...action.uses, ...(action.at === undefined ? [] : [action.at])];
    const guards = [
        ...parts.map(part => unit.parts[part]?.guard),
        ...(action.zone === undefined ? [] : [unit.zones[action.zone]?.guard]),
        ...action.settings.map(({ condition }) => unit.conditions[condition]?.guard),
        ...action.clearsTests.map(test => unit.tests[test]?.guard),
    ];
    // Of the faults that are cleared together, some may be of other builds.
    const { clearsFaults } = action;
    const clearsNone = clearsFaults.length > 0 && !clearsFaults.some(fault => exists(unit.faults[fault]?.guard, build));
    return clearsNone || guards.some(guard => !exists(guard, build));
}

/** Takes a reading and notes it; a test that the build lacks is left out. */
function read(action: ReadAction, way: Way, scene: Scene): void {
    const test = scene.unit.tests[action.test];
    if (!test || !exists(test.guard, scene.build)) {
        happen(way, { sort: 'missing', action });
        return;
    }
    prepare(action, test, way, scene);
    happen(way, { sort: 'read', action, test: test.number });
}

/** Asks a test and leaves by its answer. */
function ask(action: AskAction, way: Way, scene: Scene, pending: Way[]): Ending | undefined {
    const { unit, build, route, world } = scene;
    const test = unit.tests[action.test];
    if (!test || !exists(test.guard, build)) return missingHere(way, action);
    let { answer } = way;
    if (!answer) {
        prepare(action, test, way, scene);
        const [first, ...others] = showsIn(unit, test.number, world, way.state);
        // The other way begins at this question, with everything before it done.
        for (const other of others) {
            pending.push({ ...way, keys: new Set(way.keys), action: way.action - 1, answer: other });
        }
        answer = first ?? { outcome: -1, guessed: false, opts: [] };
    }
    way.answer = undefined;
    const { outcome, guessed, opts } = answer;
    const named = action.branches.filter(exit => outcome >= 0 && route.exits[exit]?.outcomes.includes(outcome));
    const exit = [named, action.otherwise, action.disagree]
        .map(exits => firstExit(exits, route, build))
        .find(found => found !== undefined);
    const state = guessed && !way.state.guessed ? { ...way.state, guessed } : way.state;
    happen(way, { sort: 'asked', action, test: test.number, outcome, exit, opts, guessed }, state);
    return exit === undefined ? stranded(way, action) : leave(exit, action, way, scene);
}

/** All that comes before an answer: what the test needs, what keeps it from saying anything, and its time. */
function prepare(action: AskAction | ReadAction, test: UnitTest, way: Way, scene: Scene): void {
    const { unit, build } = scene;
    const needs = needsOf(test, build);
    const before = situationOf(unit, build, way.state);
    for (const need of needs) {
        if (!holds(need, before)) happen(way, { sort: 'needs', action, test: test.number, need });
    }
    way.state = needs.reduce((state, need) => forced(need, state, scene), way.state);
    for (const sort of silenceOf(test, situationOf(unit, build, way.state))) {
        happen(way, { sort, action, test: test.number });
    }
    const time = timeIn(test.takes, build);
    way.time += time;
    way.state = withReading(afterTime(way.state, time, scene), test.number, unit);
}

function firstExit(exits: readonly number[], route: Route, build: Scene['build']): number | undefined {
    return exits.find(number => {
        const exit = route.exits[number];
        return exit !== undefined && exists(exit.guard, build);
    });
}

/** Goes where an exit leads; through the results of procedures to the exit that their caller has for them. */
function leave(exit: number, action: Action, way: Way, scene: Scene): Ending | undefined {
    const { route, build, world } = scene;
    let to = route.exits[exit]?.to;
    while (to?.sort === 'result') {
        const next = firstExit(to.exits, route, build);
        if (next === undefined) return stranded(way, action);
        happen(way, { sort: 'left', exit: next });
        to = route.exits[next]?.to;
    }
    switch (to?.sort) {
        case 'station':
            return enter(to.station, way, scene);
        case 'end': {
            const end = route.ends[to.end];
            return end && exists(end.guard, build)
                ? endingAt(end, way.state, world, route.unit)
                : missing({ end: to.end });
        }
        case 'tree':
            return exists(to.guard, build)
                ? { sort: 'handed over', tree: to.tree, state: way.state }
                : missing({ action });
        default:
            return stranded(way, action);
    }
}

/** Arrives at a station; gives an ending where there is no going on from there. */
function enter(number: number, way: Way, scene: Scene): Ending | undefined {
    const station = scene.route.stations[number];
    if (!station || !exists(station.guard, scene.build)) return missing({ station: number });
    const key = stateKey(way.state);
    const place = `${number} ${key}`;
    if (way.keys.has(place)) return { sort: 'loop', station: number };
    way.visits = allVisits(way);
    way.keys.add(place);
    scene.visits += 1;
    way.station = { number, key };
    way.action = 0;
    way.steps = [];
    return undefined;
}

function stranded(way: Way, action: Action): Ending {
    return { sort: 'stranded', station: way.station?.number ?? 0, action };
}

function missingHere(way: Way, action: Action): Ending {
    return missing({ action, ...(way.station ? { station: way.station.number } : {}) });
}

function missing({ station, end, action }: { station?: number; end?: number; action?: Action }): Ending {
    return { sort: 'missing', station, end, action };
}
