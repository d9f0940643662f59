// Visits the small clauses of a file (guards, numbers, pictures, readings) in one walk, so that the rules share it.

import type {
    Chain,
    Equipment,
    Fault,
    Hazard,
    Kind,
    MeasurementCategory,
    Part,
    Repair,
    Supply,
    Zone,
} from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Gate } from '../model/gates.js';
import type { ChoiceExpression, Guarded } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Picture, Remarks } from '../model/remarks.js';
import type {
    Band,
    Calculation,
    GuardedAmount,
    Instrument,
    Method,
    Curve,
    Table,
    Test,
    TestReference,
} from '../model/tests.js';
import type { End, Procedure, Statement, Tree } from '../model/trees.js';
import type { Amount } from '../model/written.js';
import { equipmentOf } from './answers.js';

/** What an amount is for. A reading can be of any quantity; the others must be of one. */
export type AmountPurpose =
    | 'takes'
    | 'costs'
    | 'within'
    | 'wait'
    | 'after'
    | 'run-down'
    | 'duration'
    | 'share'
    | 'mistaken'
    | 'rate'
    | 'rate per'
    | 'duty'
    | 'duty per'
    | 'stored'
    | 'through'
    | 'category'
    | 'reading';

/** The guards around a place, from the outside in. */
export type Around = readonly ChoiceExpression[];

export interface ClauseVisitor {
    /** Called for each guard whose equipment is known. */
    readonly guard: (guard: ChoiceExpression, around: Around, equipment: Equipment) => void;
    /** Called for each amount; what is half written may be empty. */
    readonly amount: (amount: Amount, purpose: AmountPurpose) => void;
    readonly picture: (picture: Picture) => void;
    /** Called for each test whose reading another test needs, in a calculation or a table. */
    readonly reading: (test: TestReference) => void;
}

/** Calls the visitor for each clause of the file. */
export function visitClauses(file: FileModel, model: Model, visitor: ClauseVisitor): void {
    const outside: Here = { visitor, equipment: undefined };
    for (const equipment of file.equipment) visitEquipment(equipment, { visitor, equipment });
    for (const kind of file.kinds) visitPart(kind, outside);
    for (const instrument of file.instruments) visitInstrument(instrument, outside);
    for (const table of file.tables) visitTable(table, outside);
    for (const curve of file.curves) visitCurve(curve, outside);
    for (const tree of file.trees) visitOwner(tree, { visitor, equipment: equipmentOf(tree, model) });
    for (const owner of file.procedures) visitOwner(owner, { visitor, equipment: equipmentOf(owner, model) });
    for (const { expects } of file.scenarios) {
        for (const { within } of expects) take(within, 'within', outside);
    }
}

/** The visitor, and the equipment whose choices the guards name. */
interface Here {
    readonly visitor: ClauseVisitor;
    readonly equipment: Equipment | undefined;
}

const nothing: Around = [];

/** Looks at the guard of something, and gives the guards around what stands within it. */
function look({ guard }: Guarded, around: Around, { visitor, equipment }: Here): Around {
    if (!guard) return around;
    if (equipment) visitor.guard(guard, around, equipment);
    return [...around, guard];
}

function lookAll(guarded: readonly Guarded[], around: Around, here: Here): void {
    // Most lists are empty, and guards outside an equipment mean nothing.
    if (guarded.length === 0 || !here.equipment) return;
    for (const one of guarded) if (one.guard) look(one, around, here);
}

function take(amount: Amount | undefined, purpose: AmountPurpose, here: Here): void {
    if (amount) here.visitor.amount(amount, purpose);
}

function visitEquipment(equipment: Equipment, here: Here): void {
    visitRemarks(equipment, nothing, here);
    for (const option of equipment.options) {
        look(option, nothing, here);
        for (const { share, duty } of option.choices) {
            take(share, 'share', here);
            take(duty?.amount, 'duty', here);
            take(duty?.per, 'duty per', here);
        }
    }
    for (const hazard of equipment.hazards) visitHazard(hazard, here);
    for (const zone of equipment.zones) visitZone(zone, here);
    lookAll(equipment.conditions, nothing, here);
    for (const kind of equipment.kinds) visitPart(kind, here);
    for (const supply of equipment.supplies) visitPart(supply, here);
    for (const part of equipment.parts) visitPart(part, here);
    for (const flow of equipment.flows) {
        const around = look(flow, nothing, here);
        visitChain(flow.chain, around, here);
        lookAll(flow.feeds, around, here);
    }
    for (const test of equipment.tests) visitTest(test, nothing, here);
    for (const gate of equipment.gates) visitGate(gate, here);
    for (const instrument of equipment.instruments) visitInstrument(instrument, here);
    for (const table of equipment.tables) visitTable(table, here);
    for (const curve of equipment.curves) visitCurve(curve, here);
}

