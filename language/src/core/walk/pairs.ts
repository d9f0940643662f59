// Two faults at once: which pairs end at a conclusion that repairs neither.

import { arrivalsWith } from './arrivals.js';
import type { Crowd } from './changes.js';
import { namesFault } from './judge.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { isPossible } from './space.js';
import { type RouteWalk, walkCrowds, type WalkSignal } from './walk-route.js';

/** A pair of faults that ends at a conclusion which names neither of them. */
export interface WrongPair {
    readonly end: number;
    readonly crowd: Crowd;
}

export interface PairsWalked {
    /** How many pairs bring the complaint. */
    readonly pairs: number;
    readonly wrong: readonly WrongPair[];
}

/** Walks every pair of faults of which neither causes the other. Undefined when the signal says to stop. */
export function walkPairs(walk: RouteWalk, signal: WalkSignal): PairsWalked | undefined {
    const { route, order, around, answers } = walk;
    const { unit, sets } = around.space;
    const wrong: WrongPair[] = [];
    let pairs = 0;
    for (const one of unit.faults) {
        if (signal.aborted) return undefined;
        for (const other of unit.faults.slice(one.number + 1)) {
            if (isCausedBy(one.number, other.number, walk) || isCausedBy(other.number, one.number, walk)) continue;
            const crowds = arrivalsWith([one.number, other.number], route, around, answers).filter(({ set }) =>
                isPossible(set, around.space),
            );
            if (crowds.length === 0) continue;
            pairs += 1;
            const ends = walkCrowds(route, order, around, answers, crowds);
            ends.forEach((arrived, number) => {
                const end = route.ends[number];
                if (end?.written.sort !== 'conclusion') return;
                for (const [presence, set] of arrived) {
                    const crowd = around.presences.at(presence);
                    const named = crowd.present.reduce<WorldSet>(
                        (any, fault) => sets.or(any, namesFault(end, fault, around.space)),
                        noWorlds,
                    );
                    const left = sets.without(set, named);
                    if (isPossible(left, around.space)) {
                        wrong.push({ end: number, crowd: { presence: crowd, set: left } });
                    }
                }
            });
        }
    }
    return { pairs, wrong };
}

function isCausedBy(cause: number, fault: number, { around }: RouteWalk): boolean {
    const { faults } = around.space.unit;
    const seen = new Set([cause]);
    for (const one of seen) for (const next of faults[one]?.causes ?? []) seen.add(next.fault);
    return seen.has(fault);
}
