// Who meets a hazard that is not under control, and what is left closed or changed at an end.
//
// Hazards depend on builds, conditions, gates and waits, and on no fault. So the worlds that the walk has brought to a station
// are taken together, whatever they arrived with, and everything that makes no difference to a hazard is forgotten first.
// Then the ways are followed that begin where a test cannot be read, an action cannot be done or an answer is unexpected: from
// there on the technician may be answered anything.

import type { Action, AskAction, Destination, DoAction, Route, RouteEnd, Station } from '../meaning/route.js';
import type { InBuilds, Limited, UnitElement } from '../meaning/unit.js';
import type { Repair } from '../model/equipment.js';
import { applySettings } from './changes.js';
import { variablesToForget } from './hazard-variables.js';
import { whereOpened } from './opened.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, forgetterOf, isPossible, onlyMade, type WalkSpace } from './space.js';
import { startByRestoring, startBySetting } from './starting.js';
import { StationQueue } from './station-queue.js';
import { keepsSomebody, toldActions } from './told-actions.js';
import type { Crowds, RouteWalk } from './walk-route.js';

/** `told`: on the ways that the tree tells. `detour`: where something did not go as said before. */
export type Lane = 'told' | 'detour';

/** Somebody at a hazard that is not under control. */
export interface HazardMet {
    readonly sort: 'hazard';
    readonly lane: Lane;
    readonly station: number | undefined;
    readonly action: Action | undefined;
    /** The end whose repair meets the hazard. */
    readonly end: number | undefined;
    readonly hazard: number;
    readonly zone: number;
    /** The part at which the hand is, for a repair, and the repair. */
    readonly part: number | undefined;
    readonly repair: Repair | undefined;
    /** The builds and states in which it is so. */
    readonly set: WorldSet;
}

/** Something that is left closed or changed at an end. */
export interface LeftBehind {
    readonly sort: 'left';
    readonly lane: Lane;
    readonly end: number;
    readonly gate: number | undefined;
    readonly condition: number | undefined;
    readonly value: number | undefined;
    readonly set: WorldSet;
}

export interface HazardWalk {
    readonly met: readonly HazardMet[];
    readonly left: readonly LeftBehind[];
    /** By end: the gates that somebody comes there with closed; undefined where nobody comes. */
    readonly closedAt: readonly (ReadonlySet<number> | undefined)[];
    /** Variables that make no difference to a hazard: a set holds each of their values, whoever has come. */
    readonly forgotten: readonly number[];
}

const known = new WeakMap<RouteWalk, HazardWalk>();

/** The hazards of a tree's ways. Worked out once for each walk. */
export function hazardsOf(walk: RouteWalk): HazardWalk {
    let hazards = known.get(walk);
    if (!hazards) {
        hazards = new HazardSearch(walk).run();
        known.set(walk, hazards);
    }
    return hazards;
}

/** What is permitted beside hazards until the end of the step. */
type Permits = { readonly hazard: number; readonly activity: string; readonly where: WorldSet }[];

class HazardSearch {
    private readonly route: Route;
    private readonly space: WalkSpace;
    private readonly met: HazardMet[] = [];
    private readonly left: LeftBehind[] = [];
    private readonly closedAt: (Set<number> | undefined)[];
    private readonly forgotten: readonly number[];
    private readonly forget: (set: WorldSet) => WorldSet;
    /** By station: the worlds that came there on a detour. */
    private readonly detoured: WorldSet[];
    /** By station and by end: the worlds that wait there on a detour. They go on together: one by one they would divide ever more. */
    private readonly waiting: WorldSet[];
    private readonly waitingAtEnds: WorldSet[];
    private readonly queue: StationQueue;
    private readonly told: WorldSet[];

    constructor(private readonly walk: RouteWalk) {
        this.route = walk.route;
        this.space = walk.around.space;
        this.forgotten = variablesToForget(walk);
        this.forget = forgetterOf(this.forgotten, this.space);
        this.closedAt = this.route.ends.map(() => undefined);
        this.detoured = this.route.stations.map(() => noWorlds);
        this.waiting = this.route.stations.map(() => noWorlds);
        this.waitingAtEnds = this.route.ends.map(() => noWorlds);
        this.queue = new StationQueue(walk.order.ranks);
        this.told = walk.stations.map(crowds => this.together(crowds.values()));
    }