function visitHazard(hazard: Hazard, here: Here): void {
    const around = look(hazard, nothing, here);
    visitRemarks(hazard, around, here);
    for (const { levels } of hazard.energies) visitAmounts(levels, 'reading', around, here);
    visitAmounts(hazard.runDowns, 'run-down', around, here);
    visitAmounts(hazard.stored, 'stored', around, here);
    for (const { through } of hazard.stored) take(through, 'through', here);
    lookAll(hazard.startsByItself, around, here);
}

function visitAmounts(clauses: readonly GuardedAmount[], purpose: AmountPurpose, around: Around, here: Here): void {
    for (const clause of clauses) {
        look(clause, around, here);
        here.visitor.amount(clause.amount, purpose);
    }
}

function visitZone(zone: Zone, here: Here): void {
    const around = look(zone, nothing, here);
    visitRemarks(zone, around, here);
    lookAll(zone.exposures, around, here);
    lookAll(zone.locations, around, here);
    visitCategories(zone.categories, around, here);
}

function visitCategories(categories: readonly MeasurementCategory[], around: Around, here: Here): void {
    for (const category of categories) {
        look(category, around, here);
        take(category.voltage, 'category', here);
    }
}

function visitPart(part: Part | Supply | Kind, here: Here): void {
    const around = look(part, nothing, here);
    visitRemarks(part, around, here);
    for (const fault of part.faults) visitFault(fault, around, here);
    for (const repair of part.repairs) visitRepair(repair, around, here);
    for (const test of part.tests) visitTest(test, around, here);
    lookAll(part.protects, around, here);
    lookAll(part.locations, around, here);
    lookAll(part.zones, around, here);
}

function visitFault(fault: Fault, outer: Around, here: Here): void {
    const around = look(fault, outer, here);
    visitRemarks(fault, around, here);
    for (const rate of fault.rates) {
        look(rate, around, here);
        take(rate.amount, 'rate', here);
        take(rate.per, 'rate per', here);
    }
    for (const { faults, after } of fault.causes) {
        lookAll(faults, around, here);
        take(after, 'after', here);
    }
    for (const repair of fault.repairs) visitRepair(repair, around, here);
    lookAll(fault.effects, around, here);
    lookAll(fault.places, around, here);
    lookAll(fault.intermittent, around, here);
    lookAll(fault.makes, around, here);
}

function visitRepair(repair: Repair, around: Around, here: Here): void {
    look(repair, around, here);
    take(repair.takes, 'takes', here);
    take(repair.costs, 'costs', here);
}

function visitChain(chain: Chain, outer: Around, here: Here): void {
    for (const element of chain.elements) {
        const around = look(element, outer, here);
        if (element.sort === 'group') for (const branch of element.chains) visitChain(branch, around, here);
    }
}

function visitTest(test: Test, outer: Around, here: Here): void {
    const around = look(test, outer, here);
    visitRemarks(test, around, here);
    for (const method of test.methods) visitMethod(method, around, here);
    visitAmounts(test.takes, 'takes', around, here);
    visitAmounts(test.costs, 'costs', around, here);
    take(test.during?.duration, 'duration', here);
    for (const outcome of test.outcomes) {
        look(outcome, around, here);
        for (const band of outcome.bands) visitBand(band, here);
    }
    lookAll(test.needs, around, here);
    lookAll(test.checks, around, here);
    lookAll(test.across, around, here);
    lookAll(test.through, around, here);
    lookAll(test.locations, around, here);
    lookAll(test.zones, around, here);
}

function visitMethod(method: Method, around: Around, here: Here): void {
    if (method.sort === 'measure') look(method, around, here);
    else if (method.sort === 'calculate') visitCalculation(method.expression, here);
}

function visitBand(band: Band, here: Here): void {
    switch (band.sort) {
        case 'limit':
            take(band.value, 'reading', here);
            return;
        case 'range':
            take(band.from, 'reading', here);
            take(band.to, 'reading', here);
            return;
        case 'around':
            take(band.value, 'reading', here);
            take(band.tolerance, 'reading', here);
            return;
        case 'from-table':
            take(band.tolerance, 'reading', here);
            here.visitor.reading(band.input);
            return;
        default:
            return;
    }
}

