// Goes through the told runs and the detours of one world, one state at a time, and notes every danger on them.
//
// The told ways come first. A detour begins at each state of theirs where something may not go as said, and from there on
// a test may be answered anything. Both are gone through in the order of their length, so that the first way to a danger
// is a shortest one.

import type { UnitTest } from '../meaning/unit.js';
import type { Action, AskAction, DoAction, ReadAction, Route } from '../meaning/route.js';
import type { Tree } from '../model/trees.js';
import { arrives, stateOnArrival } from './arrival.js';
import { afterTime, done, forced, type Surroundings, timeIn, withGateClosed, withGateRestored } from './changes.js';
import {
    type Danger,
    type Lane,
    longerTrail,
    type Occurrence,
    type PathHappening,
    pathOf,
    type PathVisit,
    type Trail,
} from './danger-path.js';
import { occurrenceWords } from './danger-words.js';
import {
    type Exposed,
    exposedByAsking,
    exposedByDoing,
    exposedByOpening,
    exposedByRepairing,
    leftAt,
    type Permit,
    withoutFaults,
} from './exposed.js';
import { withReading } from './noted.js';
import { occasionsAt } from './occasions.js';
import { needsOf, showsIn, silenceOf } from './shows.js';
import { situationOf } from './situation.js';
import { holds } from './standing.js';
import { sorted, type State, stateKey } from './state.js';
import { completeBuild, exists, type World } from './world.js';

export interface WaysOptions {
    /** The state of a world that another tree hands over. It need not come with the complaint. */
    readonly start?: State | undefined;
    /** After so many visits of stations the rest is cut. */
    readonly mostVisits?: number | undefined;
    /** Whether occasions are noted as well as dangers. */
    readonly occasions?: boolean;
    /** Whether detours are left out. */
    readonly toldOnly?: boolean;
    /** Stations and states, by `placeKey`, where other worlds of the build have come on told ways: no detour goes on there. */
    readonly knownPlaces?: ReadonlySet<string> | undefined;
}

/** What was found on the ways of one world. */
export interface Ways {
    readonly dangers: readonly Danger[];
    /** Whether the limit has cut something. */
    readonly isCut: boolean;
    readonly handedOver: readonly Handover[];
    /** Where the told ways have come, by `placeKey`. */
    readonly told: ReadonlySet<string>;
    /** Where the detours have gone on, in the same way. */
    readonly detoured: ReadonlySet<string>;
    /** Tests whose answer on a told way was drawn from several. */
    readonly drawn: ReadonlySet<number>;
}

/** Where a told way goes on in another tree. */
export interface Handover {
    readonly tree: Tree;
    readonly state: State;
    readonly path: readonly PathVisit[];
}

const mostVisitsUnlessSaid = 20_000;

/** Goes all ways of a world through a tree; nowhere where it does not arrive. */
export function waysOf(route: Route, world: World, options: WaysOptions = {}): Ways {
    const { unit } = route;
    const build = completeBuild(unit, world.build);
    const search: Search = {
        ...{ route, unit, build, world, options, arrival: world.arrival },
        ...{ dangers: new Map(), handedOver: new Map(), told: new Set(), detoured: new Set(), drawn: new Set() },
        ...{ toldWaiting: [], reached: new Set(), detoursWaiting: new Map(), visits: 0 },
    };
    if ((options.start || arrives(route, world)) && exists(route.guard, build)) {
        const state = options.start ?? stateOnArrival(unit, world);
        arriveAtStation(0, { lane: 'told', state, trail: undefined, controlled: new Set() }, search);
    }
    const isCut = !goTold(search) || !(options.toldOnly === true || goDetours(search));
    const { dangers, handedOver, told, detoured, drawn } = search;
    return { dangers: [...dangers.values()], isCut, handedOver: [...handedOver.values()], told, detoured, drawn };
}

/** A station with all of a state on which hazards depend. */
export function placeKey(station: number, { conditions, closed, safe }: State): string {
    return `${station} ${conditions.join()}|${sorted(closed).join()}|${sorted(safe).join()}`;
}

interface Search extends Surroundings {
    readonly route: Route;
    readonly world: World;
    readonly options: WaysOptions;
    readonly dangers: Map<string, Danger>;
    readonly handedOver: Map<string, Handover>;
    /** In the order in which they were reached, which is that of their length. */
    readonly toldWaiting: AtStation[];
    /** Stations with whole states that told ways have come to. */
    readonly reached: Set<string>;
    readonly told: Set<string>;
    /** Detours by the length of the way that they have gone. */
    readonly detoursWaiting: Map<number, Coming[]>;
    readonly detoured: Set<string>;
    readonly drawn: Set<number>;
    visits: number;
}

