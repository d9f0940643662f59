// Visits every reference of a file in the order of the text, with what stands around it.

import type {
    Chain,
    Condition,
    Equipment,
    Fault,
    Hazard,
    Kind,
    Part,
    PartLike,
    Repair,
    Supply,
    Zone,
} from '../model/equipment.js';
import type { Declaration, FileModel, Scenario } from '../model/file.js';
import type { Gate, Setting } from '../model/gates.js';
import type { Remarks } from '../model/remarks.js';
import type { Instrument, Test } from '../model/tests.js';
import type { Branch, End, Procedure, Statement, Step, Tree } from '../model/trees.js';
import type { Context } from './scope.js';
import {
    type Resolve,
    visitBand,
    visitCalculation,
    visitChoices,
    visitFaultReference,
    visitGuard,
    visitGuards,
    visitStates,
    visitTestReference,
} from './visit-expressions.js';

/** The equipment that a tree of any file is about; it lies outside the references of this file. */
export type EquipmentOfTree = (tree: Tree) => Equipment | undefined;

/** Calls `resolve` for each reference of the file. */
export function visitReferences(file: FileModel, resolve: Resolve, equipmentOf: EquipmentOfTree): void {
    const context: Context = {
        file: file.file,
        equipment: undefined,
        partLike: undefined,
        owner: undefined,
        subject: undefined,
        of: undefined,
    };
    for (const equipment of file.equipment) visitEquipment(equipment, { ...context, equipment }, resolve);
    for (const kind of file.kinds) visitPartLike(kind, context, resolve);
    for (const instrument of file.instruments) visitInstrument(instrument, context, resolve);
    for (const curve of file.curves) visitGuards(curve.remarks, context, resolve);
    for (const tree of file.trees) visitTree(tree, context, resolve);
    for (const procedure of file.procedures) visitProcedure(procedure, context, resolve);
    for (const scenario of file.scenarios) visitScenario(scenario, context, resolve, equipmentOf);
}

function visitEquipment(equipment: Equipment, context: Context, resolve: Resolve): void {
    visitRemarks(equipment, context, resolve);
    for (const option of equipment.options) visitGuard(option, context, resolve);
    for (const { terms } of equipment.exclusions) for (const term of terms) visitChoices(term, context, resolve);
    for (const hazard of equipment.hazards) visitHazard(hazard, context, resolve);
    for (const zone of equipment.zones) visitZone(zone, context, resolve);
    for (const condition of equipment.conditions) visitCondition(condition, context, resolve);
    for (const kind of equipment.kinds) visitPartLike(kind, context, resolve);
    for (const supply of equipment.supplies) visitPartLike(supply, context, resolve);
    for (const part of equipment.parts) visitPartLike(part, context, resolve);
    for (const flow of equipment.flows) {
        visitStates(flow.when, context, resolve);
        visitGuard(flow, context, resolve);
        visitChain(flow.chain, context, resolve);
        for (const feed of flow.feeds) {
            resolve(feed.part, context);
            resolve(feed.flow, context);
            visitGuard(feed, context, resolve);
        }
    }
    for (const test of equipment.tests) visitTest(test, context, resolve);
    for (const gate of equipment.gates) visitGate(gate, context, resolve);
    for (const instrument of equipment.instruments) visitInstrument(instrument, context, resolve);
    for (const curve of equipment.curves) visitGuards(curve.remarks, context, resolve);
}

function visitInstrument(instrument: Instrument, context: Context, resolve: Resolve): void {
    visitRemarks(instrument, context, resolve);
    visitGuards(instrument.categories, context, resolve);
}

function visitHazard(hazard: Hazard, context: Context, resolve: Resolve): void {
    visitGuard(hazard, context, resolve);
    visitRemarks(hazard, context, resolve);
    for (const energy of hazard.energies) visitGuards(energy.levels, context, resolve);
    visitGuards(hazard.runDowns, context, resolve);
    visitGuards(hazard.stored, context, resolve);
    visitGuards(hazard.startsByItself, context, resolve);
}

