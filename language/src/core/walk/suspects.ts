// Who stands at a place of a tree, and how likely: the suspects among those who arrive with the complaint.

import type { UnitFault } from '../meaning/unit.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, isPossible } from './space.js';
import type { Crowds, RouteWalk } from './walk-route.js';
import { weightsOf } from './weights.js';

/** One that may be here. */
export interface Suspect {
    /** Undefined for the healthy unit. */
    readonly fault: UnitFault | undefined;
    /** How likely it is this one among all who are here, from 0 to 1. */
    readonly chance: number;
}

/** Those who come to one place of a tree. */
export interface Suspects {
    /** The likeliest first, then in the order of the text, the healthy unit last. Their chances add to 1. */
    readonly suspects: readonly Suspect[];
    /** How many of those who arrive at the tree come here, from 0 to 1. */
    readonly chance: number;
}

/**
 * The suspects among some crowds of a walk, by Bayes' rule: a fault weighs its rate in the worlds that are here, and the
 * healthy unit so much that among all who arrive its share is that of the mistaken complaints. With `within` only some
 * builds count, on arrival as well as here. Where nobody who is here has any weight, they are all equally likely.
 */
export function suspectsAt(walk: RouteWalk, crowds: Crowds, within: WorldSet = allWorlds): Suspects {
    const { presences, space } = walk.around;
    const { sets, unit } = space;
    const rateOf = (fault: number, set: WorldSet) => weightsOf(space).rate(fault, set);
    const arriving = byFault(
        walk.arrivals.map(({ presence, set }) => [presence.arrival, sets.and(set, within)]),
        walk,
    );
    const here = byFault(
        [...crowds].map(([number, set]) => [presences.at(number).arrival, sets.and(set, within)]),
        walk,
    );
    const arrivingRate = sumOf([...arriving.faults], ([fault, set]) => rateOf(fault, set));
    const healthy = healthyWeight(arrivingRate, mistakenIn(walk, within));
    const weighed: { readonly fault: UnitFault | undefined; readonly weight: number }[] = [];
    for (const [number, set] of [...here.faults].sort(([one], [other]) => one - other)) {
        const fault = unit.faults[number];
        if (fault) weighed.push({ fault, weight: healthy.faults * rateOf(number, set) });
    }
    if (here.healthy !== noWorlds) {
        const weights = weightsOf(space);
        const all = weights.share(arriving.healthy);
        const part = all === 0 ? 0 : weights.share(here.healthy) / all;
        weighed.push({ fault: undefined, weight: healthy.weight * part });
    }
    const sum = sumOf(weighed, ({ weight }) => weight);
    const suspects = weighed.map(({ fault, weight }) => ({
        fault,
        chance: sum === 0 ? 1 / weighed.length : weight / sum,
    }));
    const all = healthy.faults * arrivingRate + healthy.weight;
    return { suspects: likeliestFirst(suspects), chance: all === 0 ? 0 : sum / all };
}

/** Worlds by the one fault that they arrived with. A world is in its set once, whatever has become of it on the way. */
interface ByFault {
    readonly faults: ReadonlyMap<number, WorldSet>;
    readonly healthy: WorldSet;
}

function byFault(arrivals: readonly (readonly [readonly number[], WorldSet])[], { around }: RouteWalk): ByFault {
    const { space } = around;
    const { sets } = space;
    const faults = new Map<number, WorldSet>();
    let healthy: WorldSet = noWorlds;
    for (const [arrival, set] of arrivals) {
        if (!isPossible(set, space)) continue;
        const [fault, second] = arrival;
        if (fault === undefined) healthy = sets.or(healthy, set);
        // Two faults at once have no rate of their own.
        else if (second === undefined) faults.set(fault, sets.or(faults.get(fault) ?? noWorlds, set));
    }
    return { faults, healthy };
}

/** The largest share of mistaken complaints that is said for some of the builds. */
function mistakenIn({ route, around }: RouteWalk, within: WorldSet): number {
    const { space } = around;
    const shares = route.complaints
        .filter(({ guard }) => isPossible(space.sets.and(within, buildsWhere(guard, space)), space))
        .map(({ mistaken }) => mistaken);
    return Math.min(1, Math.max(0, ...shares));
}

/** What the healthy unit weighs beside faults of this rate; where nobody but it can come, they weigh nothing. */
function healthyWeight(rate: number, mistaken: number): { readonly weight: number; readonly faults: number } {
    if (mistaken === 0) return { weight: 0, faults: 1 };
    if (mistaken === 1 || rate === 0) return { weight: 1, faults: 0 };
    return { weight: (rate * mistaken) / (1 - mistaken), faults: 1 };
}

function sumOf<T>(items: readonly T[], amount: (item: T) => number): number {
    return items.reduce((sum, item) => sum + amount(item), 0);
}

function likeliestFirst(suspects: readonly Suspect[]): Suspect[] {
    // The same chance worked out in two ways may differ in its last digits, and must not change the order.
    const rounded = (chance: number) => Number(chance.toPrecision(12));
    return [...suspects].sort((one, other) => rounded(other.chance) - rounded(one.chance));
}