/** A world that is on its way from one station to the next. */
interface OnTheWay {
    readonly lane: Lane;
    readonly state: State;
    readonly trail: Trail | undefined;
    /** Hazards that a gate or a wait has had under control. */
    readonly controlled: ReadonlySet<number>;
}

interface AtStation extends OnTheWay {
    readonly station: number;
}

interface Coming {
    readonly to:
        { readonly sort: 'station'; readonly station: number } | { readonly sort: 'end'; readonly end: number };
    readonly onTheWay: OnTheWay;
}

/** A world at a station, where one action comes after the other. */
interface Here extends AtStation {
    state: State;
    controlled: ReadonlySet<number>;
    happenings: readonly PathHappening[];
    readonly permits: Permit[];
}

/** False where the limit has stopped it. */
function goTold(search: Search): boolean {
    // The loop also visits what it adds.
    for (const coming of search.toldWaiting) {
        if (!countVisit(search)) return false;
        pass(coming, search);
    }
    return true;
}

/** Goes the detours, the shortest first. */
function goDetours(search: Search): boolean {
    const { detoursWaiting } = search;
    for (let length = 1; detoursWaiting.size > 0; length += 1) {
        const waiting = detoursWaiting.get(length) ?? [];
        detoursWaiting.delete(length);
        for (const { to, onTheWay } of waiting) {
            if (to.sort === 'end') arriveAtEnd(to.end, onTheWay, search);
            else if (!arriveOnDetour({ ...onTheWay, station: to.station }, search)) return false;
        }
    }
    return true;
}

/** A detour does not go on where a told way has come, or another detour before; false where the limit has stopped it. */
function arriveOnDetour(coming: AtStation, search: Search): boolean {
    const { detoured, told, options } = search;
    const key = placeKey(coming.station, coming.state);
    if (told.has(key) || detoured.has(key) || options.knownPlaces?.has(key) === true) return true;
    if (!countVisit(search)) return false;
    detoured.add(key);
    pass(coming, search);
    return true;
}

function countVisit(search: Search): boolean {
    search.visits += 1;
    return search.visits <= (search.options.mostVisits ?? mostVisitsUnlessSaid);
}

/** Comes to a station or an end: on a told way at once, on a detour when its turn has come. */
function arrive(to: Coming['to'], onTheWay: OnTheWay, search: Search): void {
    if (onTheWay.lane === 'told') {
        if (to.sort === 'end') arriveAtEnd(to.end, onTheWay, search);
        else arriveAtStation(to.station, onTheWay, search);
        return;
    }
    const isThere = to.sort === 'end' || exists(search.route.stations[to.station]?.guard, search.build);
    const length = onTheWay.trail?.length ?? 0;
    const waiting = search.detoursWaiting.get(length) ?? [];
    search.detoursWaiting.set(length, waiting);
    if (isThere) waiting.push({ to, onTheWay });
}

/** Comes to a station on a told way, if the build has it and the way has not been there in this state. */
function arriveAtStation(number: number, onTheWay: OnTheWay, search: Search): void {
    const station = search.route.stations[number];
    const key = `${number} ${stateKey(onTheWay.state)}`;
    if (!station || !exists(station.guard, search.build) || search.reached.has(key)) return;
    search.reached.add(key);
    search.told.add(placeKey(number, onTheWay.state));
    search.toldWaiting.push({ ...onTheWay, station: number });
}

/** Does what the station says. */
function pass(coming: AtStation, search: Search): void {
    const here: Here = { ...coming, happenings: [], permits: [] };
    for (const action of search.route.stations[coming.station]?.actions ?? []) {
        if (exists(action.guard, search.build) && !act(action, here, search)) return;
    }
}

/** Does one action; false where it was the last. */
function act(action: Action, here: Here, search: Search): boolean {
    const { build } = search;
    noteOccasions(action, here, search);
    switch (action.sort) {
        case 'do':
            return doOrLeave(action, here, search);
        case 'wait':
            wait(action, here, search);
            return true;
        case 'gate':
        case 'restore':
            useGate(action, here, search);
            return true;
        case 'read':
            if (!exists(search.unit.tests[action.test]?.guard, build)) return true;
            note(exposedByAsking(action, here.state, here.permits, search), action, here, search);
            readToo(action, here, search);
            return true;
        case 'ask':
            if (!exists(search.unit.tests[action.test]?.guard, build)) return false;
            note(exposedByAsking(action, here.state, here.permits, search), action, here, search);
            if (here.lane === 'told') askTold(action, here, search);
            else askOnDetour(action, here, search);
            return false;
        case 'follow':
            if (action.to.sort === 'station' && exists(action.guardOfProcedure, build)) {
                arrive(action.to, leaving(here, here.lane), search);
            }
            return false;
        case 'leave':
            leaveByFirst([action.exit], here, here.lane, search);
            return false;
    }
}

