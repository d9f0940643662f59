// What stands in the flows of a unit, whatever its worlds are: places, points of tests, and whose faults can be felt where.

import type { StateCondition, UnitChain, UnitElementOfFlow, UnitFlow, UnitPlace } from '../meaning/unit.js';
import { allWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** One point of a test in a flow, with the builds that have it. */
export interface PointOfTest {
    readonly flow: number;
    readonly point: UnitElementOfFlow;
    readonly exists: WorldSet;
}

/** The places of a chain and of its groups, in the order of the text. */
export function placesIn(chain: UnitChain): UnitPlace[] {
    return chain.flatMap(element => {
        if (element.sort === 'place') return [element];
        return element.sort === 'group' ? element.chains.flatMap(placesIn) : [];
    });
}

/** The same places, with the builds that have them and the groups around them. */
export function placesWithBuilds(
    chain: UnitChain,
    space: WalkSpace,
    around: WorldSet = allWorlds,
): { readonly place: UnitPlace; readonly exists: WorldSet }[] {
    return chain.flatMap(element => {
        const exists = space.sets.and(around, buildsWhere(element.guard, space));
        if (element.sort === 'place') return [{ place: element, exists }];
        return element.sort === 'group' ? element.chains.flatMap(inner => placesWithBuilds(inner, space, exists)) : [];
    });
}

/** For each flow, every fault that can be felt in it: of its own places, and of the flows that feed it or that it continues. */
export function influencesOf(flows: readonly UnitFlow[]): ReadonlySet<number>[] {
    const influences = flows.map(
        ({ chain }) => new Set(placesIn(chain).flatMap(place => place.faults.map(({ fault }) => fault))),
    );
    for (let changed = true; changed;) {
        changed = false;
        for (const flow of flows) {
            const own = influences[flow.number];
            const before = own?.size ?? 0;
            const from = [...flow.fedBy.map(feed => feed.from), ...placesIn(flow.chain).map(place => place.flow)];
            for (const other of from) if (other !== undefined) influences[other]?.forEach(fault => own?.add(fault));
            if ((own?.size ?? 0) > before) changed = true;
        }
    }
    return influences;
}

/** By test, its points in the flows. */
export function pointsOf(space: WalkSpace): PointOfTest[][] {
    const { unit, sets } = space;
    const points: PointOfTest[][] = unit.tests.map(() => []);
    const visit = (flow: number, chain: UnitChain, around: WorldSet): void => {
        for (const element of chain) {
            const exists = sets.and(around, buildsWhere(element.guard, space));
            if (element.sort === 'point') {
                for (const test of element.tests) points[test]?.push({ flow, point: element, exists });
            } else if (element.sort === 'group') {
                for (const inner of element.chains) visit(flow, inner, exists);
            }
        }
    };
    for (const { number, chain, guard } of unit.flows) visit(number, chain, buildsWhere(guard, space));
    return points;
}

const flowingUsed = new WeakMap<WalkSpace, boolean>();

/** Whether any flow or place passes on only while another flow is flowing. */
export function usesFlowing(space: WalkSpace): boolean {
    let used = flowingUsed.get(space);
    if (used === undefined) {
        const asks = (state: StateCondition | undefined): boolean => {
            if (!state) return false;
            if (state.sort === 'not') return asks(state.operand);
            if (state.sort === 'all' || state.sort === 'any') return state.operands.some(asks);
            return state.sort === 'flowing';
        };
        used = space.unit.flows.some(flow => asks(flow.when) || placesIn(flow.chain).some(place => asks(place.when)));
        flowingUsed.set(space, used);
    }
    return used;
}