function visitZone(zone: Zone, context: Context, resolve: Resolve): void {
    visitGuard(zone, context, resolve);
    visitRemarks(zone, context, resolve);
    for (const exposure of zone.exposures) {
        resolve(exposure.hazard, context);
        visitStates(exposure.while, context, resolve);
        visitGuard(exposure, context, resolve);
    }
    visitGuards(zone.categories, context, resolve);
    visitGuards(zone.locations, context, resolve);
}

function visitCondition(condition: Condition, context: Context, resolve: Resolve): void {
    visitGuard(condition, context, resolve);
    for (const value of condition.values) for (const part of value.bypasses) resolve(part, context);
}

function visitPartLike(part: Part | Supply | Kind, outer: Context, resolve: Resolve): void {
    const context = { ...outer, partLike: part as PartLike };
    if (part.sort === 'part' && part.kind) resolve(part.kind, context);
    if (part.sort === 'supply' && part.carries) resolve(part.carries, context);
    visitGuard(part, context, resolve);
    visitRemarks(part, context, resolve);
    for (const { zone, guard } of part.zones) {
        resolve(zone, context);
        visitChoices(guard, context, resolve);
    }
    for (const fault of part.faults) visitFault(fault, context, resolve);
    for (const repair of part.repairs) visitRepair(repair, context, resolve);
    for (const protects of part.protects) {
        for (const flow of protects.flows) resolve(flow, context);
        visitGuard(protects, context, resolve);
    }
    visitGuards(part.locations, context, resolve);
    for (const test of part.tests) visitTest(test, context, resolve);
}

function visitFault(fault: Fault, context: Context, resolve: Resolve): void {
    visitGuard(fault, context, resolve);
    visitRemarks(fault, context, resolve);
    visitGuards(fault.effects, context, resolve);
    visitGuards(fault.rates, context, resolve);
    for (const at of fault.places) {
        for (const place of at.places) resolve(place, context);
        visitGuard(at, context, resolve);
    }
    for (const intermittent of fault.intermittent) {
        visitStates(intermittent.unless, context, resolve);
        visitGuard(intermittent, context, resolve);
    }
    for (const makes of fault.makes) {
        const of = visitTestReference(makes.test, context, resolve);
        for (const outcome of makes.outcomes) resolve(outcome, { ...context, of });
        visitStates(makes.when, context, resolve);
        visitStates(makes.unless, context, resolve);
        visitGuard(makes, context, resolve);
    }
    for (const causes of fault.causes) {
        for (const caused of causes.faults) {
            visitFaultReference(caused.fault, context, resolve);
            visitGuard(caused, context, resolve);
        }
    }
    for (const repair of fault.repairs) visitRepair(repair, context, resolve);
}

function visitRepair(repair: Repair, context: Context, resolve: Resolve): void {
    for (const gate of repair.gates) resolve(gate, context);
    visitGuard(repair, context, resolve);
}

function visitChain(chain: Chain, context: Context, resolve: Resolve): void {
    for (const element of chain.elements) {
        if (element.sort === 'place') {
            resolve(element.member, context);
            visitStates(element.when, context, resolve);
        } else if (element.sort === 'test-point') {
            for (const test of element.tests) visitTestReference(test, context, resolve);
        } else {
            for (const branch of element.chains) visitChain(branch, context, resolve);
        }
        visitGuard(element, context, resolve);
    }
}