    run(): HazardWalk {
        if (this.space.unit.hazards.length === 0 && this.space.unit.conditions.length === 0) {
            return { met: [], left: [], closedAt: this.closedAt, forgotten: this.forgotten };
        }
        this.walk.stations.forEach((crowds, number) => this.passTold(number, crowds));
        this.walk.ends.forEach((crowds, number) => this.atEnd(number, this.together(crowds.values()), 'told'));
        this.walk.detours.forEach((detours, exit) => {
            this.send(this.route.exits[exit]?.to, this.together(detours));
        });
        for (let next = this.queue.take(); next !== undefined; next = this.queue.take()) this.follow(next);
        this.waitingAtEnds.forEach((set, end) => {
            const there = this.space.sets.and(set, this.builds(this.route.ends[end]?.guard));
            if (isPossible(there, this.space)) this.atEnd(end, there, 'detour');
        });
        return { met: this.met, left: this.left, closedAt: this.closedAt, forgotten: this.forgotten };
    }

    /** Sets joined, with everything forgotten that no hazard depends on; only of builds that are made. */
    private together(sets: Iterable<WorldSet>): WorldSet {
        const { sets: operations } = this.space;
        let joined: WorldSet = noWorlds;
        for (const set of new Set(sets)) {
            joined = operations.or(joined, this.forget(onlyMade(set, this.space)));
        }
        return joined;
    }

    private builds(guard: InBuilds): WorldSet {
        return buildsWhere(guard, this.space);
    }

    private send(to: Destination | undefined, set: WorldSet): void {
        if (set === noWorlds) return;
        const { sets } = this.space;
        if (to?.sort === 'result') {
            this.leaveByFirst(to.exits, set);
        } else if (to?.sort === 'station') {
            const before = this.waiting[to.station] ?? noWorlds;
            if (before === noWorlds) this.queue.add(to.station);
            this.waiting[to.station] = sets.or(before, set);
        } else if (to?.sort === 'end') {
            this.waitingAtEnds[to.end] = sets.or(this.waitingAtEnds[to.end] ?? noWorlds, set);
        }
    }

    /** Goes on along the detours that lead to a station. */
    private follow(number: number): void {
        const { sets } = this.space;
        const there = sets.and(this.waiting[number] ?? noWorlds, this.builds(this.route.stations[number]?.guard));
        this.waiting[number] = noWorlds;
        const before = this.detoured[number] ?? noWorlds;
        const fresh = sets.without(there, sets.or(before, this.told[number] ?? noWorlds));
        if (!isPossible(fresh, this.space)) return;
        this.detoured[number] = sets.or(before, fresh);
        this.pass(number, fresh, 'detour');
    }

    private leaveByFirst(exits: readonly number[], set: WorldSet): void {
        const { sets } = this.space;
        let left = set;
        for (const number of exits) {
            const exit = this.route.exits[number];
            const taking = sets.and(left, this.builds(exit?.guard));
            this.send(exit?.to, taking);
            left = sets.without(left, taking);
        }
    }

    /** Does what a station says with all worlds that the tree has led there. */
    private passTold(number: number, crowds: Crowds): void {
        const station = this.route.stations[number];
        if (!station || !keepsSomebody(station, crowds, this.walk)) {
            this.pass(number, this.told[number] ?? noWorlds, 'told');
            return;
        }
        const permits: Permits = [];
        toldActions(station, crowds, this.walk).forEach(({ coming, going }, index) => {
            const action = station.actions[index];
            const inBuilds = (sets: readonly WorldSet[]) =>
                this.space.sets.and(this.together(sets), this.builds(action?.guard));
            const set = inBuilds(coming);
            if (!action || set === noWorlds) return;
            if (action.sort === 'do') this.meetAtDo(action, station, [set, inBuilds(going)], 'told');
            else this.act(action, station, set, permits, 'told');
        });
    }

    /** Does what a station says with all worlds that come there. */
    private pass(number: number, arriving: WorldSet, lane: Lane): void {
        const station = this.route.stations[number];
        const { sets } = this.space;
        let set = arriving;
        const permits: Permits = [];
        for (const action of station?.actions ?? []) {
            if (!station || set === noWorlds) return;
            const here = sets.and(set, this.builds(action.guard));
            const outside = sets.without(set, here);
            if (here === noWorlds) continue;
            set = sets.or(this.act(action, station, here, permits, lane), outside);
        }
    }

    /** The worlds that go on to the next action. */
    private act(action: Action, station: Station, set: WorldSet, permits: Permits, lane: Lane): WorldSet {
        const { sets, unit, variables } = this.space;
        switch (action.sort) {
            case 'do':
                return this.actDo(action, station, set, lane);
            case 'wait': {
                if (action.hazard === undefined) return set;
                const there = sets.and(set, this.builds(unit.hazards[action.hazard]?.guard));
                const safe = sets.assign(there, variables.hazards[action.hazard] ?? 0, 1);
                return sets.or(safe, sets.without(set, there));
            }
            case 'gate':
            case 'restore':
                return this.useGate(action, set, permits);
            case 'ask':
                this.ask(action, station, set, permits, lane);
                return noWorlds;
            case 'follow':
                if (lane === 'detour') this.send(action.to, sets.and(set, this.builds(action.guardOfProcedure)));
                return noWorlds;
            case 'leave':
                if (lane === 'detour') this.leaveByFirst([action.exit], set);
                return noWorlds;
        }
    }

