// The shortest time that can have passed at each station since the energy of a hazard was cut off, build by build.
//
// Times of actions, waits and tests count only while a gate is closed that holds the hazard or stops what drives it. Of several
// ways the quickest counts, whoever goes it: what is too short on it may still be long enough for all who come, which a replay
// then shows. A detour may be answered anything, so each way on from it counts in the builds that it is for.

import type { Action, Destination, Station } from '../meaning/route.js';
import type { GuardedTime, InBuilds, Milliseconds, UnitGate } from '../meaning/unit.js';
import { applySettings } from './changes.js';
import { driversOf, stillDriven } from './drivers.js';
import type { Lane } from './hazards-met.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsIn, buildsWhere } from './space.js';
import type { RouteWalk } from './walk-route.js';

/** What has passed at least, in some builds. */
export interface Elapsed {
    readonly builds: WorldSet;
    readonly time: Milliseconds;
    /** The gates that are closed there on every way. */
    readonly closed: readonly number[];
}

/** The least times for one hazard; builds are in one case of a station and lane at most. */
export class ElapsedTimes {
    private readonly cases: Readonly<Record<Lane, (readonly Elapsed[])[]>>;
    private readonly open: { readonly station: number; readonly lane: Lane }[] = [];
    private readonly stops = new Map<number, WorldSet>();
    private readonly exitsOf: readonly (readonly number[])[];

    constructor(
        private readonly hazard: number,
        private readonly walk: RouteWalk,
    ) {
        const { route } = walk;
        this.cases = { told: route.stations.map(() => []), detour: route.stations.map(() => []) };
        const exitsOf: number[][] = route.stations.map(() => []);
        for (const exit of route.exits) exitsOf[exit.station]?.push(exit.number);
        this.exitsOf = exitsOf;
        this.arrive(0, 'told', { builds: this.comersOf(0), time: 0, closed: [] });
        for (let next = this.open.pop(); next; next = this.open.pop()) this.goOn(next.station, next.lane);
    }

    /** What has passed before one action of a station, on any way. */
    before(station: Station, action: Action, lane: Lane): readonly Elapsed[] {
        const arrived = this.cases[lane][station.number] ?? [];
        return this.after(station, arrived, station.actions.indexOf(action));
    }

    /** The builds in which closing a gate stops the time of the hazard from being lost: it holds it, or stops what drives it. */
    stopsIn(gate: UnitGate): WorldSet {
        let stops = this.stops.get(gate.number);
        if (stops === undefined) {
            stops = this.findStops(gate);
            this.stops.set(gate.number, stops);
        }
        return stops;
    }

    private findStops(gate: UnitGate): WorldSet {
        const { flows, space } = this.walk.around;
        const { sets, variables } = space;
        if (gate.controls.length === 0) return noWorlds;
        const exists = buildsWhere(gate.guard, space);
        if (driversOf(this.hazard, flows).length === 0) return exists;
        const shut = gate.closing.reduce(
            (set, { settings, guard }) => {
                const here = buildsWhere(guard, space);
                return sets.or(applySettings(sets.and(set, here), settings, space), sets.without(set, here));
            },
            sets.assign(allWorlds, variables.gates[gate.number] ?? 0, 1),
        );
        return sets.without(exists, buildsIn(sets.and(shut, stillDriven(this.hazard, flows)), space));
    }

    private comersOf(station: number): WorldSet {
        return this.joined(this.walk.stations[station]?.values() ?? []);
    }

    private joined(found: Iterable<WorldSet>): WorldSet {
        const { space } = this.walk.around;
        let joined: WorldSet = noWorlds;
        for (const set of new Set(found)) joined = space.sets.or(joined, buildsIn(set, space));
        return joined;
    }

    private arrive(station: number, lane: Lane, coming: Elapsed): void {
        const { space } = this.walk.around;
        const guard = buildsWhere(this.walk.route.stations[station]?.guard, space);
        const builds = space.sets.and(coming.builds, guard);
        if (builds === noWorlds) return;
        const merged = this.merge(this.cases[lane][station] ?? [], { ...coming, builds });
        if (!merged) return;
        this.cases[lane][station] = merged;
        this.open.push({ station, lane });
    }

    /** The cases with one more; undefined where it tells nothing new. */
    private merge(cases: readonly Elapsed[], coming: Elapsed): readonly Elapsed[] | undefined {
        const { sets } = this.walk.around.space;
        let rest = coming.builds;
        let isNew = false;
        const merged: Elapsed[] = [];
        for (const one of cases) {
            const both = sets.and(one.builds, rest);
            const time = Math.min(one.time, coming.time);
            const closed = one.closed.filter(gate => coming.closed.includes(gate));
            if (both === noWorlds || (time === one.time && closed.length === one.closed.length)) {
                merged.push(one);
            } else {
                merged.push({ builds: sets.without(one.builds, both), time: one.time, closed: one.closed });
                merged.push({ builds: both, time, closed });
                isNew = true;
            }
            rest = sets.without(rest, both);
        }
        if (rest === noWorlds && !isNew) return undefined;
        return this.together([...merged, { ...coming, builds: rest }]);
    }

