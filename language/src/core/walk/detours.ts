// Where a technician can come when something does not go as said: a test cannot be read, an action cannot be done, an answer
// is unexpected, or a complaint is still there after a repair. Only builds count here; what is read may be anything.

import type { Destination, Way } from '../meaning/route.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsIn, buildsWhere, isPossible } from './space.js';
import { StationQueue } from './station-queue.js';
import type { RouteWalk } from './walk-route.js';

/** The builds that can come to each station and end besides those that are walked. */
export interface Detours {
    readonly stations: readonly WorldSet[];
    readonly ends: readonly WorldSet[];
}

const known = new WeakMap<RouteWalk, Detours>();

/** What detours lead to, in the builds that come to where they begin. Worked out once for each walk. */
export function detoursOf(walk: RouteWalk): Detours {
    let detours = known.get(walk);
    if (!detours) {
        detours = new Search(walk).search();
        known.set(walk, detours);
    }
    return detours;
}

/**
 * Goes through the stations in the order of the walk, with all builds that wait there together: one detour after the other
 * would divide the builds into ever smaller sets and come to each station with every one of them.
 */
class Search {
    private readonly stations: WorldSet[];
    private readonly ends: WorldSet[];
    private readonly waiting: WorldSet[];
    private readonly queue: StationQueue;
    private readonly exitsOf: readonly (readonly number[])[];

    constructor(private readonly walk: RouteWalk) {
        const { route, order } = walk;
        this.stations = route.stations.map(() => noWorlds);
        this.ends = route.ends.map(() => noWorlds);
        this.waiting = route.stations.map(() => noWorlds);
        this.queue = new StationQueue(order.ranks);
        this.exitsOf = order.exitsOf;
    }

    search(): Detours {
        const { route, detours, ends } = this.walk;
        for (const exit of route.exits) this.send(exit.to, this.buildsOf(detours[exit.number] ?? []));
        ends.forEach((crowds, end) => this.goOnWrong(end, this.buildsOf(crowds.values())));
        for (let next = this.queue.take(); next !== undefined; next = this.queue.take()) this.pass(next);
        return { stations: this.stations, ends: this.ends };
    }

    /** The builds of some sets; each by itself, because worlds of many faults make larger sets than their builds do. */
    private buildsOf(sets: Iterable<WorldSet>): WorldSet {
        const { space } = this.walk.around;
        let builds: WorldSet = noWorlds;
        for (const set of sets) builds = space.sets.or(builds, buildsIn(set, space));
        return builds;
    }

    /** Takes the builds that are new at a station to wherever a way leads on from it. */
    private pass(number: number): void {
        const { route, around } = this.walk;
        const { space } = around;
        const station = route.stations[number];
        const before = this.stations[number] ?? noWorlds;
        const fresh = space.sets.without(this.within(this.waiting[number] ?? noWorlds, station?.guard), before);
        this.waiting[number] = noWorlds;
        if (!isPossible(fresh, space)) return;
        this.stations[number] = space.sets.or(before, fresh);
        for (const exit of this.exitsOf[number] ?? []) this.take(exit, fresh);
        for (const action of station?.actions ?? []) {
            if (action.sort === 'follow') this.send(action.to, this.within(fresh, action.guard));
        }
    }

    private take(exit: number, builds: WorldSet): void {
        const taken = this.walk.route.exits[exit];
        this.send(taken?.to, this.within(builds, taken?.guard));
    }

    private send(to: Destination | undefined, builds: WorldSet): void {
        if (builds === noWorlds) return;
        if (to?.sort === 'result') {
            for (const exit of to.exits) this.take(exit, builds);
        } else if (to?.sort === 'end') {
            this.arriveAtEnd(to.end, builds);
        } else if (to?.sort === 'station') {
            const before = this.waiting[to.station] ?? noWorlds;
            if (before === noWorlds) this.queue.add(to.station);
            this.waiting[to.station] = this.walk.around.space.sets.or(before, builds);
        }
    }

    private arriveAtEnd(number: number, builds: WorldSet): void {
        const { route, around } = this.walk;
        const { space } = around;
        const before = this.ends[number] ?? noWorlds;
        const fresh = space.sets.without(this.within(builds, route.ends[number]?.guard), before);
        if (!isPossible(fresh, space)) return;
        this.ends[number] = space.sets.or(before, fresh);
        this.goOnWrong(number, fresh);
    }

    /** After a repair the complaint may still be there. */
    private goOnWrong(number: number, builds: WorldSet): void {
        const { route } = this.walk;
        const end = route.ends[number];
        if (end?.written.sort !== 'conclusion') return;
        const ways = end.stillWrong.length > 0 ? end.stillWrong : route.stillWrong;
        for (const way of ways) this.send(way.to, this.within(builds, way.guard));
    }

    private within(set: WorldSet, guard: Way['guard']): WorldSet {
        const { space } = this.walk.around;
        return space.sets.and(set, buildsWhere(guard, space));
    }
}