    private useGate(action: Extract<Action, { sort: 'gate' | 'restore' }>, all: WorldSet, permits: Permits): WorldSet {
        const { sets, unit, variables } = this.space;
        const gate = unit.gates[action.gate];
        if (!gate) return all;
        const set = sets.and(all, this.builds(gate.guard));
        const without = sets.without(all, set);
        const elements = action.sort === 'gate' ? gate.closing : gate.restoring;
        if (action.sort === 'gate') {
            for (const { hazard, activity, guard } of gate.permits) {
                const where = sets.and(
                    this.builds(action.guard),
                    sets.and(this.builds(gate.guard), this.builds(guard)),
                );
                permits.push({ hazard, activity, where });
            }
        }
        let changed = action.sort === 'restore' ? startByRestoring(set, gate, this.walk.around.flows) : set;
        if (gate.controls.length > 0) {
            changed = sets.assign(changed, variables.gates[gate.number] ?? 0, action.sort === 'gate' ? 1 : 0);
            if (action.sort === 'restore') {
                for (const { hazard, guard } of gate.controls) {
                    changed = this.unsafe(changed, hazard, this.builds(guard));
                }
            }
        }
        return sets.or(this.applyElements(changed, elements), without);
    }

    private applyElements(set: WorldSet, elements: readonly UnitElement[]): WorldSet {
        const { sets } = this.space;
        return elements.reduce((changed, { settings, guard }) => {
            if (settings.length === 0) return changed;
            const here = sets.and(changed, this.builds(guard));
            return sets.or(applySettings(here, settings, this.space), sets.without(changed, here));
        }, set);
    }

    private unsafe(set: WorldSet, hazard: number, where: WorldSet): WorldSet {
        const { sets, variables } = this.space;
        const there = sets.assign(sets.and(set, where), variables.hazards[hazard] ?? 0, 0);
        return sets.or(there, sets.without(set, where));
    }

    private actDo(action: DoAction, station: Station, set: WorldSet, lane: Lane): WorldSet {
        const started = startBySetting(set, action.settings, this.walk.around.flows);
        const after = applySettings(started, action.settings, this.space);
        this.meetAtDo(action, station, after === set ? [set] : [set, after], lane);
        if (lane === 'detour') this.leaveByFirst(action.cannot, set);
        return after;
    }

    /** Hands are there before an action and after it. */
    private meetAtDo(action: DoAction, station: Station, sets: readonly WorldSet[], lane: Lane): void {
        const zones = [...this.zonesOf(action)];
        for (const set of sets) this.meetIn(zones, set, [], { lane, station: station.number, action });
    }

    /** The zones where hands are when something is done. */
    private *zonesOf(action: DoAction): IterableIterator<Limited & { readonly zone: number }> {
        const { unit } = this.space;
        if (action.zone !== undefined) yield { zone: action.zone, guard: undefined };
        for (const part of action.replaces) yield* unit.parts[part]?.zones ?? [];
        if (action.at !== undefined && action.zone === undefined) yield* unit.parts[action.at]?.zones ?? [];
    }

    private ask(action: AskAction, station: Station, set: WorldSet, permits: Permits, lane: Lane): void {
        const { sets, unit } = this.space;
        const asked = sets.and(set, this.builds(unit.tests[action.test]?.guard));
        for (const number of [action.test, ...(unit.tests[action.test]?.readings ?? [])]) {
            const test = unit.tests[number];
            if (!test) continue;
            const there = sets.and(asked, this.builds(test.guard));
            const allowed = test.measures ? permits.filter(({ activity }) => activity === 'measuring') : [];
            this.meetIn(test.zones, there, allowed, { lane, station: station.number, action });
        }
        if (lane === 'told') return;
        for (const exit of [...action.branches, ...action.otherwise, ...action.disagree]) {
            this.leaveByFirst([exit], asked);
        }
        this.leaveByFirst(action.cannotBeRead, asked);
    }