function visitTest(test: Test, context: Context, resolve: Resolve): void {
    visitGuard(test, context, resolve);
    visitRemarks(test, context, resolve);
    for (const { zone, guard } of test.zones) {
        resolve(zone, context);
        visitChoices(guard, context, resolve);
    }
    if (test.part) resolve(test.part, context);
    for (const method of test.methods) {
        if (method.sort === 'measure') {
            if (method.instrument) resolve(method.instrument, context);
            visitGuard(method, context, resolve);
        } else if (method.sort === 'identify') {
            resolve(method.option, context);
        } else if (method.sort === 'calculate') {
            visitCalculation(method.expression, context, resolve);
        }
    }
    visitGuards(test.takes, context, resolve);
    visitGuards(test.costs, context, resolve);
    for (const needs of test.needs) {
        for (const state of needs.states) visitStates(state, context, resolve);
        visitGuard(needs, context, resolve);
    }
    for (const check of test.checks) {
        visitFaultReference(check.fault, context, resolve);
        if (check.outcome) resolve(check.outcome, { ...context, of: test });
        visitGuard(check, context, resolve);
    }
    for (const across of test.across) {
        resolve(across.from, context);
        resolve(across.to, context);
        visitGuard(across, context, resolve);
    }
    for (const through of test.through) {
        resolve(through.flow, context);
        visitGuard(through, context, resolve);
    }
    visitGuards(test.locations, context, resolve);
    for (const outcome of test.outcomes) {
        for (const band of outcome.bands) visitBand(band, context, resolve);
        visitStates(outcome.when, context, resolve);
        visitGuard(outcome, context, resolve);
    }
}

function visitGate(gate: Gate, context: Context, resolve: Resolve): void {
    visitGuard(gate, context, resolve);
    visitRemarks(gate, context, resolve);
    const hazards = [...gate.controls, ...gate.permits.flatMap(permit => permit.hazards)];
    for (const hazard of hazards) {
        resolve(hazard.hazard, context);
        visitGuard(hazard, context, resolve);
    }
    visitGuards(gate.instruments, context, resolve);
    visitGuards(gate.wear, context, resolve);
    visitGuards(gate.takes, context, resolve);
    for (const element of gate.elements) {
        for (const hazard of element.hazards) resolve(hazard, context);
        for (const setting of element.settings) visitSetting(setting, context, resolve);
        if (element.instrument) resolve(element.instrument, context);
        visitGuard(element, context, resolve);
    }
}

function visitSetting(setting: Setting, context: Context, resolve: Resolve): void {
    const of = resolve(setting.condition, context);
    resolve(setting.value, { ...context, of });
}

function visitTree(tree: Tree, outer: Context, resolve: Resolve): void {
    const found = resolve(tree.equipment, outer);
    const equipment = found?.sort === 'equipment' ? found : undefined;
    const context: Context = { ...outer, equipment, owner: tree };
    visitGuard(tree, context, resolve);
    visitRemarks(tree, context, resolve);
    for (const complaint of tree.complaints) {
        const of = visitTestReference(complaint.test, context, resolve);
        for (const outcome of complaint.outcomes) resolve(outcome, { ...context, of });
        visitStates(complaint.when, context, resolve);
        visitGuard(complaint, context, resolve);
    }
    for (const step of tree.steps) visitStep(step, context, resolve);
    for (const end of [...tree.conclusions, ...tree.referrals]) visitEnd(end, context, resolve);
    for (const handover of [...tree.stillWrong, ...tree.disagree, ...tree.cannot]) {
        resolve(handover.target, context);
        visitGuard(handover, context, resolve);
    }
}

function visitProcedure(procedure: Procedure, outer: Context, resolve: Resolve): void {
    const found = procedure.equipment ? resolve(procedure.equipment, outer) : undefined;
    const equipment = found?.sort === 'equipment' ? found : undefined;
    const context: Context = { ...outer, equipment, owner: procedure, subject: procedure.subject };
    if (procedure.subject?.kind) resolve(procedure.subject.kind, context);
    visitGuard(procedure, context, resolve);
    visitRemarks(procedure, context, resolve);
    for (const step of procedure.steps) visitStep(step, context, resolve);
    for (const handover of procedure.cannot) {
        resolve(handover.target, context);
        visitGuard(handover, context, resolve);
    }
}