function visitCalculation(calculation: Calculation, here: Here): void {
    switch (calculation.sort) {
        case 'operation':
            visitCalculation(calculation.left, here);
            visitCalculation(calculation.right, here);
            return;
        case 'call':
            for (const argument of calculation.arguments) visitCalculation(argument, here);
            return;
        case 'constant':
            take(calculation.amount, 'reading', here);
            return;
        case 'reading':
            here.visitor.reading(calculation.test);
            return;
        default:
            return;
    }
}

function visitGate(gate: Gate, here: Here): void {
    const around = look(gate, nothing, here);
    visitRemarks(gate, around, here);
    lookAll(gate.controls, around, here);
    for (const { hazards } of gate.permits) lookAll(hazards, around, here);
    visitCategories(gate.instruments, around, here);
    visitAmounts(gate.takes, 'takes', around, here);
    lookAll(gate.wear, around, here);
    for (const element of gate.elements) {
        look(element, around, here);
        take(element.duration, 'duration', here);
        take(element.takes, 'takes', here);
    }
}

function visitInstrument(instrument: Instrument, here: Here): void {
    visitRemarks(instrument, nothing, here);
    visitCategories(instrument.categories, nothing, here);
    for (const measures of instrument.measures) {
        take(measures.from, 'reading', here);
        take(measures.to, 'reading', here);
        take(measures.resolution, 'reading', here);
        take(measures.accuracy, 'reading', here);
        take(measures.accuracyPlus, 'reading', here);
    }
}

function visitTable(table: Table, here: Here): void {
    for (const { input, output } of table.rows) {
        take(input, 'reading', here);
        take(output, 'reading', here);
    }
}

function visitCurve(curve: Curve, here: Here): void {
    for (const { values, at, last, propertyValue } of curve.follows) {
        for (const value of values) take(value, 'reading', here);
        for (const value of [at, last, propertyValue]) take(value, 'reading', here);
    }
    for (const { from, to } of curve.limits) {
        take(from, 'reading', here);
        take(to, 'reading', here);
    }
    lookAll(curve.remarks, nothing, here);
    for (const remark of curve.remarks) if (remark.sort === 'picture') here.visitor.picture(remark);
}

function visitOwner(owner: Tree | Procedure, here: Here): void {
    const around = look(owner, nothing, here);
    visitRemarks(owner, around, here);
    lookAll(owner.cannot, around, here);
    for (const step of owner.steps) {
        const inStep = look(step, around, here);
        for (const statement of step.statements) visitStatement(statement, inStep, here);
    }
    if (owner.sort === 'procedure') return;
    for (const complaint of owner.complaints) {
        look(complaint, around, here);
        take(complaint.mistaken, 'mistaken', here);
    }
    lookAll(owner.stillWrong, around, here);
    lookAll(owner.disagree, around, here);
    for (const end of owner.conclusions) visitEnd(end, around, here);
    for (const end of owner.referrals) visitEnd(end, around, here);
}

function visitStatement(statement: Statement, outer: Around, here: Here): void {
    const around = look(statement, outer, here);
    switch (statement.sort) {
        case 'do':
            take(statement.takes, 'takes', here);
            take(statement.costs, 'costs', here);
            return;
        case 'wait':
            take(statement.amount, 'wait', here);
            return;
        case 'ask':
        case 'confirm':
        case 'follow':
            lookAll(statement.branches, around, here);
            return;
        case 'picture':
            here.visitor.picture(statement);
            return;
        default:
            return;
    }
}

function visitEnd(end: End, outer: Around, here: Here): void {
    const around = look(end, outer, here);
    visitRemarks(end, around, here);
    lookAll(end.faults, around, here);
    for (const repair of end.repairs) visitRepair(repair, around, here);
    lookAll(end.unconfirmed, around, here);
    lookAll(end.leaves, around, here);
    lookAll(end.stillWrong, around, here);
}

function visitRemarks(owner: Remarks, around: Around, here: Here): void {
    for (const remark of owner.remarks) {
        look(remark, around, here);
        if (remark.sort === 'picture') here.visitor.picture(remark);
    }
    lookAll(owner.safety, around, here);
}