    /** Notes the hazards that zones expose and nothing controls. */
    private meetIn(
        zones: readonly (Limited & { readonly zone: number })[],
        set: WorldSet,
        permits: Permits,
        where: Pick<HazardMet, 'lane'> & Partial<Pick<HazardMet, 'station' | 'action' | 'end' | 'part' | 'repair'>>,
    ): void {
        const { sets, unit } = this.space;
        const { flows } = this.walk.around;
        for (const { zone, guard } of zones) {
            const declared = unit.zones[zone];
            const inZone = sets.and(set, sets.and(this.builds(guard), this.builds(declared?.guard)));
            if (inZone === noWorlds) continue;
            for (const exposure of declared?.exposures ?? []) {
                const open = where.repair ? whereOpened(exposure.while, flows) : flows.where(exposure.while, []);
                let bare = sets.and(inZone, sets.and(this.builds(exposure.guard), open));
                if (bare === noWorlds) continue;
                bare = sets.without(bare, flows.isolated(exposure.hazard));
                for (const { hazard, where: permitted } of permits) {
                    if (hazard === exposure.hazard) bare = sets.without(bare, permitted);
                }
                if (!isPossible(bare, this.space)) continue;
                const { lane, station, action, end, part, repair } = where;
                this.met.push({
                    sort: 'hazard',
                    lane,
                    station,
                    action,
                    end,
                    part,
                    repair,
                    hazard: exposure.hazard,
                    zone,
                    set: bare,
                });
            }
        }
    }

    private atEnd(number: number, set: WorldSet, lane: Lane): void {
        const end = this.route.ends[number];
        if (!end || set === noWorlds) return;
        if (end.written.sort === 'conclusion') this.repair(end, set, lane);
        else this.leave(end, set, lane);
    }

    /** A conclusion closes the gates of its repairs, and repairs every part that it names. */
    private repair(end: RouteEnd, set: WorldSet, lane: Lane): void {
        const { sets, unit } = this.space;
        const done = new Set<string>();
        for (const { fault: number, guard } of end.names) {
            const fault = unit.faults[number];
            const part = fault && unit.parts[fault.part];
            if (!fault || !part) continue;
            let left = sets.and(set, sets.and(this.builds(guard), this.builds(fault.guard)));
            for (const repair of [...end.repairs, ...fault.repairs, ...part.repairs]) {
                const here = sets.and(left, this.builds(repair.guard));
                left = sets.without(left, here);
                const key = `${part.number} ${repair.declaration.start} ${here}`;
                if (here === noWorlds || done.has(key)) continue;
                done.add(key);
                const under = this.underGates(repair.gates, here);
                const at = { lane, end: end.number, part: part.number, repair: repair.declaration };
                this.meetIn(part.zones, under, [], at);
            }
        }
    }

    /** The worlds with some gates closed. */
    private underGates(gates: readonly number[], set: WorldSet): WorldSet {
        const { sets, unit, variables } = this.space;
        return gates.reduce((changed, number) => {
            const gate = unit.gates[number];
            if (!gate) return changed;
            const there = sets.and(changed, this.builds(gate.guard));
            const closed = gate.controls.length > 0 ? sets.assign(there, variables.gates[number] ?? 0, 1) : there;
            return sets.or(this.applyElements(closed, gate.closing), sets.without(changed, this.builds(gate.guard)));
        }, set);
    }

    /** A referral hands the unit back as it was found, but for what it says that it leaves. */
    private leave(end: RouteEnd, set: WorldSet, lane: Lane): void {
        const { sets, unit, variables } = this.space;
        const closedHere = (this.closedAt[end.number] ??= new Set());
        for (const { number } of unit.gates) {
            let closed = sets.and(set, sets.is(variables.gates[number] ?? 0, 1));
            if (isPossible(closed, this.space)) closedHere.add(number);
            for (const { gate, guard } of end.leavesGates) {
                if (gate === number) closed = sets.without(closed, this.builds(guard));
            }
            this.leftBehind({ lane, end: end.number, gate: number, condition: undefined, value: undefined }, closed);
        }
        for (const { number, guard, declaration } of unit.conditions) {
            const there = sets.and(set, this.builds(guard));
            for (let value = 1; value < declaration.values.length; value += 1) {
                let changed = sets.and(there, sets.is(variables.conditions[number] ?? 0, value));
                for (const { condition, value: allowed, guard: inBuilds } of end.leavesConditions) {
                    if (condition === number && allowed === value) {
                        changed = sets.without(changed, this.builds(inBuilds));
                    }
                }
                this.leftBehind({ lane, end: end.number, gate: undefined, condition: number, value }, changed);
            }
        }
    }

    private leftBehind(what: Omit<LeftBehind, 'sort' | 'set'>, set: WorldSet): void {
        if (isPossible(set, this.space)) this.left.push({ sort: 'left', ...what, set });
    }
}
