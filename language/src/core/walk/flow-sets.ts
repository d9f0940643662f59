// Flows and states as sets of worlds: where a flow is dead, what is felt in it, and in which worlds a state holds.

import type { StateCondition, UnitChain, UnitElementOfFlow, UnitFlow, UnitPlace } from '../meaning/unit.js';
import { whereTaken } from './noted.js';
import { type Effects, joinEffects, noEffects, stopping } from './effects.js';
import {
    type BackwardEffects,
    chainExists,
    evaluateBackward,
    evaluateFlow,
    type FlowEffects,
    type FlowQuestions,
    quietFlow,
} from './flow-effects.js';
import { influencesOf, placesIn, placesWithBuilds, type PointOfTest, pointsOf, usesFlowing } from './flow-places.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

interface DeadFlow {
    readonly end: WorldSet;
    readonly points: ReadonlyMap<UnitElementOfFlow, WorldSet>;
}

/** The flows of one unit. All answers are kept. */
export class FlowSets {
    private readonly effects = new Map<string, FlowEffects>();
    private readonly backward = new Map<string, BackwardEffects>();
    private readonly behindOf = new Map<string, Effects>();
    private readonly dead = new Map<string, DeadFlow>();
    private readonly influences: readonly ReadonlySet<number>[];
    private readonly drawing: readonly ReadonlySet<number>[];
    private readonly pointsOfTests: readonly (readonly PointOfTest[])[];
    private readonly continuedBy: readonly (readonly number[])[];
    private readonly bypasses = new Map<number, WorldSet>();
    private readonly held = new Map<number, WorldSet>();
    private readonly runningOf = new Map<string, WorldSet>();
    private readonly open = new Set<string>();
    /** How often a flow was met within itself. */
    private circles = 0;

    constructor(readonly space: WalkSpace) {
        const { unit } = space;
        this.influences = influencesOf(unit.flows);
        this.pointsOfTests = pointsOf(space);
        this.continuedBy = unit.flows.map(({ number }) =>
            unit.flows
                .filter(({ chain }) => placesIn(chain).some(place => place.flow === number))
                .map(one => one.number),
        );
        this.drawing = unit.flows.map(({ number }) => this.drawnFrom(number));
    }

    /** Every fault that can be felt in a flow, from its start or back from flows that continue it. */
    influence(flow: number): ReadonlySet<number> {
        return new Set([...(this.influences[flow] ?? []), ...(this.drawing[flow] ?? [])]);
    }

    /** The faults that load or short what continues a flow, at any distance. */
    private drawnFrom(flow: number): ReadonlySet<number> {
        const found = new Set<number>();
        const outer = new Set(this.continuedBy[flow]);
        // The loop also visits what it adds.
        for (const other of outer) {
            for (const next of this.continuedBy[other] ?? []) outer.add(next);
            for (const { faults } of placesIn(this.space.unit.flows[other]?.chain ?? [])) {
                for (const { fault } of faults) if (drawsTooMuch(this.space, fault)) found.add(fault);
            }
        }
        return found;
    }

    /** What is done at each place of a flow, its own faults and what is fed into it, where it is not bypassed. */
    atPlaces(flow: number, faults: readonly number[]): ReadonlyMap<UnitPlace, Effects> {
        return this.effectsOf(flow, faults).places;
    }

    /** The builds that have a flow. */
    exists(flow: number): WorldSet {
        return buildsWhere(this.space.unit.flows[flow]?.guard, this.space);
    }

    /** The worlds in which a closed gate holds a hazard. */
    gateHeld(hazard: number): WorldSet {
        let held = this.held.get(hazard);
        if (held === undefined) {
            const { sets, unit, variables } = this.space;
            held = noWorlds;
            for (const gate of unit.gates) {
                for (const control of gate.controls) {
                    if (control.hazard !== hazard) continue;
                    const closed = sets.is(variables.gates[gate.number] ?? 0, 1);
                    held = sets.or(held, sets.and(closed, buildsWhere(control.guard, this.space)));
                }
            }
            this.held.set(hazard, held);
        }
        return held;
    }

