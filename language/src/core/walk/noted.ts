// Which readings have been taken, in the sets of the walk.

import { notTaken, taken, takenBeforeChange, takenBeforeRepair } from '../meaning/noted.js';
import type { Unit, UnitSetting } from '../meaning/unit.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** A reading is taken: those of before that are used with it are worth nothing any more. */
export function takeReading(set: WorldSet, test: number, space: WalkSpace): WorldSet {
    const noted = space.unit.tests[test]?.noted;
    if (!noted) return set;
    let changed = space.sets.assign(set, variableOf(test, space), taken);
    for (const { test: other, shares } of noted.beside) {
        changed = replace(changed, other, takenBeforeRepair, notTaken, space);
        if (shares) changed = replace(changed, other, takenBeforeChange, notTaken, space);
    }
    return changed;
}

/** A condition is set: where it was otherwise, the readings that it changes are those of before. */
export function agedBySetting(set: WorldSet, { condition, value }: UnitSetting, space: WalkSpace): WorldSet {
    const { sets, unit, variables } = space;
    const aging = readingsChangedBy(unit.tests).get(condition);
    if (!aging) return set;
    const exists = buildsWhere(unit.conditions[condition]?.guard, space);
    const same = sets.is(variables.conditions[condition] ?? 0, value);
    const changing = sets.without(sets.and(set, exists), same);
    if (changing === noWorlds) return set;
    const aged = aging.reduce((one, test) => replace(one, test, taken, takenBeforeChange, space), changing);
    return sets.or(aged, sets.without(set, changing));
}

const changedBy = new WeakMap<Unit['tests'], ReadonlyMap<number, readonly number[]>>();

/** The tests whose readings a condition changes, by condition. */
function readingsChangedBy(tests: Unit['tests']): ReadonlyMap<number, readonly number[]> {
    const known = changedBy.get(tests);
    if (known) return known;
    const found = new Map<number, number[]>();
    for (const { number, noted } of tests) {
        for (const condition of noted?.dependsOn ?? []) found.set(condition, [...(found.get(condition) ?? []), number]);
    }
    changedBy.set(tests, found);
    return found;
}

/** Something is put right or replaced: every reading is one of before. */
export function agedByRepair(set: WorldSet, space: WalkSpace): WorldSet {
    return space.unit.tests.reduce((aged, { number, noted }) => {
        if (!noted) return aged;
        const one = replace(aged, number, taken, takenBeforeRepair, space);
        return replace(one, number, takenBeforeChange, takenBeforeRepair, space);
    }, set);
}

/** The worlds in which a reading has been taken. */
export function whereTaken(test: number, { sets, variables }: WalkSpace): WorldSet {
    const variable = variables.taken[test] ?? -1;
    return variable < 0 ? noWorlds : sets.not(sets.is(variable, notTaken));
}

function replace(set: WorldSet, test: number, from: number, to: number, space: WalkSpace): WorldSet {
    const { sets } = space;
    const variable = variableOf(test, space);
    const such = sets.and(set, sets.is(variable, from));
    return such === noWorlds ? set : sets.or(sets.without(set, such), sets.assign(such, variable, to));
}

function variableOf(test: number, { variables }: WalkSpace): number {
    return variables.taken[test] ?? 0;
}
