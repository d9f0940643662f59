// Safety statements in steps that stand behind the action that they are for.

import { bothOf, guardOf, hazardNamed, noneOf, partNamed, testNamed } from '../meaning/resolving.js';
import type { InBuilds, Limited } from '../meaning/unit.js';
import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { SafetyStatement } from '../model/remarks.js';
import type { TestReference } from '../model/tests.js';
import type { Do, Procedure, Statement, Step, Tree } from '../model/trees.js';
import { equipmentOf } from './answers.js';
import { type ResolvedUnit, someBuild, unitOf } from './units.js';

/** A statement that comes too late. */
export interface LateWarning {
    readonly step: Step;
    readonly statement: SafetyStatement;
    /** The action that meets the hazard before the statement; undefined where the step has no action behind the statement. */
    readonly action: Statement | undefined;
    readonly build: readonly string[];
}

/** The statements of a file's steps that come too late. */
export function lateWarnings(file: FileModel, model: Model): LateWarning[] {
    return [...file.trees, ...file.procedures].flatMap(owner => {
        const isWarned = owner.steps.some(({ statements }) => statements.some(({ sort }) => sort === 'safety'));
        const equipment = isWarned ? equipmentOf(owner, model) : undefined;
        if (!equipment) return [];
        const resolved = unitOf(equipment, model);
        return owner.steps.flatMap(step => lateIn({ owner, step, equipment, resolved, model }));
    });
}

interface Place {
    readonly owner: Tree | Procedure;
    readonly step: Step;
    readonly equipment: Equipment;
    readonly resolved: ResolvedUnit;
    readonly model: Model;
}

/** What a warning can be for: all that is done or waited for. Going on to the next step is not. */
const actions: readonly Statement['sort'][] = ['do', 'wait', 'gate-used', 'restore', 'ask', 'confirm', 'follow'];

function lateIn(place: Place): LateWarning[] {
    const { step } = place;
    return step.statements.flatMap((statement, index) => {
        if (statement.sort !== 'safety') return [];
        const before = step.statements.slice(0, index);
        const after = step.statements.slice(index + 1);
        return lastInStep(statement, after, place) ?? behindAction(statement, before, place) ?? [];
    });
}

/** Where no action follows in some build, nobody reads the statement in time. */
function lastInStep(statement: SafetyStatement, after: readonly Statement[], place: Place): LateWarning | undefined {
    const following = after.filter(({ sort }) => actions.includes(sort)).map(one => guardIn(one, place));
    const build = buildIn(place, [guardIn(statement, place), noneOf(following)]);
    return build && { step: place.step, statement, action: undefined, build };
}

/** Where an action before it, in the same step, has met the hazard already and nothing has warned of it. */
function behindAction(statement: SafetyStatement, before: readonly Statement[], place: Place): LateWarning | undefined {
    const { names } = place.resolved;
    const hazard = hazardNamed(statement.hazard, names);
    if (hazard === undefined) return undefined;
    for (const [index, action] of before.entries()) {
        // What stands before this action, or opens a gate behind it, covers it.
        if (warnsOf(action, hazard, place)) return undefined;
        const exposing = exposuresIn(action, hazard, place);
        if (exposing.length === 0 || before.slice(index).some(one => restores(one, hazard, place))) continue;
        for (const { guard } of exposing) {
            const guards = [guardIn(statement, place), guardIn(action, place), guard];
            const build = buildIn(place, guards);
            if (build) return { step: place.step, statement, action, build };
        }
    }
    return undefined;
}

function buildIn({ owner, step, equipment, model, resolved }: Place, guards: readonly InBuilds[]) {
    const around = [guardOf(owner.guard, resolved.names), guardOf(step.guard, resolved.names)];
    return someBuild(equipment, model, [...around, ...guards]);
}

function guardIn(statement: Statement, { resolved }: Place): InBuilds {
    return guardOf('guard' in statement ? statement.guard : undefined, resolved.names);
}

/** An earlier statement about the hazard, or a gate that controls it or permits work beside it, and has its own warnings. */
function warnsOf(statement: Statement, hazard: number, { resolved }: Place): boolean {
    const { names, unit } = resolved;
    if (statement.sort === 'safety') return hazardNamed(statement.hazard, names) === hazard;
    if (statement.sort !== 'gate-used') return false;
    const target = names.model.target(statement.gate);
    const gate = target?.sort === 'gate' ? unit.gates[names.gates.get(target) ?? -1] : undefined;
    return gate !== undefined && [...gate.controls, ...gate.permits].some(one => one.hazard === hazard);
}

/** Opening a gate behind an action says that the hazard was under control until then. */
function restores(statement: Statement, hazard: number, { resolved }: Place): boolean {
    if (statement.sort !== 'restore') return false;
    const { names, unit } = resolved;
    const target = names.model.target(statement.gate);
    const gate = target?.sort === 'gate' ? unit.gates[names.gates.get(target) ?? -1] : undefined;
    return gate?.controls.some(one => one.hazard === hazard) ?? false;
}

/** Where an action is done in a zone that exposes the hazard, in whatever state. */
function exposuresIn(statement: Statement, hazard: number, { resolved }: Place): Limited[] {
    const { unit } = resolved;
    return zonesOf(statement, resolved).flatMap(({ zone, guard }) =>
        (unit.zones[zone]?.exposures ?? [])
            .filter(exposure => exposure.hazard === hazard)
            .map(exposure => ({ guard: bothOf(guard, unit.zones[zone]?.guard, exposure.guard) })),
    );
}

type InZone = Limited & { readonly zone: number };

/** The zones in which an action is done. What a procedure is about is another thing each time, so it is left out. */
function zonesOf(statement: Statement, resolved: ResolvedUnit): readonly InZone[] {
    if (statement.sort === 'ask' || statement.sort === 'confirm') {
        return zonesOfTest(statement.test, resolved);
    }
    if (statement.sort === 'read') return statement.tests.flatMap(test => zonesOfTest(test, resolved));
    return statement.sort === 'do' ? zonesOfDo(statement, resolved) : [];
}

function zonesOfTest(reference: TestReference, { unit, names }: ResolvedUnit): readonly InZone[] {
    const test = testNamed(reference, names, {});
    return test === undefined ? [] : (unit.tests[test]?.zones ?? []);
}

/** As the walk has it: the zone that is named, those of what is replaced, and that of the part where no zone is named. */
function zonesOfDo(statement: Do, { unit, names }: ResolvedUnit): InZone[] {
    const target = statement.in && names.model.target(statement.in);
    const zone = target?.sort === 'zone' ? names.zones.get(target) : undefined;
    const parts = [...statement.replaces, ...(statement.at && zone === undefined ? [statement.at] : [])];
    const ofParts = parts.flatMap(reference => {
        const part = partNamed(names.model.target(reference), names, {});
        return part === undefined ? [] : (unit.parts[part]?.zones ?? []);
    });
    return [...(zone === undefined ? [] : [{ zone, guard: undefined }]), ...ofParts];
}
