// Faults that bring the complaint of no tree.

import type { UnitFault } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import { allWorlds, noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsIn, buildsWhere, isPossible } from '../walk/space.js';
import { equipmentWalks } from './walks.js';

/** The faults of an equipment that no tree looks for, in all builds or in some. */
export interface OutOfScope {
    readonly nowhere: readonly UnitFault[];
    readonly inSomeBuilds: readonly UnitFault[];
}

interface Signal {
    readonly aborted: boolean;
}

/** What no tree of an equipment looks for; undefined where its trees could not all be walked, or there are none. */
export function outOfScope(equipment: Equipment, model: Model, signal: Signal): OutOfScope | undefined {
    const files = model.visibleFiles(equipment.file);
    if (files.some(({ file }) => model.problems(file).length > 0)) return undefined;
    const all = equipmentWalks(equipment, model, signal);
    if (!all || all.trees.length === 0 || all.trees.some(({ walk }) => !walk)) return undefined;
    const { space } = all.around;
    const { sets, unit } = space;
    const looked = new Map<number, WorldSet>();
    for (const { walk } of all.trees) {
        for (const { presence, set } of walk?.arrivals ?? []) {
            const here = buildsIn(set, space);
            for (const fault of presence.present) looked.set(fault, sets.or(looked.get(fault) ?? noWorlds, here));
        }
    }
    const nowhere: UnitFault[] = [];
    const inSomeBuilds: UnitFault[] = [];
    for (const fault of unit.faults) {
        let there: WorldSet = sets.and(allWorlds, buildsWhere(fault.guard, space));
        for (const { guard } of fault.onlyWhenCaused) there = sets.without(there, buildsWhere(guard, space));
        const found = looked.get(fault.number) ?? noWorlds;
        if (!isPossible(sets.without(there, found), space)) continue;
        (found === noWorlds ? nowhere : inSomeBuilds).push(fault);
    }
    return { nowhere, inSomeBuilds };
}