    /** The worlds in which a hazard is under control, made safe, or not there. */
    isolated(hazard: number): WorldSet {
        const { sets, unit, variables } = this.space;
        const absent = sets.not(buildsWhere(unit.hazards[hazard]?.guard, this.space));
        const safe = sets.is(variables.hazards[hazard] ?? 0, 1);
        return sets.or(absent, sets.or(this.gateHeld(hazard), safe));
    }

    /** The worlds in which a state holds, with these faults present. */
    where(state: StateCondition | undefined, faults: readonly number[]): WorldSet {
        if (!state) return allWorlds;
        const { sets, unit, variables } = this.space;
        switch (state.sort) {
            case 'value': {
                const exists = buildsWhere(unit.conditions[state.condition]?.guard, this.space);
                return sets.and(exists, sets.is(variables.conditions[state.condition] ?? 0, state.value));
            }
            case 'isolated':
                return this.isolated(state.hazard);
            case 'zones isolated':
                return state.zones.reduce<WorldSet>(
                    (all, { zone, guard }) =>
                        sets.without(all, sets.and(buildsWhere(guard, this.space), this.exposed(zone, faults))),
                    allWorlds,
                );
            case 'flowing': {
                const stops = stopping(this.effectsOf(state.flow, faults).end, sets);
                return sets.without(this.exists(state.flow), sets.or(stops, this.deadEnd(state.flow, faults)));
            }
            case 'taken':
                return whereTaken(state.test, this.space);
            case 'not':
                return sets.not(this.where(state.operand, faults));
            case 'all':
                return state.operands.reduce<WorldSet>((all, one) => sets.and(all, this.where(one, faults)), allWorlds);
            case 'any':
                return state.operands.reduce<WorldSet>((any, one) => sets.or(any, this.where(one, faults)), noWorlds);
        }
    }

    /** The worlds in which a zone exposes a hazard that is not under control. */
    private exposed(zone: number, faults: readonly number[]): WorldSet {
        const { sets, unit } = this.space;
        const declared = unit.zones[zone];
        let exposed: WorldSet = noWorlds;
        for (const exposure of declared?.exposures ?? []) {
            const here = sets.and(buildsWhere(exposure.guard, this.space), this.where(exposure.while, faults));
            exposed = sets.or(exposed, sets.without(here, this.isolated(exposure.hazard)));
        }
        return sets.and(exposed, buildsWhere(declared?.guard, this.space));
    }

    /** The worlds in which a flow carries nothing at its end, whatever the faults do to it. */
    deadEnd(flow: number, present: readonly number[]): WorldSet {
        return this.deadness(flow, present).end;
    }

    /** What the faults do to a flow. */
    effectsOf(flow: number, faults: readonly number[]): FlowEffects {
        const influence = this.influences[flow];
        const relevant = faults.filter(fault => influence?.has(fault));
        const declared = this.space.unit.flows[flow];
        if (!declared || relevant.length === 0) return quietFlow;
        return this.once(this.effects, `effects ${flow} ${relevant.join()}`, quietFlow, () =>
            evaluateFlow(declared, this.questions(relevant)),
        );
    }

    /** Looks at something once. Where it is being looked at already, in a circle of flows, it gives nothing. */
    private once<T>(known: Map<string, T>, key: string, nothing: T, look: () => T): T {
        if (this.open.has(key)) {
            this.circles += 1;
            return nothing;
        }
        return this.kept(known, key, () => {
            this.open.add(key);
            const made = look();
            this.open.delete(key);
            return made;
        });
    }

    /** Keeps what is found. What a circle has cut short holds only for the way there; where many do, it would never end. */
    private kept<T>(known: Map<string, T>, key: string, look: () => T): T {
        const found = known.get(key);
        if (found !== undefined) return found;
        const before = this.circles;
        const made = look();
        const cut = this.circles - before;
        if (cut === 0 || cut > mostCircles) known.set(key, made);
        return made;
    }

