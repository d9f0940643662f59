// The builds of a unit one by one, or choice by choice where there are too many.

import type { Choice, Option } from '../model/equipment.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { isPossible, onlyMade, readWorld, type WalkSpace } from './space.js';
import { weightsOf } from './weights.js';

/** With more builds than this, each choice is looked at by itself. */
export const mostBuilds = 64;

/** One build, or all builds with one choice. */
export interface ListedBuilds {
    readonly choices: ReadonlyMap<Option, Choice>;
    readonly set: WorldSet;
    /** Their share of the builds that were asked about, from 0 to 1. */
    readonly share: number;
}

/** The builds of a set that are made, in the order in which the choices are written; or each choice that they have. */
export function listBuilds(
    within: WorldSet,
    space: WalkSpace,
): { readonly buildsAre: 'builds' | 'choices'; readonly builds: readonly ListedBuilds[] } {
    const weights = weightsOf(space);
    const all = weights.share(within);
    const shareOf = (set: WorldSet) => (all === 0 ? 0 : weights.share(set) / all);
    const builds = singleBuilds(within, space);
    if (builds) {
        return { buildsAre: 'builds', builds: builds.map(one => ({ ...one, share: shareOf(one.set) })) };
    }
    return {
        buildsAre: 'choices',
        builds: singleChoices(within, space).map(one => ({ ...one, share: shareOf(one.set) })),
    };
}

/** Every build; undefined where there are too many. */
function singleBuilds(within: WorldSet, space: WalkSpace): Omit<ListedBuilds, 'share'>[] | undefined {
    const { sets, variables } = space;
    const options = [...variables.options.values()];
    const others = sets.sizes.map((_, variable) => variable).filter(variable => !options.includes(variable));
    let left = onlyMade(sets.forget(within, others), space);
    // Each build stands in a set once for every value of all other variables.
    const copies = others.reduce((product, variable) => product * BigInt(sets.sizes[variable] ?? 1), 1n);
    if (sets.count(left) / copies > BigInt(mostBuilds)) return undefined;
    const builds: Omit<ListedBuilds, 'share'>[] = [];
    for (let world = sets.pick(left); world; world = sets.pick(left)) {
        const values = world;
        const set = options.reduce((all, option) => sets.and(all, sets.is(option, values[option] ?? 0)), left);
        builds.push({ choices: readWorld(values, space).build, set });
        left = sets.without(left, set);
    }
    return builds.sort((one, other) => compareBuilds(one.choices, other.choices, space));
}

function compareBuilds(one: ReadonlyMap<Option, Choice>, other: ReadonlyMap<Option, Choice>, space: WalkSpace): number {
    for (const option of space.unit.space.options) {
        const place = (choice: Choice | undefined) => (choice ? option.choices.indexOf(choice) : option.choices.length);
        const difference = place(one.get(option)) - place(other.get(option));
        if (difference !== 0) return difference;
    }
    return 0;
}

/** Every choice that some build has. */
function singleChoices(within: WorldSet, space: WalkSpace): Omit<ListedBuilds, 'share'>[] {
    const { sets, variables, unit } = space;
    return unit.space.options.flatMap(option =>
        option.choices.flatMap((choice, value) => {
            const variable = variables.options.get(option);
            const set = variable === undefined ? noWorlds : sets.and(within, sets.is(variable, value));
            return isPossible(set, space) ? [{ choices: new Map([[option, choice]]), set }] : [];
        }),
    );
}