function visitEnd(end: End, context: Context, resolve: Resolve): void {
    visitGuard(end, context, resolve);
    visitRemarks(end, context, resolve);
    for (const { fault, guard } of end.faults) {
        visitFaultReference(fault, context, resolve);
        visitChoices(guard, context, resolve);
    }
    for (const repair of end.repairs) visitRepair(repair, context, resolve);
    visitGuards(end.unconfirmed, context, resolve);
    for (const leaves of end.leaves) {
        if (leaves.gate) resolve(leaves.gate, context);
        if (leaves.condition) {
            const of = resolve(leaves.condition, context);
            if (leaves.value) resolve(leaves.value, { ...context, of });
        }
        visitGuard(leaves, context, resolve);
    }
    for (const handover of end.stillWrong) {
        resolve(handover.target, context);
        visitGuard(handover, context, resolve);
    }
}

function visitStep(step: Step, context: Context, resolve: Resolve): void {
    visitGuard(step, context, resolve);
    for (const statement of step.statements) {
        visitStatement(statement, context, resolve);
        visitGuard(statement, context, resolve);
    }
}

function visitStatement(statement: Statement, context: Context, resolve: Resolve): void {
    switch (statement.sort) {
        case 'do':
            for (const setting of statement.settings) visitSetting(setting, context, resolve);
            for (const fault of statement.clears) visitFaultReference(fault, context, resolve);
            for (const part of [...statement.replaces, ...statement.uses]) resolve(part, context);
            for (const place of [statement.at, statement.in, statement.cannot]) if (place) resolve(place, context);
            return;
        case 'wait':
        case 'safety':
            if (statement.hazard) resolve(statement.hazard, context);
            return;
        case 'gate-used':
        case 'restore':
            resolve(statement.gate, context);
            return;
        case 'read':
            for (const test of statement.tests) visitTestReference(test, context, resolve);
            return;
        case 'ask':
        case 'confirm':
            visitBranches(statement.branches, visitTestReference(statement.test, context, resolve), context, resolve);
            return;
        case 'follow': {
            const of = resolve(statement.procedure, context);
            if (statement.subject) visitTestReference(statement.subject, context, resolve);
            visitBranches(statement.branches, of, context, resolve);
            return;
        }
        case 'go':
            resolve(statement.target, context);
            return;
        case 'continue':
            resolve(statement.tree, context);
            return;
        default:
            return;
    }
}

function visitBranches(
    branches: readonly Branch[],
    of: Declaration | undefined,
    context: Context,
    resolve: Resolve,
): void {
    for (const branch of branches) {
        for (const outcome of branch.outcomes) resolve(outcome, { ...context, of });
        resolve(branch.target, context);
        visitGuard(branch, context, resolve);
    }
}

function visitScenario(scenario: Scenario, outer: Context, resolve: Resolve, equipmentOf: EquipmentOfTree): void {
    const found = resolve(scenario.tree, outer);
    const tree = found?.sort === 'tree' ? found : undefined;
    const equipment = tree ? equipmentOf(tree) : undefined;
    const context: Context = { ...outer, equipment, owner: tree };
    for (const choice of scenario.build) visitChoices(choice, context, resolve);
    for (const fault of scenario.faults) visitFaultReference(fault, context, resolve);
    for (const reads of scenario.reads) {
        const of = visitTestReference(reads.test, context, resolve);
        resolve(reads.outcome, { ...context, of });
    }
    for (const expect of scenario.expects) resolve(expect.target, context);
    visitGuards(scenario.remarks, context, resolve);
}

function visitRemarks(owner: Remarks, context: Context, resolve: Resolve): void {
    visitGuards(owner.remarks, context, resolve);
    for (const safety of owner.safety) {
        if (safety.hazard) resolve(safety.hazard, context);
        visitGuard(safety, context, resolve);
    }
}
