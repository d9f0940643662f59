// Which flows get their energy from which others, in whatever build.

import type { Unit, UnitChain } from './unit.js';

const known = new WeakMap<Unit, readonly ReadonlySet<number>[]>();

/** By flow: every flow that drives a place of it or that it continues, at any distance, itself only where flows feed each other. */
export function upstreamOf(unit: Unit): readonly ReadonlySet<number>[] {
    let upstream = known.get(unit);
    if (!upstream) {
        upstream = findUpstream(unit);
        known.set(unit, upstream);
    }
    return upstream;
}

function findUpstream({ flows }: Unit): readonly ReadonlySet<number>[] {
    const upstream = flows.map(({ chain, fedBy }) => new Set([...fedBy.map(({ from }) => from), ...flowsIn(chain)]));
    for (const before of upstream) {
        // The loop also visits what it adds.
        for (const flow of before) for (const further of upstream[flow] ?? []) before.add(further);
    }
    return upstream;
}

function flowsIn(chain: UnitChain): number[] {
    return chain.flatMap(element => {
        if (element.sort === 'place') return element.flow === undefined ? [] : [element.flow];
        return element.sort === 'group' ? element.chains.flatMap(flowsIn) : [];
    });
}
