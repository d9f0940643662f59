// Which worlds end rightly: the end names the fault that they arrived with, and the effects of it that are still there.

import type { RouteEnd } from '../meaning/route.js';
import type { Crowd } from './changes.js';
import type { Presence } from './presence.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, isPossible, type WalkSpace } from './space.js';
import type { RouteWalk } from './walk-route.js';

/** Those who come to one end. A crowd may stand in several lists, with the worlds that belong there. */
export interface Judgement {
    readonly end: RouteEnd;
    /** Healthy units. */
    readonly healthy: readonly Crowd[];
    /** The end names all that is wrong with them. */
    readonly right: readonly Crowd[];
    /** It names their fault, and leaves out an effect of it that is still there. */
    readonly partly: readonly Crowd[];
    /** It does not name their fault. */
    readonly unnamed: readonly Crowd[];
}

const known = new WeakMap<RouteWalk, readonly Judgement[]>();

/** The judgement of every end of a tree, in the order of the ends. Worked out once for each walk. */
export function judgementsOf(walk: RouteWalk): readonly Judgement[] {
    let judgements = known.get(walk);
    if (!judgements) {
        judgements = walk.route.ends.map(end => judgeEnd(end, walk));
        known.set(walk, judgements);
    }
    return judgements;
}

function judgeEnd(end: RouteEnd, walk: RouteWalk): Judgement {
    const { space, presences } = walk.around;
    const { sets } = space;
    const judgement = {
        end,
        healthy: [] as Crowd[],
        right: [] as Crowd[],
        partly: [] as Crowd[],
        unnamed: [] as Crowd[],
    };
    const add = (list: Crowd[], presence: Presence, set: WorldSet) => {
        if (isPossible(set, space)) list.push({ presence, set });
    };
    for (const [number, set] of walk.ends[end.number] ?? []) {
        const presence = presences.at(number);
        if (presence.arrival.length === 0) {
            judgement.healthy.push({ presence, set });
            continue;
        }
        const named = whereNamed(presence, end, space);
        const complete = presence.present.reduce<WorldSet>(
            (all, fault) => (presence.arrival.includes(fault) ? all : sets.and(all, namesFault(end, fault, space))),
            allWorlds,
        );
        add(judgement.right, presence, sets.and(set, sets.and(named, complete)));
        add(judgement.partly, presence, sets.without(sets.and(set, named), complete));
        add(judgement.unnamed, presence, sets.without(set, named));
    }
    return judgement;
}

/** The builds in which an end names a fault. */
export function namesFault(end: RouteEnd, fault: number, space: WalkSpace): WorldSet {
    return end.names.reduce<WorldSet>(
        (any, name) => (name.fault === fault ? space.sets.or(any, buildsWhere(name.guard, space)) : any),
        noWorlds,
    );
}

/** The builds in which an end names what a world arrived with: the fault, or its part where that has been replaced. */
function whereNamed({ arrival, replaced }: Presence, end: RouteEnd, space: WalkSpace): WorldSet {
    const { sets, unit } = space;
    return arrival.reduce<WorldSet>((all, fault) => {
        let named = namesFault(end, fault, space);
        if (replaced) {
            const part = unit.faults[fault]?.part;
            for (const other of unit.parts[part ?? -1]?.faults ?? []) {
                const there = buildsWhere(unit.faults[other]?.guard, space);
                named = sets.or(named, sets.and(namesFault(end, other, space), there));
            }
        }
        return sets.and(all, named);
    }, allWorlds);
}
