// The units of the equipment of a workspace, each resolved once while no file that it sees changes, for the rules that need no walk.

import type { Resolving } from '../meaning/resolving.js';
import { resolveUnit } from '../meaning/resolve-unit.js';
import type { InBuilds, Unit } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import { describeBuild, searchBuilds } from './builds.js';
import { oncePerModel } from './remember.js';

export interface ResolvedUnit {
    readonly unit: Unit;
    readonly names: Resolving;
}

const unitsOf = oncePerModel((): Map<Equipment, ResolvedUnit> => new Map());

/** The unit of an equipment, with every kind filled in. What cannot be looked up is left out of it. */
export function unitOf(equipment: Equipment, model: Model): ResolvedUnit {
    const known = unitsOf(model);
    let found = known.get(equipment);
    if (!found) {
        found = unitAsBefore(equipment, model) ?? resolveUnit(equipment, model);
        known.set(equipment, found);
        unitsBefore.set(equipment, { ...found, sees: model.visibleFiles(equipment.file) });
    }
    return found;
}

const unitsBefore = new WeakMap<Equipment, ResolvedUnit & { readonly sees: readonly FileModel[] }>();

/** The unit as it was for another model, where all files that the equipment sees are the same. */
function unitAsBefore(equipment: Equipment, model: Model): ResolvedUnit | undefined {
    const before = unitsBefore.get(equipment);
    const sees = model.visibleFiles(equipment.file);
    const isSame = before?.sees.length === sees.length && sees.every((file, index) => file === before.sees[index]);
    return before && isSame ? { unit: before.unit, names: { ...before.names, model } } : undefined;
}

/** The choices of one build that is made and in which all of these hold; undefined where there is none, or none was found. */
export function someBuild(
    equipment: Equipment | undefined,
    model: Model,
    guards: readonly InBuilds[],
): readonly string[] | undefined {
    const wanted = guards.filter(guard => guard !== undefined);
    const search = searchBuilds(equipment, model, wanted);
    return search.sort === 'found' ? describeBuild(search.build, wanted) : undefined;
}
