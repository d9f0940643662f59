// The walk of one tree: for every station, exit and end the worlds that come there, for all builds and faults at once.
//
// Each fault (with the faults that it causes) is walked by itself: what it arrived with never changes, so its worlds never
// mix with another's. For one fault the stations are taken in an order in which what leads to a station mostly comes
// before it; a station that worlds come back to is taken again with the worlds that are new there, until none are.

import type { AskAction, Route } from '../meaning/route.js';
import type { Tree } from '../model/trees.js';
import { arrivalsOf } from './arrivals.js';
import type { Crowd, Surroundings } from './changes.js';
import { findLoops, type Loop } from './loops.js';
import type { Presence } from './presence.js';
import type { RouteOrder } from './route-order.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import type { TestAnswers } from './shows.js';
import { buildsWhere, isPossible } from './space.js';
import { type Entries, SmallMap } from './small-map.js';
import { StationQueue } from './station-queue.js';
import { travelStation } from './travel.js';
import type { Meeting, Sink, Travelling } from './ways.js';

/** Worlds by the number of their presence. */
export type Crowds = Entries<number, WorldSet>;

type GrowingCrowds = SmallMap<number, WorldSet>;

/** What came where. Only worlds whose build is made are kept, though a set may hold others beside them. */
export interface RouteWalk {
    readonly route: Route;
    readonly order: RouteOrder;
    readonly around: Surroundings;
    readonly answers: TestAnswers;
    readonly arrivals: readonly Crowd[];
    /** By station. */
    readonly stations: readonly Crowds[];
    /** By exit: the worlds that take it. */
    readonly exits: readonly Crowds[];
    /** By end. */
    readonly ends: readonly Crowds[];
    /** For each question, by outcome. */
    readonly asked: ReadonlyMap<AskAction, readonly Crowds[]>;
    readonly meetings: readonly Meeting[];
    readonly loops: readonly Loop[];
    readonly handedOver: ReadonlyMap<Tree, readonly Crowd[]>;
    /** By exit: sets of worlds that would take it if something could not be read or done, or were answered unexpectedly. */
    readonly detours: readonly ReadonlySet<WorldSet>[];
    /** How often worlds of one presence were taken through a station. */
    readonly passes: number;
    /** Stations at which it stayed open who comes to them, or where they go on to; such worlds are walked as if they were there. */
    readonly undecided: ReadonlySet<number>;
}

/** Asks whether to go on; called once for each fault. */
export interface WalkSignal {
    readonly aborted: boolean;
}

/** Walks a tree. `handed` are the worlds that other trees hand over to it. Undefined when the signal says to stop. */
export function walkRoute(
    route: Route,
    order: RouteOrder,
    around: Surroundings,
    answers: TestAnswers,
    handed: readonly Crowd[],
    signal: WalkSignal,
): RouteWalk | undefined {
    const walk = new Walk(route, order, around, answers);
    const arrivals = [...arrivalsOf(route, around, answers), ...handed];
    for (const crowds of byArrival(arrivals)) {
        if (signal.aborted) return undefined;
        walk.go(crowds);
    }
    return walk.result(arrivals);
}

/** Walks some crowds only, and gives who comes to each end. */
export function walkCrowds(
    route: Route,
    order: RouteOrder,
    around: Surroundings,
    answers: TestAnswers,
    crowds: readonly Crowd[],
): readonly Crowds[] {
    const walk = new Walk(route, order, around, answers);
    walk.go(crowds);
    return walk.result(crowds).ends;
}

/** Crowds that arrived with the same faults go together: one may turn into the other. */
function byArrival(arrivals: readonly Crowd[]): Crowd[][] {
    const groups = new Map<string, Crowd[]>();
    for (const crowd of arrivals) {
        const key = crowd.presence.arrival.join(',');
        const group = groups.get(key);
        if (group) group.push(crowd);
        else groups.set(key, [crowd]);
    }
    return [...groups.values()];
}

/** Stands at every place to which nobody came. */
const nobody: GrowingCrowds = new SmallMap();
const noSets: ReadonlySet<WorldSet> = new Set();

/** The crowds at one of some places, to add to. */
function crowdsAt(number: number, places: GrowingCrowds[]): GrowingCrowds {
    let crowds = places[number];
    if (crowds === undefined || crowds === nobody) {
        crowds = new SmallMap();
        places[number] = crowds;
    }
    return crowds;
}

class Walk implements Sink {
    private readonly stations: GrowingCrowds[];
    private readonly exits: GrowingCrowds[];
    private readonly ends: GrowingCrowds[];
    private readonly askedBy = new Map<AskAction, GrowingCrowds[]>();
    private readonly meetings: Meeting[] = [];
    private readonly loops: Loop[] = [];
    private readonly handedOver = new Map<Tree, Crowd[]>();
    private readonly detours: (Set<WorldSet> | undefined)[];
    private readonly undecided = new Set<number>();
    private passes = 0;
    /** What waits at each station, and the stations where something waits. */
    private readonly waiting: (SmallMap<Presence, WorldSet> | undefined)[];
    private readonly queue: StationQueue;
    private readonly travelling: Travelling;

