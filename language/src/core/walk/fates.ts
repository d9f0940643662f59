// What becomes of those who arrive at a tree with one fault: each world counted once, by the worst that can become of it.

import type { RouteEnd } from '../meaning/route.js';
import type { Tree } from '../model/trees.js';
import type { Crowd } from './changes.js';
import { groupsOf } from './groups.js';
import { judgementsOf } from './judge.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { changedByActions, isPossible } from './space.js';
import type { RouteWalk } from './walk-route.js';

/**
 * `found`: a conclusion is right for it. `handed over`: a referral names it. `handed on`: another tree goes on with it.
 * `missed`: it ends at a referral that does not name it. `wrong`: it ends at a conclusion that is not right for it.
 * `lost`: it comes to no end.
 */
export type Fate = 'found' | 'handed over' | 'handed on' | 'missed' | 'wrong' | 'lost';

/** Worlds with one fault that have one fate in one tree. */
export interface FatedWorlds {
    readonly fate: Fate;
    /** Where they end; undefined where they do not. */
    readonly end: RouteEnd | undefined;
    /** The tree that goes on with them. */
    readonly to: Tree | undefined;
    /** How many parts the end leaves to choose from, where it names the fault; else 0. */
    readonly parts: number;
    /** Builds and draws. */
    readonly set: WorldSet;
}

/** What becomes of one fault in one tree. */
export interface FaultFates {
    readonly fault: number;
    /** The builds and draws that arrive, by a complaint or handed on by another tree. */
    readonly arriving: WorldSet;
    /** From the worst to the best; they have no world in common, and together they are all that arrive. */
    readonly fated: readonly FatedWorlds[];
}

/** The fates of every fault that arrives at a tree, in the order of the faults. */
export function fatesIn(walk: RouteWalk): FaultFates[] {
    const { space } = walk.around;
    const candidates = candidatesOf(walk);
    return [...arrivingFaults(walk)]
        .sort(([one], [other]) => one - other)
        .map(([fault, arriving]) => {
            const fated: FatedWorlds[] = [];
            let left = arriving;
            for (const candidate of worstFirst(candidates.get(fault) ?? [])) {
                const set = space.sets.and(left, candidate.set);
                left = space.sets.without(left, set);
                if (isPossible(set, space)) fated.push({ ...candidate, set });
            }
            if (isPossible(left, space)) fated.push({ ...nowhere, set: left });
            return { fault, arriving, fated: joinSame(fated, walk) };
        });
}

const nowhere = { fate: 'lost', end: undefined, to: undefined, parts: 0 } as const;

function arrivingFaults(walk: RouteWalk): Map<number, WorldSet> {
    const { sets } = walk.around.space;
    const arriving = new Map<number, WorldSet>();
    for (const { presence, set } of walk.arrivals) {
        const fault = onlyFault(presence.arrival);
        if (fault === undefined) continue;
        arriving.set(fault, sets.or(arriving.get(fault) ?? noWorlds, buildsAndDraws(set, walk)));
    }
    return arriving;
}

/** The fault of a world that arrived with exactly one. */
function onlyFault(arrival: readonly number[]): number | undefined {
    return arrival.length === 1 ? arrival[0] : undefined;
}

/** A set without what actions change: what never changes of a world, so that it is known again. */
function buildsAndDraws(set: WorldSet, { around }: RouteWalk): WorldSet {
    const { sets, variables } = around.space;
    return sets.forget(set, changedByActions(variables));
}

/** All that may become of each fault. A world that can go several ways stands in several of them. */
function candidatesOf(walk: RouteWalk): Map<number, FatedWorlds[]> {
    const { sets } = walk.around.space;
    const candidates = new Map<number, FatedWorlds[]>();
    const add = (crowds: readonly Crowd[], fate: Omit<FatedWorlds, 'set'>, within?: WorldSet) => {
        for (const { presence, set } of crowds) {
            const fault = onlyFault(presence.arrival);
            if (fault === undefined) continue;
            const worlds = buildsAndDraws(within === undefined ? set : sets.and(set, within), walk);
            const list = candidates.get(fault) ?? [];
            candidates.set(fault, list);
            if (worlds !== noWorlds) list.push({ ...fate, set: worlds });
        }
    };
    add(
        walk.meetings.filter(({ sort }) => sort === 'stranded' || sort === 'missing'),
        nowhere,
    );
    add(walk.loops, nowhere);
    for (const [to, crowds] of walk.handedOver) add(crowds, { ...nowhere, fate: 'handed on', to });
    for (const { end, right, partly, unnamed } of judgementsOf(walk)) {
        const isConclusion = end.written.sort === 'conclusion';
        add(unnamed, { ...nowhere, fate: isConclusion ? 'wrong' : 'missed', end });
        if (isConclusion) add(partly, { ...nowhere, fate: 'wrong', end });
        // A referral hands over the whole fault: what it has caused is for those who take over.
        const named = isConclusion ? right : [...right, ...partly];
        const fate = isConclusion ? 'found' : 'handed over';
        for (const { parts, builds } of groupsOf(end, walk.around.space)) {
            add(named, { fate, end, to: undefined, parts }, builds);
        }
    }
    return candidates;
}

const worst: readonly Fate[] = ['lost', 'wrong', 'missed', 'handed on', 'handed over', 'found'];

/** The worst first; of two that name the fault, the one that leaves more parts. */
function worstFirst(candidates: readonly FatedWorlds[]): FatedWorlds[] {
    const place = ({ fate }: FatedWorlds) => (fate === 'found' ? worst.indexOf('handed over') : worst.indexOf(fate));
    return [...candidates].sort(
        (one, other) =>
            place(one) - place(other) ||
            other.parts - one.parts ||
            worst.indexOf(one.fate) - worst.indexOf(other.fate) ||
            (one.end?.number ?? 0) - (other.end?.number ?? 0),
    );
}

/** Worlds of several presences that have the same fate, as one set. */
function joinSame(fated: readonly FatedWorlds[], { around }: RouteWalk): FatedWorlds[] {
    const joined: FatedWorlds[] = [];
    for (const one of fated) {
        const index = joined.findIndex(
            ({ fate, end, to, parts }) => fate === one.fate && end === one.end && to === one.to && parts === one.parts,
        );
        const before = joined[index];
        if (before) joined[index] = { ...before, set: around.space.sets.or(before.set, one.set) };
        else joined.push(one);
    }
    return joined.sort((one, other) => worst.indexOf(one.fate) - worst.indexOf(other.fate));
}
