// What the elements of a gate set, and how a hazard becomes safe or unsafe, in the sets of the walk.

import type { UnitElement } from '../meaning/unit.js';
import { applySettings } from './changes.js';
import type { WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** Makes a hazard safe (1) or unsafe again (0) in some builds. */
export function setHazard(set: WorldSet, hazard: number, where: WorldSet, safe: 0 | 1, space: WalkSpace): WorldSet {
    const { sets, variables } = space;
    const there = sets.assign(sets.and(set, where), variables.hazards[hazard] ?? 0, safe);
    return sets.or(there, sets.without(set, where));
}

/** Sets what the elements set, each in its builds, in the order written. */
export function applyElements(set: WorldSet, elements: readonly UnitElement[], space: WalkSpace): WorldSet {
    let changed = set;
    for (const { settings, guard } of elements) {
        if (settings.length === 0) continue;
        const here = buildsWhere(guard, space);
        const inside = applySettings(space.sets.and(changed, here), settings, space);
        changed = space.sets.or(inside, space.sets.without(changed, here));
    }
    return changed;
}