    /** Loads and shorts behind a point, as they are felt before their places. States go by the faults that are present. */
    private backwardOf(flow: number, faults: readonly number[], present: readonly number[]): BackwardEffects {
        const influence = this.influences[flow];
        const relevant = faults.filter(fault => drawsTooMuch(this.space, fault));
        const declared = this.space.unit.flows[flow];
        const continuing = this.continuedBy[flow] ?? [];
        if (!declared || relevant.length === 0) return quietBackward;
        if (continuing.length === 0 && !relevant.some(fault => influence?.has(fault))) return quietBackward;
        return this.kept(this.backward, this.backKey('back', flow, relevant, present), () => {
            const { own } = this.effectsOf(flow, relevant);
            const behind = this.behind(flow, relevant, present);
            return evaluateBackward(declared, own, behind, this.questions(relevant, present));
        });
    }

    /** What comes back into the end of a flow from those that continue it. */
    behind(flow: number, faults: readonly number[], present: readonly number[]): Effects {
        const continuing = this.continuedBy[flow] ?? [];
        const relevant = faults.filter(fault => drawsTooMuch(this.space, fault));
        if (continuing.length === 0 || relevant.length === 0) return noEffects;
        return this.once(this.behindOf, this.backKey('behind', flow, relevant, present), noEffects, () => {
            let behind = noEffects;
            for (const other of continuing) {
                const from = this.backwardOf(other, relevant, present).onward.get(flow) ?? noEffects;
                behind = joinEffects(behind, limited(from, this.exists(other), this.space), this.space.sets);
            }
            return behind;
        });
    }

    private backKey(sort: string, flow: number, relevant: readonly number[], present: readonly number[]): string {
        return `${sort} ${flow} ${relevant.join()} ${usesFlowing(this.space) ? present.join() : ''}`;
    }

    private questions(faults: readonly number[], present: readonly number[] = faults): FlowQuestions {
        return {
            space: this.space,
            faults: new Set(faults),
            whenHolds: place => this.where(place.when, present),
            other: flow => this.effectsOf(flow, faults),
            bypassed: part => this.bypassed(part),
        };
    }

    /** The worlds in which the present value of a condition bypasses a part. */
    bypassed(part: number): WorldSet {
        let bypassed = this.bypasses.get(part);
        if (bypassed === undefined) {
            const { unit } = this.space;
            bypassed = noWorlds;
            for (const condition of unit.conditions) {
                condition.bypasses.forEach((parts, value) => {
                    if (!parts.includes(part)) return;
                    const state = { sort: 'value', condition: condition.number, value } as const;
                    bypassed = this.space.sets.or(bypassed ?? noWorlds, this.where(state, []));
                });
            }
            this.bypasses.set(part, bypassed);
        }
        return bypassed;
    }

    /** What a test sees at its points: the effects of some faults, and where there is nothing to feel. */
    atPoints(
        test: number,
        faults: readonly number[],
        present: readonly number[],
    ): { effects: Effects; dead: WorldSet } {
        const { sets } = this.space;
        const points = (this.pointsOfTests[test] ?? []).map(({ flow, point, exists }) => ({
            exists,
            dead: this.deadness(flow, present).points.get(point) ?? noWorlds,
            effects: joinEffects(
                this.effectsOf(flow, faults).points.get(point) ?? noEffects,
                this.backwardOf(flow, faults, present).points.get(point) ?? noEffects,
                sets,
            ),
        }));
        const there = points.reduce<WorldSet>((any, { exists }) => sets.or(any, exists), noWorlds);
        const allDead = points.reduce<WorldSet>(
            (all, { exists, dead }) => sets.without(all, sets.without(exists, dead)),
            there,
        );
        let effects = noEffects;
        for (const point of points) {
            const felt = sets.and(point.exists, sets.or(allDead, sets.not(point.dead)));
            effects = joinEffects(effects, limited(point.effects, felt, this.space), sets);
        }
        return { effects, dead: allDead };
    }

    /** Whether a test has a point in any flow. */
    hasPoints(test: number): boolean {
        return (this.pointsOfTests[test] ?? []).length > 0;
    }

    private deadness(flow: number, present: readonly number[]): DeadFlow {
        // Only a state such as `power flowing` makes deadness depend on the faults.
        const relevant = usesFlowing(this.space) ? present : [];
        const declared = this.space.unit.flows[flow];
        if (!declared) return aliveFlow;
        return this.once(this.dead, `dead ${flow} ${relevant.join()}`, aliveFlow, () => {
            const points = new Map<UnitElementOfFlow, WorldSet>();
            const start = this.space.sets.not(this.where(declared.when, relevant));
            return { end: this.deadAlong(declared, declared.chain, start, points, relevant), points };
        });
    }

