// Gates that are restored for a test and closed again, and whose restoring is all in one element.
//
// 29 CFR 1910.147(f)(1), from memory: where a lockout is lifted for a test, tools are cleared away and people sent away first,
// then the locks come off, then the energy is given back; after the test all is cut off and locked again.

import { noneOf } from '../meaning/resolving.js';
import type { UnitGate } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { Gate } from '../model/gates.js';
import type { Model } from '../model/model.js';
import type { Procedure, Restore, Step, Tree } from '../model/trees.js';
import { equipmentOf } from './answers.js';
import { someBuild, unitOf } from './units.js';
import { targetsOfStep } from './unreached.js';

/** A gate with too little restoring for that, in some build. */
export interface HastyRestore {
    readonly gate: Gate;
    /** Where it is restored before it is closed again. */
    readonly restore: Restore;
    readonly build: readonly string[];
}

/** The gates of an equipment that are restored for a test, with less than two elements to do it. */
export function hastyRestores(equipment: Equipment, model: Model): HastyRestore[] {
    const { unit } = unitOf(equipment, model);
    return unit.gates.flatMap(gate => {
        if (gate.controls.length === 0 || gate.restoring.length === 0) return [];
        const build = someBuildWithOne(gate, equipment, model);
        const restore = build && temporaryRestore(gate.declaration, equipment, model);
        return build && restore ? [{ gate: gate.declaration, restore, build }] : [];
    });
}

/** A build that has one of the restoring elements and no other. */
function someBuildWithOne({ guard, restoring }: UnitGate, equipment: Equipment, model: Model) {
    for (const one of restoring) {
        const others = restoring.filter(other => other !== one).map(other => other.guard);
        const build = someBuild(equipment, model, [guard, one.guard, noneOf(others)]);
        if (build) return build;
    }
    return undefined;
}

/** The first statement that restores a gate which the same tree or procedure may close again behind it. */
function temporaryRestore(gate: Gate, equipment: Equipment, model: Model): Restore | undefined {
    const owners = [...model.files.values()].flatMap(({ trees, procedures }) => [...trees, ...procedures]);
    for (const owner of owners) {
        if (equipmentOf(owner, model) !== equipment) continue;
        for (const step of owner.steps) {
            const restore = step.statements.find(
                (statement): statement is Restore =>
                    statement.sort === 'restore' && model.target(statement.gate) === gate,
            );
            if (restore && isClosedAgain(restore, step, owner, gate, model)) return restore;
        }
    }
    return undefined;
}

function isClosedAgain(restore: Restore, step: Step, owner: Tree | Procedure, gate: Gate, model: Model): boolean {
    const closes = ({ statements }: Pick<Step, 'statements'>) =>
        statements.some(statement => statement.sort === 'gate-used' && model.target(statement.gate) === gate);
    if (closes({ statements: step.statements.slice(step.statements.indexOf(restore)) })) return true;
    const byName = new Map(owner.steps.map(one => [one.name.text, one]));
    const behind = new Set(targetsOfStep(step));
    // The loop also visits what it adds.
    for (const name of behind) {
        const next = byName.get(name);
        if (!next) continue;
        if (closes(next)) return true;
        for (const further of targetsOfStep(next)) behind.add(further);
    }
    return false;
}
