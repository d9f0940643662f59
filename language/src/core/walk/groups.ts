// How many parts an end leaves to choose from, in each build.

import type { RouteEnd } from '../meaning/route.js';
import { namesFault } from './judge.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, isPossible, type WalkSpace } from './space.js';

/** The builds in which an end leaves so many parts to choose from. */
export interface Group {
    readonly parts: number;
    readonly builds: WorldSet;
}

/**
 * The sizes of the group of parts that an end names, each with its builds; the smallest first.
 * Builds in which nothing is named count as one part.
 */
export function groupsOf(end: RouteEnd, space: WalkSpace): Group[] {
    const { sets } = space;
    const [none, one, ...more] = countSets([...partsNamed(end, space).values()], space);
    const counted = [sets.or(none ?? noWorlds, one ?? noWorlds), ...more];
    return counted
        .map((builds, index) => ({ parts: index + 1, builds }))
        .filter(({ builds }) => isPossible(builds, space));
}

/**
 * The parts of the faults that an end names and that exist there, each with its builds. A fault that another named
 * fault causes does not count: it goes with its cause.
 */
export function partsNamed(end: RouteEnd, space: WalkSpace): ReadonlyMap<number, WorldSet> {
    const { sets, unit } = space;
    const named = new Map<number, WorldSet>();
    for (const { fault } of end.names) {
        if (named.has(fault)) continue;
        named.set(fault, sets.and(namesFault(end, fault, space), buildsWhere(unit.faults[fault]?.guard, space)));
    }
    const parts = new Map<number, WorldSet>();
    for (const [fault, builds] of named) {
        const part = unit.faults[fault]?.part ?? -1;
        const alone = sets.without(builds, causedByOthers(fault, named, space));
        parts.set(part, sets.or(parts.get(part) ?? noWorlds, alone));
    }
    return parts;
}

/** For each number, the worlds that lie in exactly so many of the sets; from none to all of them. */
export function countSets(counted: readonly WorldSet[], { sets }: WalkSpace): WorldSet[] {
    let inSo: WorldSet[] = [allWorlds];
    for (const set of counted) {
        inSo = [...inSo, noWorlds].map((worlds, number) =>
            sets.or(sets.without(worlds, set), sets.and(inSo[number - 1] ?? noWorlds, set)),
        );
    }
    return inSo;
}

/** The builds in which a fault is caused, at one or more removes, by another one that is named there. */
function causedByOthers(fault: number, named: ReadonlyMap<number, WorldSet>, space: WalkSpace): WorldSet {
    const { sets } = space;
    let caused: WorldSet = noWorlds;
    for (const [other, builds] of named) {
        if (other !== fault) caused = sets.or(caused, sets.and(builds, whereCauses(other, fault, space)));
    }
    return caused;
}

/** The builds in which one fault causes another, at one or more removes. */
function whereCauses(cause: number, effect: number, space: WalkSpace): WorldSet {
    const { sets, unit } = space;
    const reached = new Map<number, WorldSet>([[cause, allWorlds]]);
    const open = [cause];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
        const here = reached.get(next) ?? noWorlds;
        for (const { fault, guard } of unit.faults[next]?.causes ?? []) {
            const exists = buildsWhere(unit.faults[fault]?.guard, space);
            const builds = sets.and(sets.and(here, buildsWhere(guard, space)), exists);
            const before = reached.get(fault) ?? noWorlds;
            const all = sets.or(before, builds);
            if (all === before) continue;
            reached.set(fault, all);
            open.push(fault);
        }
    }
    return reached.get(effect) ?? noWorlds;
}