function doOrLeave(action: DoAction, here: Here, search: Search): boolean {
    const { unit } = search;
    const { lane, state } = here;
    note(exposedByDoing(action, state, search), action, here, search);
    const isFaulty = action.uses.some(part => unit.parts[part]?.faults.some(fault => state.present.has(fault)));
    const without = withHappening(here, { sort: 'cannot be done', action }, search);
    leaveByFirst(action.cannot, without, lane === 'told' && isFaulty ? 'told' : 'detour', search);
    if (isFaulty) return false;
    here.state = done(action, state, search);
    if (action.settings.length === 0) return true;
    happen(here, { sort: 'set', action, lost: lostBetween(state, here.state, search) }, search);
    note(exposedByDoing(action, here.state, search), action, here, search);
    note(exposedByOpening(action, here.state, here.permits, search), action, here, search);
    return true;
}

function wait(action: Extract<Action, { sort: 'wait' }>, here: Here, search: Search): void {
    const { unit, build } = search;
    here.state = afterTime(here.state, action.time, search);
    const hazard = action.hazard === undefined ? undefined : unit.hazards[action.hazard];
    if (!hazard || !exists(hazard.guard, build)) return;
    here.state = { ...here.state, safe: new Set([...here.state.safe, hazard.number]) };
    here.controlled = new Set([...here.controlled, hazard.number]);
    happen(here, { sort: 'waited', action }, search);
}

function useGate(action: Extract<Action, { sort: 'gate' | 'restore' }>, here: Here, search: Search): void {
    const { unit, build } = search;
    const gate = unit.gates[action.gate];
    if (!gate || !exists(gate.guard, build)) return;
    const before = here.state;
    if (action.sort === 'restore') {
        here.state = withGateRestored(before, action.gate, search);
        happen(here, { sort: 'restored', action, lost: lostBetween(before, here.state, search) }, search);
        return;
    }
    here.state = withGateClosed(before, action.gate, search);
    here.permits.push(...gate.permits.filter(({ guard }) => exists(guard, build)));
    const held = gate.controls.filter(({ guard }) => exists(guard, build)).map(({ hazard }) => hazard);
    here.controlled = new Set([...here.controlled, ...held]);
    happen(here, { sort: 'closed', action }, search);
}

/** The hazards that were under control in one state and are not in the next one. */
function lostBetween(before: State, after: State, { unit, build }: Search): readonly number[] {
    const [then, now] = [situationOf(unit, build, before), situationOf(unit, build, after)];
    return unit.hazards.flatMap(({ number: hazard }) => {
        const isolated = { sort: 'isolated', hazard } as const;
        return holds(isolated, then) && !holds(isolated, now) ? [hazard] : [];
    });
}

/** Reads as the replay does; beside it begins the detour of what cannot be read. */
function readToo(action: ReadAction, here: Here, search: Search): void {
    const test = search.unit.tests[action.test];
    if (test && here.lane === 'told') prepare(test, here, search);
    leaveUnread(action, here, search);
    if (test && here.lane === 'told') here.state = afterTime(here.state, timeIn(test.takes, search.build), search);
}

/** Brings about what a test needs; says whether it was so before, and whether anything flows there. */
function prepare(test: UnitTest, here: Here, search: Search): { readonly isUnmet: boolean; readonly isDead: boolean } {
    const { unit, build } = search;
    const needs = needsOf(test, build);
    const found = situationOf(unit, build, here.state);
    const isUnmet = !needs.every(need => holds(need, found));
    here.state = needs.reduce((state, need) => forced(need, state, search), here.state);
    const isDead = silenceOf(test, situationOf(unit, build, here.state)).includes('no energy');
    here.state = withReading(here.state, test.number, unit);
    return { isUnmet, isDead };
}

/** Asks as the replay does; beside it begin the detours of what cannot be read and of what may be answered otherwise. */
function askTold(action: AskAction, here: Here, search: Search): void {
    const { unit, build, world } = search;
    const test = unit.tests[action.test];
    if (!test) return;
    const { isUnmet, isDead } = prepare(test, here, search);
    leaveUnread(action, here, search);
    if (action.confirms || isUnmet || isDead) answerAnything(action, here, search);
    here.state = afterTime(here.state, timeIn(test.takes, build), search);
    for (const { outcome, guessed, opts } of showsIn(unit, test.number, world, here.state)) {
        if (opts.length > 1) search.drawn.add(test.number);
        const named = action.branches.filter(exit => search.route.exits[exit]?.outcomes.includes(outcome));
        const answered = withHappening(here, { sort: 'asked', action, outcome }, search);
        const state = { ...here.state, guessed: here.state.guessed || guessed };
        leaveByFirst([...named, ...action.otherwise, ...action.disagree], { ...answered, state }, 'told', search);
    }
}

