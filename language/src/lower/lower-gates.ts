// Lowers gates: what they control or permit, and their elements in order.

import type * as ast from '../generated/ast.js';
import type { MeasurementCategory } from '../core/model/equipment.js';
import type { ControlledHazard, Gate, GateElement, Setting } from '../core/model/gates.js';
import type { GuardedAmount } from '../core/model/tests.js';
import { expectUnit } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerCategory, lowerOneReference, lowerOneTime, lowerTakes } from './lower-clauses.js';
import { lowerGuard } from './lower-guards.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import {
    all,
    lowerName,
    lowerOptionalAmount,
    lowerProse,
    lowerReference,
    lowerReferences,
    lowerText,
    lowerWord,
    packed,
} from './lower-written.js';
import { expectOnce, expectOncePerBuild } from './said-twice.js';
import { endOf, pointAround, spanOf, startOf } from './spans.js';

/** A procedure that puts hazards under control, or allows one kind of work beside them. */
export function lowerGate(context: Lowering, node: ast.Gate): Gate {
    const place = node.$cstNode ?? pointAround(node);
    const guard = lowerGuard(context, node.guard);
    const clauses: Clauses = {
        remarks: undefined,
        controls: [],
        permits: [],
        instruments: [],
        wear: [],
        elements: [],
        takes: [],
    };
    for (const member of all(node.members)) addClause(context, clauses, member);
    expectOncePerBuild(context, clauses.instruments, 'instrument category');
    expectOncePerBuild(context, clauses.takes, 'takes');
    const { remarks, safety, acceptances } = clauses.remarks ?? noRemarks;
    const gate: Gate = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'gate',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard,
        controls: packed(clauses.controls),
        permits: packed(clauses.permits),
        instruments: packed(clauses.instruments),
        wear: packed(clauses.wear),
        elements: packed(clauses.elements),
        takes: packed(clauses.takes),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, gate, node);
}

/** `sets CONDITION VALUE`, in a gate's element or a `do`. */
export function lowerSetting(context: Lowering, node: ast.Setting): Setting {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        condition: lowerReference(context, node.condition, 'condition', place),
        value: lowerReference(context, node.value, 'value', place),
    };
}

interface Clauses {
    remarks: GatheredRemarks | undefined;
    readonly controls: ControlledHazard[];
    readonly permits: Gate['permits'][number][];
    readonly instruments: MeasurementCategory[];
    readonly wear: Gate['wear'][number][];
    readonly elements: GateElement[];
    readonly takes: GuardedAmount[];
}

function addClause(context: Lowering, clauses: Clauses, node: ast.GateMember): void {
    const place = node.$cstNode ?? pointAround(node);
    switch (node.$type) {
        case 'Controls':
            for (const hazard of all(node.hazards)) clauses.controls.push(lowerControlledHazard(context, hazard));
            return;
        case 'Permits':
            clauses.permits.push({
                ...spanOf(context, place),
                activity: lowerWord(context, place, 'activity', node.activity),
                hazards: all(node.hazards).map(hazard => lowerControlledHazard(context, hazard)),
            });
            return;
        case 'InstrumentNeed':
            clauses.instruments.push(lowerCategory(context, node));
            return;
        case 'Wear':
            clauses.wear.push({
                ...spanOf(context, place),
                text: lowerText(context, place, 'text', node.text),
                guard: lowerGuard(context, node.guard),
            });
            return;
        case 'GateElement':
            clauses.elements.push(lowerGateElement(context, node));
            return;
        case 'Takes':
            clauses.takes.push(lowerTakes(context, node));
            return;
        default:
            clauses.remarks = addRemark(context, clauses.remarks, node);
    }
}

function lowerControlledHazard(context: Lowering, node: ast.ControlledHazard): ControlledHazard {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        hazard: lowerReference(context, node.hazard, 'energy', place),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerGateElement(context: Lowering, node: ast.GateElement): GateElement {
    const place = node.$cstNode ?? pointAround(node);
    const hazards = lowerReferences(context, node.hazards, 'energy', place);
    const duration = lowerOptionalAmount(context, place, 'duration', node.duration);
    expectUnit(context, duration, `\`${node.element}\``, 's');
    const instrument = lowerOneReference(context, all(node.instruments), 'instrument', place, 'with');
    if (all(node.provings).length > 1) {
        expectOnce(
            context,
            all(node.provings).map(proving => spanOf(context, proving.$cstNode ?? pointAround(proving))),
            'proved before and after',
        );
    }
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        element: node.element,
        hazards,
        text: lowerText(context, place, 'text', node.text),
        duration,
        settings: all(node.settings).map(setting => lowerSetting(context, setting)),
        takes: lowerOneTime(context, place, all(node.takes)),
        instrument,
        provedBeforeAndAfter: all(node.provings).length > 0,
        guard: lowerGuard(context, node.guard),
    };
}
