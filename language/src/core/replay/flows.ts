// What the faults do to the flows, from the start of each chain to its end.

import type { PartialBuild } from '../builds/evaluate.js';
import type { ShownEffect, UnitChain, UnitElementOfFlow, UnitFault, UnitFlow, UnitPlace } from '../meaning/unit.js';
import type { Effect } from '../model/equipment.js';
import { type Effects, joined, lookAlong, lookOnce, noEffects, type Situation, type View } from './situation.js';
import { exists } from './world.js';

export type UnitPoint = Extract<UnitElementOfFlow, { sort: 'point' }>;
export type UnitGroup = Extract<UnitElementOfFlow, { sort: 'group' }>;

/** Is told what there is at a test point. */
export type AtPoint<T> = (point: UnitPoint, found: T) => void;

/** The effects at the end of a flow; none where the build does not have it. */
export function effectsAtEnd(flow: UnitFlow | undefined, view: View): Effects {
    if (!flow || !exists(flow.guard, view.build)) return noEffects;
    return lookOnce(view.ends, flow.number, noEffects, () => effectsAlong(flow.chain, noEffects, flow, view));
}

/** The effects at each point of a flow that exists. */
export function effectsAtPoints(flow: UnitFlow, view: View): ReadonlyMap<UnitPoint, Effects> {
    const found = new Map<UnitPoint, Effects>();
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
    const feeds = feedsOf(place, flow, view).map(from => effectsAtEnd(from, view));
    return new Set([...joined(...feeds)].map(effect => fed[effect]));
}

/** The flows that feed the part at a place of a flow in this build. */
export function feedsOf(place: UnitPlace, flow: UnitFlow, { unit, build }: Situation): UnitFlow[] {
    return flow.fedBy
        .filter(({ part, guard }) => part === place.part && exists(guard, build))
        .flatMap(({ from }) => unit.flows[from] ?? []);
}

/** Whether a condition, as it is set, bypasses the part at a place. */
export function isBypassed({ part }: UnitPlace, { unit, state }: Situation): boolean {
    return unit.conditions.some(({ number, bypasses }) => {
        const bypassed = bypasses[state.conditions[number] ?? -1];
        return part !== undefined && bypassed !== undefined && bypassed.includes(part);
    });
}

/** The places of a chain that exist, those of its branches included, in the order of the text. */
export function placesIn(chain: UnitChain, build: PartialBuild): UnitPlace[] {
    return chain.flatMap(element => {
        if (!exists(element.guard, build)) return [];
        if (element.sort === 'place') return [element];
        return element.sort === 'group' ? element.chains.flatMap(inner => placesIn(inner, build)) : [];
    });
}

/** Whether a branch has a place in this build; one that has none is left out. */
export function holdsAnything(chain: UnitChain, build: PartialBuild): boolean {
    return placesIn(chain, build).length > 0;
}
