// What faults do to a flow, as sets of worlds: for each effect the worlds in which it is felt.

import type { Effect } from '../model/equipment.js';
import type { ShownEffect } from '../meaning/unit.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import type { WorldSetOperations } from './world-set-operations.js';

/** The effects that a test can show, in the order of the sets in `Effects`. */
export const shownEffects: readonly ShownEffect[] = ['stopped', 'shorted', 'weakened', 'raised', 'loaded'];

/** For each effect, in the order of `shownEffects`, the worlds in which it is felt; one world may feel several. */
export type Effects = readonly WorldSet[];

export const noEffects: Effects = [noWorlds, noWorlds, noWorlds, noWorlds, noWorlds];

const [stopped, shorted, weakened, raised, loaded] = [0, 1, 2, 3, 4];

/** Where an effect of a fault stands in `Effects`. */
export const placeOfEffect: Readonly<Record<Effect, number>> = {
    stops: stopped,
    shorts: shorted,
    weakens: weakened,
    raises: raised,
    loads: loaded,
};

export function isQuiet(effects: Effects): boolean {
    return effects.every(set => set === noWorlds);
}

/** Both together. */
export function joinEffects(one: Effects, other: Effects, sets: WorldSetOperations): Effects {
    if (isQuiet(one)) return other;
    if (isQuiet(other)) return one;
    return one.map((set, effect) => sets.or(set, other[effect] ?? noWorlds));
}

/** The effects within a set of worlds. */
export function limitEffects(effects: Effects, within: WorldSet, sets: WorldSetOperations): Effects {
    return isQuiet(effects) ? effects : effects.map(set => sets.and(set, within));
}

/** The worlds in which nothing is passed on. */
export function stopping(effects: Effects, sets: WorldSetOperations): WorldSet {
    return sets.or(effects[stopped] ?? noWorlds, effects[shorted] ?? noWorlds);
}

/** The worlds in which any effect is felt. */
export function anyEffect(effects: Effects, sets: WorldSetOperations): WorldSet {
    return effects.reduce<WorldSet>((any, set) => sets.or(any, set), noWorlds);
}

/** What a part passes on that a flow drives: a stopped feed stops it, a weak one weakens it. */
export function fedEffects(effects: Effects, sets: WorldSetOperations): Effects {
    if (isQuiet(effects)) return effects;
    return [
        stopping(effects, sets),
        noWorlds,
        sets.or(effects[weakened] ?? noWorlds, effects[loaded] ?? noWorlds),
        effects[raised] ?? noWorlds,
        noWorlds,
    ];
}

/** What is seen of several effects: what has stopped hides what is only weak. */
export function visibleEffects(effects: Effects, sets: WorldSetOperations): Effects {
    const stops = stopping(effects, sets);
    if (stops === noWorlds) return effects;
    return effects.map((set, effect) => (effect === stopped || effect === shorted ? set : sets.without(set, stops)));
}

/** A branch of a group: the worlds that have it, and its effects in them. */
export interface BranchEffects {
    readonly exists: WorldSet;
    readonly effects: Effects;
}

/** The effects behind branches side by side. */
export function joinBranches(
    join: 'or' | 'with' | 'and',
    branches: readonly BranchEffects[],
    sets: WorldSetOperations,
): Effects {
    const felt = branches.map(({ exists, effects }) => limitEffects(effects, exists, sets));
    const union = felt.reduce((one, other) => joinEffects(one, other, sets), noEffects);
    if (join === 'and' || isQuiet(union)) return union;
    const stops = felt.map(effects => stopping(effects, sets));
    const allStop = inAll(branches, stops, sets);
    const anyStop = stops.reduce<WorldSet>((any, set) => sets.or(any, set), noWorlds);
    const hurt =
        join === 'or'
            ? inAll(
                  branches,
                  felt.map(effects => anyEffect(effects, sets)),
                  sets,
              )
            : anyEffect(union, sets);
    const partly = sets.without(hurt, allStop);
    const joined = union.map((set, effect) =>
        sets.and(set, effect === stopped || effect === shorted ? allStop : partly),
    );
    if (join === 'with') joined[weakened] = sets.or(joined[weakened] ?? noWorlds, sets.without(anyStop, allStop));
    return joined;
}

/** The worlds that have a branch and in which every branch that they have is in its set. */
function inAll(branches: readonly BranchEffects[], there: readonly WorldSet[], sets: WorldSetOperations): WorldSet {
    let all: WorldSet = branches.reduce<WorldSet>((any, { exists }) => sets.or(any, exists), noWorlds);
    branches.forEach(({ exists }, index) => {
        all = sets.without(all, sets.without(exists, there[index] ?? noWorlds));
    });
    return all;
}