    private deadAlong(
        flow: UnitFlow,
        chain: UnitChain,
        start: WorldSet,
        points: Map<UnitElementOfFlow, WorldSet>,
        faults: readonly number[],
    ): WorldSet {
        const { sets } = this.space;
        let dead = start;
        for (const element of chain) {
            const exists = buildsWhere(element.guard, this.space);
            if (element.sort === 'point') points.set(element, dead);
            else if (element.sort === 'place') {
                dead = sets.or(dead, sets.and(exists, this.deadAt(flow, element, faults)));
            } else {
                let there: WorldSet = noWorlds;
                let some: WorldSet = noWorlds;
                let alive: WorldSet = noWorlds;
                for (const inner of element.chains) {
                    const here = sets.and(exists, chainExists(inner, this.space));
                    const within = this.deadAlong(flow, inner, dead, points, faults);
                    there = sets.or(there, here);
                    some = sets.or(some, sets.and(here, within));
                    alive = sets.or(alive, sets.without(here, within));
                }
                dead = sets.or(dead, element.join === 'and' ? some : sets.without(there, alive));
            }
        }
        return dead;
    }

    /** The worlds in which a place passes nothing on, although no fault is there. */
    private deadAt(flow: UnitFlow, place: UnitPlace, faults: readonly number[]): WorldSet {
        const { sets, unit } = this.space;
        let dead = sets.not(this.where(place.when, faults));
        if (place.hazard !== undefined) dead = sets.or(dead, this.gateHeld(place.hazard));
        if (place.flow !== undefined) dead = sets.or(dead, this.deadEnd(place.flow, faults));
        if (place.part === undefined) return dead;
        const carries = unit.parts[place.part]?.carries;
        if (carries !== undefined) dead = sets.or(dead, this.gateHeld(carries));
        for (const feed of flow.fedBy) {
            if (feed.part !== place.part) continue;
            dead = sets.or(dead, sets.and(buildsWhere(feed.guard, this.space), this.deadEnd(feed.from, faults)));
        }
        return sets.without(dead, this.bypassed(place.part));
    }

    /** The worlds in which the equipment runs so that a fault of this part can act. */
    running(part: number, faults: readonly number[]): WorldSet {
        const key = usesFlowing(this.space) ? `${part}:${faults.join(',')}` : String(part);
        let running = this.runningOf.get(key);
        if (running === undefined) {
            running = this.findRunning(part, faults);
            this.runningOf.set(key, running);
        }
        return running;
    }

    private findRunning(part: number, faults: readonly number[]): WorldSet {
        const { sets, unit } = this.space;
        let onFlow: WorldSet = noWorlds;
        let alive: WorldSet = noWorlds;
        for (const flow of unit.flows) {
            const here = placesWithBuilds(flow.chain, this.space).filter(({ place }) => place.part === part);
            if (here.length === 0) continue;
            const stands = here.reduce<WorldSet>((any, { exists }) => sets.or(any, exists), noWorlds);
            const there = sets.and(this.exists(flow.number), stands);
            onFlow = sets.or(onFlow, there);
            alive = sets.or(alive, sets.without(there, this.deadEnd(flow.number, faults)));
        }
        return sets.or(alive, sets.not(onFlow));
    }
}

/** More ways round than any equipment has whose flows feed each other by mistake. */
const mostCircles = 200;

const aliveFlow: DeadFlow = { end: noWorlds, points: new Map() };

const quietBackward: BackwardEffects = { points: new Map(), onward: new Map() };

function limited(effects: Effects, within: WorldSet, { sets }: WalkSpace): Effects {
    return effects.map(set => sets.and(set, within));
}

function drawsTooMuch({ unit }: WalkSpace, fault: number): boolean {
    return unit.faults[fault]?.effects.some(({ effect }) => effect === 'loads' || effect === 'shorts') ?? false;
}
