// What the faults present do to one flow: at its end, at each of its test points, and anywhere in it.

import type { UnitChain, UnitElementOfFlow, UnitFlow, UnitPlace } from '../meaning/unit.js';
import {
    type BranchEffects,
    type Effects,
    fedEffects,
    isQuiet,
    joinBranches,
    joinEffects,
    limitEffects,
    noEffects,
    placeOfEffect,
} from './effects.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** A flow with some faults present. */
export interface FlowEffects {
    readonly end: Effects;
    /** By test point. */
    readonly points: ReadonlyMap<UnitElementOfFlow, Effects>;
    /** At any place, or fed into one. */
    readonly anywhere: Effects;
    /** What is done at each place that something is done at. */
    readonly places: ReadonlyMap<UnitPlace, Effects>;
    /** What the faults of each place do there, were it not bypassed. */
    readonly own: ReadonlyMap<UnitPlace, Effects>;
}

export const quietFlow: FlowEffects = {
    end: noEffects,
    points: new Map(),
    anywhere: noEffects,
    places: new Map(),
    own: new Map(),
};

/** What an evaluation asks of its surroundings. */
export interface FlowQuestions {
    readonly space: WalkSpace;
    /** The faults that are present. */
    readonly faults: ReadonlySet<number>;
    /** The worlds in which a place with this `when` passes on. */
    readonly whenHolds: (place: UnitPlace) => WorldSet;
    /** Another flow with the same faults. */
    readonly other: (flow: number) => FlowEffects;
    /** The worlds in which a present value of a condition bypasses the part. */
    readonly bypassed: (part: number) => WorldSet;
}

/** Evaluates one flow. */
export function evaluateFlow(flow: UnitFlow, questions: FlowQuestions): FlowEffects {
    const evaluation = new Evaluation(flow, questions);
    const end = evaluation.forward(flow.chain, noEffects);
    const { points, anywhere, places, own } = evaluation;
    return { end, points, anywhere, places, own };
}

/** The worlds that have any place of a chain. */
export function chainExists(chain: UnitChain, space: WalkSpace): WorldSet {
    let exists: WorldSet = noWorlds;
    for (const element of chain) {
        if (element.sort === 'point') continue;
        const here = buildsWhere(element.guard, space);
        const inner =
            element.sort === 'place'
                ? allWorlds
                : element.chains.reduce<WorldSet>((any, one) => space.sets.or(any, chainExists(one, space)), noWorlds);
        exists = space.sets.or(exists, space.sets.and(here, inner));
    }
    return exists;
}

class Evaluation {
    readonly points = new Map<UnitElementOfFlow, Effects>();
    anywhere: Effects = noEffects;
    readonly places = new Map<UnitPlace, Effects>();
    readonly own = new Map<UnitPlace, Effects>();

    constructor(
        private readonly flow: UnitFlow,
        private readonly questions: FlowQuestions,
    ) {}

    /** The effects behind a chain that begins with none; `before` is what the points in it see besides. */
    forward(chain: UnitChain, before: Effects): Effects {
        const { space } = this.questions;
        let effects = noEffects;
        for (const element of chain) {
            if (element.sort === 'point') {
                addTo(this.points, element, joinEffects(before, effects, space.sets), space);
                continue;
            }
            const here = element.sort === 'place' ? this.atPlace(element) : this.atGroup(element, before, effects);
            effects = joinEffects(
                effects,
                limitEffects(here, buildsWhere(element.guard, space), space.sets),
                space.sets,
            );
        }
        return effects;
    }

    private atGroup(group: Extract<UnitElementOfFlow, { sort: 'group' }>, before: Effects, effects: Effects): Effects {
        const { space } = this.questions;
        const seen = joinEffects(before, effects, space.sets);
        const outside = this.anywhere;
        this.anywhere = noEffects;
        const branches = group.chains.map((chain): BranchEffects => ({
            effects: this.forward(chain, seen),
            exists: noWorlds,
        }));
        const inside = limitEffects(this.anywhere, buildsWhere(group.guard, space), space.sets);
        this.anywhere = joinEffects(outside, inside, space.sets);
        if (branches.every(branch => isQuiet(branch.effects))) return noEffects;
        const there = branches.map((branch, index) => ({
            ...branch,
            exists: chainExists(group.chains[index] ?? [], space),
        }));
        return joinBranches(group.join, there, space.sets);
    }

    private atPlace(place: UnitPlace): Effects {
        const { space, bypassed, other } = this.questions;
        let effects = this.ownEffects(place);
        if (place.flow !== undefined) effects = other(place.flow).end;
        if (place.part !== undefined) {
            for (const feed of this.flow.fedBy) {
                if (feed.part !== place.part) continue;
                const fed = fedEffects(other(feed.from).end, space.sets);
                effects = joinEffects(
                    effects,
                    limitEffects(fed, buildsWhere(feed.guard, space), space.sets),
                    space.sets,
                );
            }
            if (!isQuiet(effects)) effects = limitEffects(effects, space.sets.not(bypassed(place.part)), space.sets);
        }
        if (!isQuiet(effects)) {
            const here = limitEffects(effects, buildsWhere(place.guard, space), space.sets);
            this.anywhere = joinEffects(this.anywhere, here, space.sets);
            this.places.set(place, effects);
        }
        return effects;
    }