    constructor(
        private readonly route: Route,
        private readonly order: RouteOrder,
        private readonly around: Surroundings,
        private readonly answers: TestAnswers,
    ) {
        this.stations = route.stations.map(() => nobody);
        this.exits = route.exits.map(() => nobody);
        this.ends = route.ends.map(() => nobody);
        this.detours = route.exits.map(() => undefined);
        this.waiting = route.stations.map(() => undefined);
        this.queue = new StationQueue(order.ranks);
        this.travelling = { route, around, answers, sink: this };
    }

    /** Walks the worlds that arrived with one fault. */
    go(crowds: readonly Crowd[]): void {
        for (const crowd of crowds) this.begin(crowd);
        /** The stations of circles that were reached, with the presences there. */
        const circling = new Map<number, Set<Presence>>();
        let cameBack = false;
        for (let number = this.queue.take(); number !== undefined; number = this.queue.take()) {
            const openBefore = this.around.space.openCount();
            const waiting = this.waiting[number] ?? [];
            this.waiting[number] = undefined;
            const isInCircle = this.order.circles.has(number);
            for (const [presence, set] of waiting) {
                if (isInCircle) {
                    const presences = circling.get(number);
                    if (presences) presences.add(presence);
                    else circling.set(number, new Set([presence]));
                    cameBack ||= this.stations[number]?.has(presence.number) ?? false;
                }
                this.pass(number, presence, set);
            }
            if (this.around.space.openCount() > openBefore) this.undecided.add(number);
        }
        if (cameBack) this.lookForLoops(circling);
    }

    /** Begins with the first step in the builds that have it. */
    private begin({ presence, set }: Crowd): void {
        const { space } = this.around;
        const first = buildsWhere(this.route.stations[0]?.guard, space);
        const lacking = space.sets.without(set, first);
        const nothing = { action: undefined, end: undefined, exit: undefined, need: undefined };
        this.meet({ sort: 'missing', station: 0, presence, set: lacking, ...nothing });
        const beginning = space.sets.and(set, first);
        if (beginning !== noWorlds) this.arrive(0, presence, beginning);
    }

    /** Takes the worlds that are new at a station through it. */
    private pass(number: number, presence: Presence, set: WorldSet): void {
        const { space } = this.around;
        const station = this.route.stations[number];
        const before = this.stations[number]?.get(presence.number) ?? noWorlds;
        const fresh = before === noWorlds ? set : space.sets.without(set, before);
        if (!station || !isPossible(fresh, space)) return;
        crowdsAt(number, this.stations).set(presence.number, space.sets.or(before, fresh));
        this.passes += 1;
        travelStation(station, { presence, set: fresh }, this.travelling);
    }

    private lookForLoops(circling: ReadonlyMap<number, ReadonlySet<Presence>>): void {
        const there = new Map<number, Map<Presence, WorldSet>>();
        for (const [station, presences] of circling) {
            const crowds = new Map<Presence, WorldSet>();
            for (const presence of presences) {
                const set = this.stations[station]?.get(presence.number);
                if (set !== undefined) crowds.set(presence, set);
            }
            there.set(station, crowds);
        }
        this.loops.push(...findLoops(there, this.route, this.around, this.answers));
    }

    arrive(station: number, presence: Presence, set: WorldSet): void {
        let waiting = this.waiting[station];
        if (!waiting) {
            waiting = new SmallMap();
            this.waiting[station] = waiting;
            this.queue.add(station);
        }
        const before = waiting.get(presence);
        waiting.set(presence, before === undefined ? set : this.around.space.sets.or(before, set));
    }

    exit(exit: number, presence: Presence, set: WorldSet): void {
        this.add(exit, this.exits, presence, set);
    }

    end(end: number, presence: Presence, set: WorldSet): void {
        this.add(end, this.ends, presence, set);
    }

    tree({ tree }: Parameters<Sink['tree']>[0], presence: Presence, set: WorldSet): void {
        const crowds = this.handedOver.get(tree);
        if (crowds) crowds.push({ presence, set });
        else this.handedOver.set(tree, [{ presence, set }]);
    }

    asked(action: AskAction, outcome: number, presence: Presence, set: WorldSet): void {
        let answers = this.askedBy.get(action);
        if (!answers) {
            answers = (this.around.space.unit.tests[action.test]?.outcomes ?? []).map(() => nobody);
            this.askedBy.set(action, answers);
        }
        this.add(outcome, answers, presence, set);
    }

    detour(exit: number, set: WorldSet): void {
        // Not joined: sets of many faults together can be large, and nobody asks for them all.
        const known = this.detours[exit];
        if (known) known.add(set);
        else this.detours[exit] = new Set([set]);
    }

    meet(meeting: Meeting): void {
        if (isPossible(meeting.set, this.around.space)) this.meetings.push(meeting);
    }

    private add(number: number, places: GrowingCrowds[], presence: Presence, set: WorldSet): void {
        const { space } = this.around;
        if (!isPossible(set, space)) return;
        const crowds = crowdsAt(number, places);
        const before = crowds.get(presence.number);
        crowds.set(presence.number, before === undefined ? set : space.sets.or(before, set));
    }

    result(arrivals: readonly Crowd[]): RouteWalk {
        return {
            route: this.route,
            order: this.order,
            around: this.around,
            answers: this.answers,
            arrivals,
            stations: this.stations,
            exits: this.exits,
            ends: this.ends,
            asked: this.askedBy,
            meetings: this.meetings,
            loops: this.loops,
            handedOver: this.handedOver,
            detours: this.detours.map(sets => sets ?? noSets),
            undecided: this.undecided,
            passes: this.passes,
        };
    }
}
