// What the faults do to the flows, from the start of each chain to its end.

import type { PartialBuild } from '../builds/evaluate.js';
import type { ShownEffect, UnitChain, UnitFault, UnitFlow, UnitPlace } from '../meaning/unit.js';
import type { Effect } from '../model/equipment.js';
import { beforeEndOf, feedsOf, holdsAnything, type UnitGroup, type UnitPoint } from './layout.js';
import { type Effects, joined, lookAlong, lookOnce, noEffects, type Situation, type View } from './situation.js';
import { exists } from './world.js';

/** Is told what there is at a test point. */
export type AtPoint<T> = (point: UnitPoint, found: T) => void;

/** The effects at the end of a flow; none where the build does not have it. */
export function effectsAtEnd(flow: UnitFlow | undefined, view: View): Effects {
    if (!flow || !exists(flow.guard, view.build)) return noEffects;
    if (!isFelt(flow, view)) return noEffects;
    return lookOnce(view.ends, flow.number, noEffects, () => effectsAlong(flow.chain, noEffects, flow, view));
}

/** Whether any of the faults lies in a flow or in those before it. */
function isFelt(flow: UnitFlow, { faults, unit, build }: View): boolean {
    const before = beforeEndOf(flow, unit, build);
    return [...faults].some(fault => before.faults.has(fault));
}

/** The effects at each point of a flow that exists; at those that are left out there are none. */
export function effectsAtPoints(flow: UnitFlow, view: View): ReadonlyMap<UnitPoint, Effects> {
    const found = new Map<UnitPoint, Effects>();
    if (!isFelt(flow, view)) return found;
    lookAlong(view.ends, flow.number, () => {
        effectsAlong(flow.chain, noEffects, flow, view, (point, effects) => found.set(point, effects));
    });
    return found;
}

/** The effects at some places of a flow that exists. */
export function effectsAtPlaces(places: readonly UnitPlace[], flow: UnitFlow, view: View): Effects {
    let effects = noEffects;
    lookAlong(view.ends, flow.number, () => {
        effects = joined(...places.map(place => effectsAt(place, flow, view)));
    });
    return effects;
}

/** What a chain adds. `before` is what comes into it: only its points see that, because branches are joined without it. */
function effectsAlong(
    chain: UnitChain,
    before: Effects,
    flow: UnitFlow,
    view: View,
    atPoint?: AtPoint<Effects>,
): Effects {
    let effects = noEffects;
    for (const element of chain) {
        if (!exists(element.guard, view.build)) continue;
        const here = joined(before, effects);
        if (element.sort === 'point') atPoint?.(element, here);
        else if (element.sort === 'place') effects = joined(effects, effectsAt(element, flow, view));
        else effects = joined(effects, effectsOfGroup(element, here, flow, view, atPoint));
    }
    return effects;
}

function effectsOfGroup(
    group: UnitGroup,
    before: Effects,
    flow: UnitFlow,
    view: View,
    atPoint?: AtPoint<Effects>,
): Effects {
    const branches: Effects[] = [];
    for (const chain of group.chains) {
        const effects = effectsAlong(chain, before, flow, view, atPoint);
        if (holdsAnything(chain, view.build)) branches.push(effects);
    }
    return joinBranches(group.join, branches);
}

function joinBranches(join: UnitGroup['join'], branches: readonly Effects[]): Effects {
    const all = joined(...branches);
    if (join === 'and' || branches.length === 0) return all;
    if (branches.every(carriesNothing)) return new Set([...all].filter(isStop));
    const weaker = new Set([...all].filter(effect => !isStop(effect)));
    if (join === 'or') return branches.every(({ size }) => size > 0) ? weaker : noEffects;
    return branches.some(carriesNothing) ? weaker.add('weakened') : weaker;
}

/** Whether something has stopped or shorted. */
export function carriesNothing(effects: Effects): boolean {
    return [...effects].some(isStop);
}

function isStop(effect: ShownEffect): boolean {
    return effect === 'stopped' || effect === 'shorted';
}

/** What a place adds: the faults that belong to it, what is fed into it, or what the flow that stands there carries. */
export function effectsAt(place: UnitPlace, flow: UnitFlow, view: View): Effects {
    if (place.flow !== undefined) return effectsAtEnd(view.unit.flows[place.flow], view);
    if (place.part === undefined || isBypassed(place, view)) return noEffects;
    return joined(ownEffects(place, view), fedEffects(place, flow, view));
}

/** The effects of the faults that belong to a place. */
export function ownEffects(place: UnitPlace, view: View): Effects {
    const here = place.faults.filter(({ fault, guard }) => view.faults.has(fault) && exists(guard, view.build));
    if (here.length === 0) return noEffects;
    return joined(...here.map(({ fault }) => effectsOfFault(view.unit.faults[fault], view.build)));
}

const shown: Readonly<Record<Effect, ShownEffect>> = {
    stops: 'stopped',
    weakens: 'weakened',
    raises: 'raised',
    loads: 'loaded',
    shorts: 'shorted',
};

function effectsOfFault(fault: UnitFault | undefined, build: PartialBuild): Effects {
    const said = (fault?.effects ?? []).filter(({ guard }) => exists(guard, build));
    return new Set(said.length > 0 ? said.map(({ effect }) => shown[effect]) : ['stopped']);
}

const fed: Readonly<Record<ShownEffect, ShownEffect>> = {
    stopped: 'stopped',
    shorted: 'stopped',
    weakened: 'weakened',
    loaded: 'weakened',
    raised: 'raised',
};

function fedEffects(place: UnitPlace, flow: UnitFlow, view: View): Effects {
    let felt = noEffects;
    for (const from of feedsOf(place, flow, view.unit, view.build)) felt = joined(felt, effectsAtEnd(from, view));
    return felt.size === 0 ? noEffects : new Set([...felt].map(effect => fed[effect]));
}

/** Whether a condition, as it is set, bypasses the part at a place. */
export function isBypassed({ part }: UnitPlace, { unit, state }: Situation): boolean {
    if (part === undefined) return false;
    return unit.conditions.some(({ number, bypasses }) => {
        const bypassed = bypasses[state.conditions[number] ?? -1];
        return bypassed !== undefined && bypassed.includes(part);
    });
}