    /** What the faults of the part do at this place, if nothing bypasses it. */
    private ownEffects(place: UnitPlace): Effects {
        const { space, faults } = this.questions;
        let effects = noEffects;
        for (const { fault, guard } of place.faults) {
            if (!faults.has(fault)) continue;
            const here = limitEffects(faultEffects(fault, space), buildsWhere(guard, space), space.sets);
            effects = joinEffects(effects, here, space.sets);
        }
        this.own.set(place, effects);
        return effects;
    }
}

/** Loads and shorts as they are felt before their places. */
export interface BackwardEffects {
    readonly points: ReadonlyMap<UnitElementOfFlow, Effects>;
    /** What goes on into a flow that this one continues, by that flow's number. */
    readonly onward: ReadonlyMap<number, Effects>;
}

/** Goes back from the end of a flow. `behind` is what the flows that continue it bring. */
export function evaluateBackward(
    flow: UnitFlow,
    own: FlowEffects['own'],
    behind: Effects,
    questions: FlowQuestions,
): BackwardEffects {
    const points = new Map<UnitElementOfFlow, Effects>();
    const onward = new Map<number, Effects>();
    goBack(flow.chain, behind, { own, points, onward, questions, around: allWorlds });
    return { points, onward };
}

interface Backward extends BackwardEffects {
    readonly own: FlowEffects['own'];
    readonly points: Map<UnitElementOfFlow, Effects>;
    readonly onward: Map<number, Effects>;
    readonly questions: FlowQuestions;
    /** The builds that have the groups around the chain. */
    readonly around: WorldSet;
}

/** What is felt before the chain. */
function goBack(chain: UnitChain, behind: Effects, back: Backward): Effects {
    const { space } = back.questions;
    let felt = behind;
    for (const element of [...chain].reverse()) {
        if (element.sort === 'point') addTo(back.points, element, felt, space);
        else if (element.sort === 'place') felt = pastPlace(element, felt, back);
        else felt = pastGroup(element, felt, back);
    }
    return felt;
}

/** Where the group, or all that stands in it, does not exist, what is behind is felt straight through. */
function pastGroup(group: Extract<UnitElementOfFlow, { sort: 'group' }>, behind: Effects, back: Backward): Effects {
    const { space } = back.questions;
    const { sets } = space;
    const exists = buildsWhere(group.guard, space);
    const inside = { ...back, around: sets.and(back.around, exists) };
    let joined = noEffects;
    let there: WorldSet = noWorlds;
    for (const chain of group.chains) {
        const here = sets.and(exists, chainExists(chain, space));
        there = sets.or(there, here);
        joined = joinEffects(
            joined,
            limitEffects(goBack(chain, limitEffects(behind, here, sets), inside), here, sets),
            sets,
        );
    }
    return joinEffects(joined, limitEffects(behind, sets.not(there), sets), sets);
}

function pastPlace(place: UnitPlace, behind: Effects, back: Backward): Effects {
    const { space, bypassed, whenHolds } = back.questions;
    const { sets } = space;
    const own = back.own.get(place) ?? noEffects;
    const [, shorts = noWorlds, , , loads = noWorlds] = own;
    const drawn: Effects = [noWorlds, shorts, noWorlds, noWorlds, loads];
    if (isQuiet(behind) && isQuiet(drawn)) return noEffects;
    const exists = buildsWhere(place.guard, space);
    const past = limitEffects(behind, sets.not(exists), sets);
    if (place.flow !== undefined) {
        const known = back.onward.get(place.flow) ?? noEffects;
        const onward = limitEffects(behind, sets.and(sets.and(back.around, exists), whenHolds(place)), sets);
        back.onward.set(place.flow, joinEffects(known, onward, sets));
        return past;
    }
    const bridged = place.part === undefined ? noWorlds : bypassed(place.part);
    const felt = joinEffects(behind, limitEffects(drawn, sets.not(bridged), sets), sets);
    const barrier = place.barrier.reduce<WorldSet>(
        (any, { guard }) => sets.or(any, buildsWhere(guard, space)),
        noWorlds,
    );
    const passes = sets.without(sets.and(exists, sets.or(bridged, whenHolds(place))), barrier);
    return joinEffects(limitEffects(felt, passes, sets), past, sets);
}

function addTo(
    points: Map<UnitElementOfFlow, Effects>,
    point: UnitElementOfFlow,
    effects: Effects,
    { sets }: WalkSpace,
): void {
    if (!isQuiet(effects)) points.set(point, joinEffects(points.get(point) ?? noEffects, effects, sets));
}

/** The effects of a fault that is present; in builds where none is written it stops its part. */
function faultEffects(number: number, space: WalkSpace): Effects {
    const fault = space.unit.faults[number];
    if (!fault) return noEffects;
    const { sets } = space;
    const effects: WorldSet[] = [...noEffects];
    let said: WorldSet = noWorlds;
    for (const { effect, guard } of fault.effects) {
        const here = buildsWhere(guard, space);
        const place = placeOfEffect[effect];
        effects[place] = sets.or(effects[place] ?? noWorlds, here);
        said = sets.or(said, here);
    }
    const stops = placeOfEffect.stops;
    effects[stops] = sets.or(effects[stops] ?? noWorlds, sets.not(said));
    return effects;
}
