// Lowers equipment with its options, exclusions and conditions; its other members have their own files.

import type * as ast from '../generated/ast.js';
import type {
    Choice,
    Condition,
    ConditionValue,
    Equipment,
    Exclusion,
    Flow,
    Hazard,
    Kind,
    Option,
    Part,
    Supply,
    Zone,
} from '../core/model/equipment.js';
import type { Gate } from '../core/model/gates.js';
import type { Curve, Instrument, Table, Test } from '../core/model/tests.js';
import { expectPercent, expectUnit } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerFlow } from './lower-flows.js';
import { lowerGate } from './lower-gates.js';
import { lowerChoices, lowerGuard } from './lower-guards.js';
import { lowerHazard, lowerZone } from './lower-hazards.js';
import { lowerCurve } from './lower-curves.js';
import { lowerInstrument, lowerTable } from './lower-instruments.js';
import { lowerKind, lowerPart, lowerSupply } from './lower-parts.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import { lowerTest } from './lower-tests.js';
import { all, lowerAmount, lowerName, lowerPer, lowerProse, lowerReferences, packed } from './lower-written.js';
import { expectOnce } from './said-twice.js';
import { endOf, pointAround, spanOf, startOf } from './spans.js';

/** One product family with all that it declares. */
export function lowerEquipment(context: Lowering, node: ast.Equipment): Equipment {
    const place = node.$cstNode ?? pointAround(node);
    const lists = emptyLists();
    for (const member of all(node.members)) addMember(context, lists, member);
    const { remarks, safety, acceptances } = lists.gathered ?? noRemarks;
    const equipment: Equipment = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'equipment',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        options: packed(lists.options),
        exclusions: packed(lists.exclusions),
        hazards: packed(lists.hazards),
        zones: packed(lists.zones),
        conditions: packed(lists.conditions),
        supplies: packed(lists.supplies),
        parts: packed(lists.parts),
        kinds: packed(lists.kinds),
        flows: packed(lists.flows),
        tests: packed(lists.tests),
        gates: packed(lists.gates),
        instruments: packed(lists.instruments),
        tables: packed(lists.tables),
        curves: packed(lists.curves),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, equipment, node);
}

interface Lists {
    gathered: GatheredRemarks | undefined;
    readonly options: Option[];
    readonly exclusions: Exclusion[];
    readonly hazards: Hazard[];
    readonly zones: Zone[];
    readonly conditions: Condition[];
    readonly supplies: Supply[];
    readonly parts: Part[];
    readonly kinds: Kind[];
    readonly flows: Flow[];
    readonly tests: Test[];
    readonly gates: Gate[];
    readonly instruments: Instrument[];
    readonly tables: Table[];
    readonly curves: Curve[];
}

function emptyLists(): Lists {
    return {
        gathered: undefined,
        options: [],
        exclusions: [],
        hazards: [],
        zones: [],
        conditions: [],
        supplies: [],
        parts: [],
        kinds: [],
        flows: [],
        tests: [],
        gates: [],
        instruments: [],
        tables: [],
        curves: [],
    };
}

function addMember(context: Lowering, lists: Lists, node: ast.EquipmentMember): void {
    switch (node.$type) {
        case 'Option':
            lists.options.push(lowerOption(context, node));
            return;
        case 'Exclusion':
            lists.exclusions.push(lowerExclusion(context, node));
            return;
        case 'Hazard':
            lists.hazards.push(lowerHazard(context, node));
            return;
        case 'Zone':
            lists.zones.push(lowerZone(context, node));
            return;
        case 'Condition':
            lists.conditions.push(lowerCondition(context, node));
            return;
        case 'Supply':
            lists.supplies.push(lowerSupply(context, node));
            return;
        case 'Part':
            lists.parts.push(lowerPart(context, node));
            return;
        case 'Kind':
            lists.kinds.push(lowerKind(context, node));
            return;
        case 'Flow':
            lists.flows.push(lowerFlow(context, node));
            return;
        case 'Test':
            lists.tests.push(lowerTest(context, node));
            return;
        case 'Gate':
            lists.gates.push(lowerGate(context, node));
            return;
        case 'Instrument':
            lists.instruments.push(lowerInstrument(context, node));
            return;
        case 'Table':
            lists.tables.push(lowerTable(context, node));
            return;
        case 'Curve':
            lists.curves.push(lowerCurve(context, node));
            return;
        default:
            lists.gathered = addRemark(context, lists.gathered, node);
    }
}

function lowerOption(context: Lowering, node: ast.Option): Option {
    const place = node.$cstNode ?? pointAround(node);
    const option: Option = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'option',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard: lowerGuard(context, node.guard),
        choices: all(node.choices).map(choice => lowerChoice(context, choice)),
    };
    return declared(context, option, node);
}

function lowerChoice(context: Lowering, node: ast.Choice): Choice {
    const place = node.$cstNode ?? pointAround(node);
    const choice: Choice = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'choice-declared',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        share: lowerShare(context, all(node.shares)),
        duty: lowerDuty(context, all(node.duties)),
    };
    return declared(context, choice, node);
}

function lowerShare(context: Lowering, nodes: readonly ast.Share[]): Choice['share'] {
    const [node] = nodes;
    if (!node) return undefined;
    const places = nodes.map(share => share.$cstNode ?? pointAround(share));
    expectOnce(
        context,
        places.map(place => spanOf(context, place)),
        'share',
    );
    const share = lowerAmount(context, places[0] ?? pointAround(node), 'amount', node.amount);
    expectPercent(context, share, '`share`');
    return share;
}

function lowerDuty(context: Lowering, nodes: readonly ast.Duty[]): Choice['duty'] {
    const [node] = nodes;
    if (!node) return undefined;
    const places = nodes.map(duty => duty.$cstNode ?? pointAround(duty));
    expectOnce(
        context,
        places.map(place => spanOf(context, place)),
        'duty',
    );
    const place = places[0] ?? pointAround(node);
    const amount = lowerAmount(context, place, 'amount', node.amount);
    const per = lowerPer(context, place, node.per) ?? lowerAmount(context, place, 'per', undefined);
    expectUnit(context, amount, '`duty`', 'starts');
    expectUnit(context, per, '`per`', 'h');
    return { amount, per };
}

function lowerExclusion(context: Lowering, node: ast.Exclusion): Exclusion {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'exclusion',
        terms: lowerChoices(context, node.terms),
        reason: lowerProse(context, place, 'reason', node.reason),
    };
}

function lowerCondition(context: Lowering, node: ast.Condition): Condition {
    const place = node.$cstNode ?? pointAround(node);
    const condition: Condition = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'condition',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard: lowerGuard(context, node.guard),
        values: all(node.values).map(value => lowerConditionValue(context, value)),
    };
    return declared(context, condition, node);
}

function lowerConditionValue(context: Lowering, node: ast.ConditionValue): ConditionValue {
    const place = node.$cstNode ?? pointAround(node);
    const value: ConditionValue = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'value',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        bypasses: lowerReferences(context, node.bypasses, 'part', place),
    };
    return declared(context, value, node);
}
