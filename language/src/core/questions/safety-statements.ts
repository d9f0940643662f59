// Every safety statement of a file, with the hazard that it is about.

import { hazardNamed } from '../meaning/resolving.js';
import type { UnitHazard } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { ChoiceExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Remarks, SafetyStatement } from '../model/remarks.js';
import type { Procedure, Tree } from '../model/trees.js';
import { equipmentOf } from './answers.js';
import { unitOf } from './units.js';

/** A safety statement about a hazard. */
export interface StatementAbout {
    readonly statement: SafetyStatement;
    readonly equipment: Equipment;
    readonly hazard: UnitHazard;
    /** The guards around it, its own the last. */
    readonly guards: readonly (ChoiceExpression | undefined)[];
}

/**
 * The statements of a file that are about a hazard which is known: what `about` names, or the hazard that they stand in.
 * Those of kinds outside an equipment know of no hazards.
 */
export function statementsAbout(file: FileModel, model: Model): StatementAbout[] {
    return [
        ...file.equipment.flatMap(equipment => inEquipment(equipment, model)),
        ...[...file.trees, ...file.procedures].flatMap(owner => inOwner(owner, model)),
    ];
}

/** Something with statements, and the guards around them. */
interface Holder {
    readonly safety: readonly SafetyStatement[];
    readonly guards: readonly (ChoiceExpression | undefined)[];
    readonly hazard?: UnitHazard;
}

function inEquipment(equipment: Equipment, model: Model): StatementAbout[] {
    const plain = (owner: Remarks & { readonly guard?: ChoiceExpression | undefined }): Holder => ({
        safety: owner.safety,
        guards: [owner.guard],
    });
    const parts = [...equipment.parts, ...equipment.supplies, ...equipment.kinds];
    const holders = [
        plain(equipment),
        ...[...equipment.zones, ...equipment.tests, ...equipment.gates, ...parts].map(plain),
        ...parts.flatMap(({ tests }) => tests).map(plain),
    ].filter(({ safety }) => safety.length > 0);
    const isInHazard = equipment.hazards.some(({ safety }) => safety.length > 0);
    const ofHazards = isInHazard
        ? unitOf(equipment, model).unit.hazards.map(hazard => ({ ...plain(hazard.declaration), hazard }))
        : [];
    return [...holders, ...ofHazards].flatMap(holder => aboutHazards(holder, equipment, model));
}

function inOwner(owner: Tree | Procedure, model: Model): StatementAbout[] {
    const equipment = equipmentOf(owner, model);
    if (!equipment) return [];
    const steps = owner.steps.map(({ guard, statements }) => ({
        safety: statements.filter(statement => statement.sort === 'safety'),
        guards: [owner.guard, guard],
    }));
    const ends = owner.sort === 'tree' ? [...owner.conclusions, ...owner.referrals] : [];
    const holders: Holder[] = [
        { safety: owner.safety, guards: [owner.guard] },
        ...steps,
        ...ends.map(({ safety, guard }) => ({ safety, guards: [owner.guard, guard] })),
    ];
    return holders.flatMap(holder => aboutHazards(holder, equipment, model));
}

function aboutHazards(
    { safety, guards, hazard: around }: Holder,
    equipment: Equipment,
    model: Model,
): StatementAbout[] {
    return safety.flatMap(statement => {
        const hazard = statement.hazard ? hazardAt(statement, equipment, model) : around;
        return hazard ? [{ statement, equipment, hazard, guards: [...guards, statement.guard] }] : [];
    });
}

function hazardAt({ hazard }: SafetyStatement, equipment: Equipment, model: Model): UnitHazard | undefined {
    const { unit, names } = unitOf(equipment, model);
    const number = hazardNamed(hazard, names);
    return number === undefined ? undefined : unit.hazards[number];
}