function askOnDetour(action: AskAction, here: Here, search: Search): void {
    answerAnything(action, here, search);
    leaveUnread(action, here, search);
}

function leaveUnread(action: AskAction | ReadAction, here: Here, search: Search): void {
    leaveByFirst(
        action.cannotBeRead,
        withHappening(here, { sort: 'cannot be read', action }, search),
        'detour',
        search,
    );
}

function answerAnything(action: AskAction, here: Here, search: Search): void {
    for (const exit of [...action.branches, ...action.otherwise, ...action.disagree]) {
        leaveByFirst([exit], withHappening(here, { sort: 'any answer', action, exit }, search), 'detour', search);
    }
}

function happen(here: Here, occurrence: Occurrence, { route }: Search): void {
    here.happenings = [...here.happenings, { ...occurrence, words: occurrenceWords(occurrence, route) }];
}

/** A copy of what has happened so far, with one thing more. */
function withHappening(here: Here, occurrence: Occurrence, search: Search): Here {
    const after = { ...here };
    happen(after, occurrence, search);
    return after;
}

/** How a world leaves a station. On a detour no fault counts any more. */
function leaving({ station, happenings, trail, state, controlled }: Here, lane: Lane): OnTheWay {
    return {
        lane,
        state: lane === 'told' ? state : withoutFaults(state),
        trail: longerTrail(trail, { station, happenings }),
        controlled,
    };
}

/** Leaves by the first exit that the build has, through the results of procedures. */
function leaveByFirst(exits: readonly number[], here: Here, lane: Lane, search: Search): void {
    const { route, build } = search;
    const first = (numbers: readonly number[]) => {
        const found = numbers.map(number => route.exits[number]).find(exit => exit && exists(exit.guard, build));
        return found?.to;
    };
    let to = first(exits);
    while (to?.sort === 'result') to = first(to.exits);
    if (to?.sort === 'station' || to?.sort === 'end') arrive(to, leaving(here, lane), search);
    else if (to?.sort === 'tree' && lane === 'told' && exists(to.guard, build)) {
        const { state, trail } = leaving(here, lane);
        const key = `${to.tree.file} ${to.tree.start} ${stateKey(state)}`;
        if (!search.handedOver.has(key)) search.handedOver.set(key, { tree: to.tree, state, path: pathOf(trail) });
    }
}

/** A conclusion repairs what it names, and puts all back; a referral hands the unit over as it is. */
function arriveAtEnd(number: number, onTheWay: OnTheWay, search: Search): void {
    const end = search.route.ends[number];
    if (!end || !exists(end.guard, search.build)) return;
    if (end.written.sort === 'conclusion') {
        for (const exposed of exposedByRepairing(end, onTheWay.state, search)) {
            addDanger({ sort: 'hazard', end: number, ...exposed }, onTheWay, search);
        }
    } else {
        for (const left of leftAt(end, onTheWay.state, search)) {
            addDanger({ sort: 'left', end: number, ...left }, onTheWay, search);
        }
    }
}

/** Notes what is met at an action. */
function note(exposed: readonly Exposed[], action: Action, here: Here, search: Search): void {
    const { station, happenings } = here;
    const trail = longerTrail(here.trail, { station, happenings });
    for (const one of exposed) addDanger({ sort: 'hazard', station, action, ...one }, { ...here, trail }, search);
}

/** Notes what rules ask about at an action, before it is done. */
function noteOccasions(action: Action, here: Here, search: Search): void {
    if (search.options.occasions !== true) return;
    const { station, happenings, state, permits } = here;
    const trail = longerTrail(here.trail, { station, happenings });
    for (const one of occasionsAt(action, state, permits, search)) {
        addDanger({ sort: 'occasion', station, action, ...one }, { ...here, trail }, search);
    }
}

/** Keeps the first way to each danger. */
function addDanger(
    danger: Omit<Danger, 'lane' | 'path' | 'wasControlled'>,
    { lane, trail, controlled }: OnTheWay,
    search: Search,
): void {
    const station = search.route.stations[danger.station ?? -1];
    const action = danger.action && station?.actions.indexOf(danger.action);
    const key = JSON.stringify({ lane, ...danger, action });
    if (search.dangers.has(key)) return;
    const wasControlled = danger.hazard !== undefined && controlled.has(danger.hazard);
    search.dangers.set(key, { ...danger, lane, path: pathOf(trail), wasControlled });
}