    /** Cases that differ in their builds only are one. */
    private together(cases: readonly Elapsed[]): readonly Elapsed[] {
        const { sets } = this.walk.around.space;
        const found = new Map<string, Elapsed>();
        for (const one of cases) {
            if (one.builds === noWorlds) continue;
            const key = `${one.time} ${one.closed.join()}`;
            const before = found.get(key)?.builds ?? noWorlds;
            found.set(key, { ...one, builds: sets.or(before, one.builds) });
        }
        return [...found.values()];
    }

    private goOn(number: number, lane: Lane): void {
        const { route, around } = this.walk;
        const station = route.stations[number];
        if (!station) return;
        const leaving = this.after(station, this.cases[lane][number] ?? [], station.actions.length);
        for (const exit of this.exitsOf[number] ?? []) {
            const { why, guard, to } = route.exits[exit] ?? {};
            if (why === 'result') continue;
            if (lane === 'told') {
                this.send(to, 'told', leaving, this.joined(this.walk.exits[exit]?.values() ?? []));
                this.send(to, 'detour', leaving, this.joined(this.walk.detours[exit] ?? []));
            } else {
                this.send(to, 'detour', leaving, buildsWhere(guard, around.space));
            }
        }
        for (const action of station.actions) {
            if (action.sort !== 'follow') continue;
            this.send(action.to, lane, leaving, buildsWhere(action.guardOfProcedure, around.space));
        }
    }

    private send(to: Destination | undefined, lane: Lane, leaving: readonly Elapsed[], builds: WorldSet): void {
        if (builds === noWorlds || !to) return;
        const { route, around } = this.walk;
        if (to.sort === 'station') {
            for (const one of leaving) {
                this.arrive(to.station, lane, { ...one, builds: around.space.sets.and(one.builds, builds) });
            }
        } else if (to.sort === 'result') {
            for (const exit of to.exits) {
                const { guard, to: next } = route.exits[exit] ?? {};
                const taking =
                    lane === 'told'
                        ? this.joined(this.walk.exits[exit]?.values() ?? [])
                        : buildsWhere(guard, around.space);
                this.send(next, lane, leaving, around.space.sets.and(builds, taking));
            }
        }
    }

    /** The cases after so many actions of a station. */
    private after(station: Station, arrived: readonly Elapsed[], actions: number): readonly Elapsed[] {
        return station.actions
            .slice(0, actions)
            .reduce((cases, action) => this.together(cases.flatMap(one => this.afterAction(action, one))), arrived);
    }

    private afterAction(action: Action, one: Elapsed): readonly Elapsed[] {
        if (action.sort === 'gate' || action.sort === 'restore') return this.afterGate(action, one);
        if (one.closed.length === 0) return [one];
        return this.divide(one, action.guard, here => this.afterTime(action, here));
    }

    private afterGate(action: Extract<Action, { sort: 'gate' | 'restore' }>, one: Elapsed): readonly Elapsed[] {
        const gate = this.walk.route.unit.gates[action.gate];
        if (!gate) return [one];
        const others = one.closed.filter(closed => closed !== gate.number);
        if (action.sort === 'restore') {
            return this.divide(one, action.guard, here => [
                { ...here, closed: others, time: others.length === 0 ? 0 : here.time },
            ]);
        }
        const { sets } = this.walk.around.space;
        return this.divide(one, action.guard, here => [
            { ...here, builds: sets.without(here.builds, this.stopsIn(gate)) },
            {
                ...here,
                builds: sets.and(here.builds, this.stopsIn(gate)),
                closed: [...others, gate.number].sort((a, b) => a - b),
            },
        ]);
    }

    /** Those that an action is not for stay as they are. */
    private divide(one: Elapsed, guard: InBuilds, change: (here: Elapsed) => readonly Elapsed[]): readonly Elapsed[] {
        if (!guard) return change(one);
        const { space } = this.walk.around;
        const here = buildsWhere(guard, space);
        const outside = { ...one, builds: space.sets.without(one.builds, here) };
        return [outside, ...change({ ...one, builds: space.sets.and(one.builds, here) })];
    }

    private afterTime(action: Action, one: Elapsed): readonly Elapsed[] {
        if (action.sort === 'do' || action.sort === 'wait') return [{ ...one, time: one.time + action.time }];
        if (action.sort !== 'ask' && action.sort !== 'read') return [one];
        return this.afterTest(this.walk.route.unit.tests[action.test]?.takes ?? [], one);
    }

    /** The first time that holds in a build counts there. */
    private afterTest([first, ...others]: readonly GuardedTime[], one: Elapsed): readonly Elapsed[] {
        if (!first || one.builds === noWorlds) return [one];
        const { space } = this.walk.around;
        const here = buildsWhere(first.guard, space);
        return [
            { ...one, builds: space.sets.and(one.builds, here), time: one.time + first.time },
            ...this.afterTest(others, { ...one, builds: space.sets.without(one.builds, here) }),
        ];
    }
}
