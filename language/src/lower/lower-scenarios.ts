// Lowers scenarios: worked cases with the end that they must reach.

import type * as ast from '../generated/ast.js';
import type { FaultReference } from '../core/model/equipment.js';
import type { Scenario } from '../core/model/file.js';
import type { ChoiceReference } from '../core/model/guards.js';
import type { Acceptance, Note, Pointer } from '../core/model/remarks.js';
import { expectUnit } from './amount-units.js';
import type { Lowering } from './context.js';
import { lowerChoiceReference } from './lower-guards.js';
import { lowerFaultReferences, lowerTestReference } from './lower-references.js';
import { lowerAcceptance, lowerRemark } from './lower-remarks.js';
import { all, lowerOptionalAmount, lowerReference, lowerText } from './lower-written.js';
import { expectOnce } from './said-twice.js';
import { endOf, pointAround, spanOf, startOf } from './spans.js';

/** A worked case. Without `of`, its tree is a reference with an empty text behind the title. */
export function lowerScenario(context: Lowering, node: ast.Scenario): Scenario {
    const place = node.$cstNode ?? pointAround(node);
    const title = lowerText(context, place, 'title', node.title);
    const tree = node.tree
        ? lowerReference(context, node.tree, 'tree', place)
        : { ...lowerReference(context, undefined, 'tree', place), start: title.end, end: title.end };
    const members: Members = { build: [], faults: [], reads: [], expects: [], remarks: [], acceptances: [] };
    for (const member of all(node.members)) addMember(context, members, member);
    expectOnce(context, members.expects, 'expect');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'scenario',
        title,
        tree,
        healthy: all(node.members).some(member => member.$type === 'ScenarioFault' && member.healthy),
        ...members,
    };
}

interface Members {
    readonly build: ChoiceReference[];
    readonly faults: FaultReference[];
    readonly reads: Scenario['reads'][number][];
    readonly expects: Scenario['expects'][number][];
    readonly remarks: (Note | Pointer)[];
    readonly acceptances: Acceptance[];
}

function addMember(context: Lowering, members: Members, node: ast.ScenarioMember): void {
    const place = node.$cstNode ?? pointAround(node);
    switch (node.$type) {
        case 'ScenarioBuild':
            for (const choice of all(node.choices)) members.build.push(lowerChoiceReference(context, choice));
            return;
        case 'ScenarioFault':
            members.faults.push(...lowerFaultReferences(context, node.faults, place));
            return;
        case 'ScenarioReads': {
            const test = lowerTestReference(context, node.test, place);
            const outcome = lowerReference(context, node.outcome, 'outcome', place);
            members.reads.push({ ...spanOf(context, place), test, outcome });
            return;
        }
        case 'ScenarioExpect': {
            const target = lowerReference(context, node.end, 'target', place);
            const within = lowerOptionalAmount(context, place, 'amount', node.amount);
            expectUnit(context, within, '`within`', 'min');
            members.expects.push({ ...spanOf(context, place), target, within });
            return;
        }
        case 'Note':
        case 'Reference': {
            const remark = lowerRemark(context, node);
            if (remark.sort !== 'picture') members.remarks.push(remark);
            return;
        }
        case 'Accept':
            members.acceptances.push(lowerAcceptance(context, node));
            return;
        default:
            return;
    }
}
