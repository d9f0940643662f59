// Lowers faults, with what they do, how often they come and what they cause; and repairs.

import type * as ast from '../generated/ast.js';
import type { Causes, Fault, Makes, Rate, Repair } from '../core/model/equipment.js';
import { expectUnit } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerOneCost, lowerOneTime } from './lower-clauses.js';
import { lowerGuard, lowerState } from './lower-guards.js';
import { lowerGuardedFault, lowerTestReference } from './lower-references.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import {
    all,
    lowerName,
    lowerOptionalAmount,
    lowerPer,
    lowerProse,
    lowerReferences,
    lowerText,
    packed,
} from './lower-written.js';
import { expectOncePerBuild } from './said-twice.js';
import { endOf, pointAround, startOf } from './spans.js';

/** One way in which a part fails. What stands in the heading holds for all builds. */
export function lowerFault(context: Lowering, node: ast.Fault): Fault {
    const place = node.$cstNode ?? pointAround(node);
    const clauses: Clauses = {
        remarks: undefined,
        effects: [],
        rates: [],
        places: [],
        intermittent: [],
        makes: [],
        causes: [],
        repairs: [],
    };
    for (const clause of all(node.heading)) addClause(context, clauses, clause);
    const guard = lowerGuard(context, node.guard);
    for (const member of all(node.members)) addClause(context, clauses, member);
    expectOncePerBuild(context, clauses.effects, 'stops, weakens, raises, loads or shorts');
    expectOncePerBuild(context, clauses.rates, 'rate');
    expectOncePerBuild(context, clauses.intermittent, 'comes and goes');
    const { remarks, safety, acceptances } = clauses.remarks ?? noRemarks;
    const fault: Fault = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'fault',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard,
        effects: packed(clauses.effects),
        rates: packed(clauses.rates),
        places: packed(clauses.places),
        intermittent: packed(clauses.intermittent),
        makes: packed(clauses.makes),
        causes: packed(clauses.causes),
        repairs: packed(clauses.repairs),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, fault, node);
}

interface Clauses {
    remarks: GatheredRemarks | undefined;
    readonly effects: Fault['effects'][number][];
    readonly rates: Rate[];
    readonly places: Fault['places'][number][];
    readonly intermittent: Fault['intermittent'][number][];
    readonly makes: Makes[];
    readonly causes: Causes[];
    readonly repairs: Repair[];
}

function addClause(context: Lowering, clauses: Clauses, node: ast.FaultHeading | ast.FaultMember): void {
    switch (node.$type) {
        case 'Effect':
            if (node.effect) clauses.effects.push(lowerEffect(context, node));
            return;
        case 'Rate':
            clauses.rates.push(lowerRate(context, node));
            return;
        case 'At':
            clauses.places.push(lowerAt(context, node));
            return;
        case 'Intermittent':
            clauses.intermittent.push(lowerIntermittent(context, node));
            return;
        case 'Makes':
            clauses.makes.push(lowerMakes(context, node));
            return;
        case 'Causes':
            clauses.causes.push(lowerCauses(context, node));
            return;
        case 'Repair':
            clauses.repairs.push(lowerRepair(context, node));
            return;
        default:
            clauses.remarks = addRemark(context, clauses.remarks, node);
    }
}

function lowerEffect(context: Lowering, node: ast.Effect): Fault['effects'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        effect: node.effect,
        guard: lowerGuard(context, node.guard),
    };
}

function lowerAt(context: Lowering, node: ast.At): Fault['places'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        places: lowerReferences(context, node.places, 'place', place),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerIntermittent(context: Lowering, node: ast.Intermittent): Fault['intermittent'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        unless: lowerState(context, node.unless),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerRate(context: Lowering, node: ast.Rate): Rate {
    const place = node.$cstNode ?? pointAround(node);
    const per = lowerPer(context, place, node.per);
    expectUnit(context, per, '`per`', 'h');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        onlyWhenCaused: node.onlyWhenCaused,
        amount: lowerOptionalAmount(context, place, 'amount', node.amount),
        per,
        guard: lowerGuard(context, node.guard),
    };
}

function lowerMakes(context: Lowering, node: ast.Makes): Makes {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        test: lowerTestReference(context, node.test, place),
        outcomes: lowerReferences(context, node.outcomes, 'outcome', place),
        when: lowerState(context, node.when),
        unless: lowerState(context, node.unless),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerCauses(context: Lowering, node: ast.Causes): Causes {
    const place = node.$cstNode ?? pointAround(node);
    const after = lowerOptionalAmount(context, place, 'after', node.after);
    expectUnit(context, after, '`after`', 'min');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        faults: all(node.faults).map(fault => lowerGuardedFault(context, fault)),
        after,
    };
}

/** How a part or a fault is put right, in a part, a kind, a fault or an end. */
export function lowerRepair(context: Lowering, node: ast.Repair): Repair {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'repair',
        action: node.action,
        text: lowerText(context, place, 'text', node.text),
        takes: lowerOneTime(context, place, all(node.takes)),
        costs: lowerOneCost(context, place, all(node.costs)),
        gates: lowerReferences(context, node.gates, 'gate', place),
        guard: lowerGuard(context, node.guard),
    };
}
