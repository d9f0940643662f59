// What the flows of a unit hold in one build: looked up once for each build, because every question asks for it.

import type { PartialBuild } from '../builds/evaluate.js';
import type { Unit, UnitChain, UnitElementOfFlow, UnitFlow, UnitPlace } from '../meaning/unit.js';
import { exists } from './world.js';

export type UnitPoint = Extract<UnitElementOfFlow, { sort: 'point' }>;
export type UnitGroup = Extract<UnitElementOfFlow, { sort: 'group' }>;

interface Layout {
    readonly places: Map<UnitChain, readonly UnitPlace[]>;
    readonly feeds: Map<UnitPlace, readonly UnitFlow[]>;
    readonly beforeEnds: Map<UnitFlow, BeforeEnd>;
}

/** What lies in a flow and in all flows before it. */
export interface BeforeEnd {
    readonly faults: ReadonlySet<number>;
    /** Whether anything there is said to be so only in some states. */
    readonly hasStates: boolean;
}

const layouts = new WeakMap<PartialBuild, Layout>();

function layoutOf(build: PartialBuild): Layout {
    let layout = layouts.get(build);
    if (!layout) {
        layout = { places: new Map(), feeds: new Map(), beforeEnds: new Map() };
        layouts.set(build, layout);
    }
    return layout;
}

/** The places of a chain that exist, those of its branches included, in the order of the text. */
export function placesIn(chain: UnitChain, build: PartialBuild): readonly UnitPlace[] {
    const { places } = layoutOf(build);
    let found = places.get(chain);
    if (!found) {
        found = chain.flatMap(element => {
            if (!exists(element.guard, build)) return [];
            if (element.sort === 'place') return [element];
            return element.sort === 'group' ? element.chains.flatMap(inner => placesIn(inner, build)) : [];
        });
        places.set(chain, found);
    }
    return found;
}

/** Whether a branch has a place in this build; one that has none is left out. */
export function holdsAnything(chain: UnitChain, build: PartialBuild): boolean {
    return placesIn(chain, build).length > 0;
}

/** The flows that feed the part at a place of a flow. */
export function feedsOf(place: UnitPlace, flow: UnitFlow, unit: Unit, build: PartialBuild): readonly UnitFlow[] {
    const { feeds } = layoutOf(build);
    let found = feeds.get(place);
    if (!found) {
        found = flow.fedBy
            .filter(({ part, guard }) => part === place.part && exists(guard, build))
            .flatMap(({ from }) => unit.flows[from] ?? []);
        feeds.set(place, found);
    }
    return found;
}

/**
 * What can make a difference at the end of a flow, at most: a fault that does not lie before it is not felt there, and
 * where no state is said before it, only a closed gate takes the energy away.
 */
export function beforeEndOf(flow: UnitFlow, unit: Unit, build: PartialBuild): BeforeEnd {
    const { beforeEnds } = layoutOf(build);
    let found = beforeEnds.get(flow);
    if (!found) {
        found = lookBeforeEnd(flow, unit, build);
        beforeEnds.set(flow, found);
    }
    return found;
}

function lookBeforeEnd(end: UnitFlow, unit: Unit, build: PartialBuild): BeforeEnd {
    const faults = new Set<number>();
    let hasStates = false;
    const flows = new Set([end]);
    // The loop also visits what it adds.
    for (const flow of flows) {
        hasStates ||= flow.when !== undefined;
        for (const place of placesIn(flow.chain, build)) {
            hasStates ||= place.when !== undefined;
            for (const { fault } of place.faults) faults.add(fault);
            const standing = place.flow === undefined ? undefined : unit.flows[place.flow];
            if (standing) flows.add(standing);
            for (const from of feedsOf(place, flow, unit, build)) flows.add(from);
        }
    }
    return { faults, hasStates };
}
