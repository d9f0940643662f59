// Who meets a hazard that is not under control, and what is left closed or changed at an end.
//
// Hazards depend on builds, conditions, gates and waits, and on no fault. So the worlds that the walk has brought to a station
// are taken together, whatever they arrived with, and everything that makes no difference to a hazard is forgotten first.
// Then the ways are followed that begin where a test cannot be read, an action cannot be done or an answer is unexpected: from
// there on the technician may be answered anything.

import type {
    Action,
    AskAction,
    Destination,
    DoAction,
    ReadAction,
    Route,
    RouteEnd,
    Station,
} from '../meaning/route.js';
import type { InBuilds, Limited } from '../meaning/unit.js';
import { openedZones } from '../meaning/covers.js';
import { permitsTest } from '../meaning/permitted.js';
import { applySettings } from './changes.js';
import { variablesToForget } from './hazard-variables.js';
import { type AtStation, Occasions } from './occasions.js';
import { whereOpened } from './opened.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, forgetterOf, isPossible, onlyMade, type WalkSpace } from './space.js';
import { applyElements, setHazard } from './gate-changes.js';
import type { HazardMet, HazardWalk, Lane, LeftBehind, WhereMet } from './hazards-met.js';
import { startByRestoring, startBySetting } from './starting.js';
import { StationQueue } from './station-queue.js';
import { keepsSomebody, toldActions } from './told-actions.js';
import type { Crowds, RouteWalk } from './walk-route.js';

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
    private readonly occasions: Occasions;
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
        this.occasions = new Occasions(walk.around.flows);
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
            return { met: [], left: [], occasions: [], closedAt: this.closedAt, forgotten: this.forgotten };
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
        const { met, left, closedAt, forgotten } = this;
        return { met, left, occasions: this.occasions.met, closedAt, forgotten };
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
        if (!station || !(this.readsInBetween(station) || keepsSomebody(station, crowds, this.walk))) {
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
            if (action.sort === 'do') {
                this.occasions.atDo(action, set, { lane: 'told', station, action });
                this.meetAtDo(action, { before: set, after: inBuilds(going) }, permits, {
                    lane: 'told',
                    station,
                    action,
                });
            } else this.act(action, station, set, permits, 'told');
        });
    }

    /** Whether a reading before the last action brings something about that it needs. */
    private readsInBetween({ actions }: Station): boolean {
        const { tests } = this.space.unit;
        const brings = (test: number) => tests[test]?.needs.some(({ state }) => state.sort !== 'taken') ?? false;
        return actions.slice(0, -1).some(one => one.sort === 'read' && brings(one.test));
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
                return this.actDo(action, station, set, permits, lane);
            case 'wait': {
                if (action.hazard === undefined) return set;
                const there = sets.and(set, this.builds(unit.hazards[action.hazard]?.guard));
                this.occasions.atWait(action.hazard, there, { lane, station, action });
                const safe = sets.assign(there, variables.hazards[action.hazard] ?? 0, 1);
                return sets.or(safe, sets.without(set, there));
            }
            case 'gate':
            case 'restore':
                return this.useGate(action, set, permits, { lane, station, action });
            case 'read':
                this.read(action, station, set, permits, lane);
                return set;
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

    private useGate(
        action: Extract<Action, { sort: 'gate' | 'restore' }>,
        all: WorldSet,
        permits: Permits,
        at: AtStation,
    ): WorldSet {
        const { sets, unit, variables } = this.space;
        const gate = unit.gates[action.gate];
        if (!gate) return all;
        const set = sets.and(all, this.builds(gate.guard));
        const without = sets.without(all, set);
        const elements = action.sort === 'gate' ? gate.closing : gate.restoring;
        if (action.sort === 'gate') this.occasions.atGate(gate, set, at);
        else this.occasions.atRestore(gate, set, at);
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
                    changed = setHazard(changed, hazard, this.builds(guard), 0, this.space);
                }
            }
        }
        return sets.or(applyElements(changed, elements, this.space), without);
    }

    private actDo(action: DoAction, station: Station, set: WorldSet, permits: Permits, lane: Lane): WorldSet {
        this.occasions.atDo(action, set, { lane, station, action });
        const started = startBySetting(set, action.settings, this.walk.around.flows);
        const after = applySettings(started, action.settings, this.space);
        this.meetAtDo(action, { before: set, after }, permits, { lane, station, action });
        if (lane === 'detour') this.leaveByFirst(action.cannot, set);
        return after;
    }

    /** Hands are there before an action and after it, and behind a cover once it is open. */
    private meetAtDo(
        action: DoAction,
        { before, after }: { readonly before: WorldSet; readonly after: WorldSet },
        permits: Permits,
        { lane, station }: AtStation,
    ): void {
        const zones = [...this.zonesOf(action)];
        const at = { lane, station: station.number, action };
        for (const set of new Set([before, after])) this.meetIn(zones, set, [], at);
        // Whoever may work beside a hazard may open a cover for that.
        for (const { zone, hazards } of openedZones(action, this.space.unit)) {
            this.meetIn([{ zone, guard: undefined }], after, permits, at, hazards);
        }
    }

    /** The zones where hands are when something is done. */
    private *zonesOf(action: DoAction): IterableIterator<Limited & { readonly zone: number }> {
        const { unit } = this.space;
        if (action.zone !== undefined) yield { zone: action.zone, guard: undefined };
        for (const part of action.replaces) yield* unit.parts[part]?.zones ?? [];
        if (action.at !== undefined && action.zone === undefined) yield* unit.parts[action.at]?.zones ?? [];
    }

    private read(action: ReadAction, station: Station, set: WorldSet, permits: Permits, lane: Lane): void {
        const reading = this.meetAtTest(action, station, set, permits, lane);
        if (lane === 'detour') this.leaveByFirst(action.cannotBeRead, reading);
    }

    private ask(action: AskAction, station: Station, set: WorldSet, permits: Permits, lane: Lane): void {
        const asked = this.meetAtTest(action, station, set, permits, lane);
        if (lane === 'told') return;
        for (const exit of [...action.branches, ...action.otherwise, ...action.disagree]) {
            this.leaveByFirst([exit], asked);
        }
        this.leaveByFirst(action.cannotBeRead, asked);
    }

    /** Those who have the test: they come into its zones. */
    private meetAtTest(
        action: AskAction | ReadAction,
        station: Station,
        set: WorldSet,
        permits: Permits,
        lane: Lane,
    ): WorldSet {
        const { sets, unit } = this.space;
        const test = unit.tests[action.test];
        const there = sets.and(set, this.builds(test?.guard));
        if (!test) return there;
        const allowed = permits.filter(({ activity }) => permitsTest(activity, test));
        this.meetIn(test.zones, there, allowed, { lane, station: station.number, action });
        return there;
    }

    /** Notes the hazards that zones expose and nothing controls. */
    private meetIn(
        zones: readonly (Limited & { readonly zone: number })[],
        set: WorldSet,
        permits: Permits,
        where: WhereMet,
        only?: ReadonlySet<number>,
    ): void {
        const { sets, unit } = this.space;
        const { flows } = this.walk.around;
        for (const { zone, guard } of zones) {
            const declared = unit.zones[zone];
            const inZone = sets.and(set, sets.and(this.builds(guard), this.builds(declared?.guard)));
            if (inZone === noWorlds) continue;
            for (const exposure of declared?.exposures ?? []) {
                if (only && !only.has(exposure.hazard)) continue;
                const open = where.repair ? whereOpened(exposure.while, flows) : flows.where(exposure.while, []);
                let bare = sets.and(inZone, sets.and(this.builds(exposure.guard), open));
                if (bare === noWorlds) continue;
                bare = sets.without(bare, flows.isolated(exposure.hazard));
                for (const { hazard, where: permitted } of permits) {
                    if (hazard !== exposure.hazard) continue;
                    this.notePermitted(hazard, sets.and(bare, permitted), where);
                    bare = sets.without(bare, permitted);
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

    private notePermitted(hazard: number, set: WorldSet, { lane, station, action }: WhereMet): void {
        const there = this.route.stations[station ?? -1];
        if (there && action && action.sort !== 'do') {
            this.occasions.permitted(hazard, set, { lane, station: there, action });
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
            return sets.or(
                applyElements(closed, gate.closing, this.space),
                sets.without(changed, this.builds(gate.guard)),
            );
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
