// Lowers conclusions and referrals: the faults they name, the repairs, and where to go when the complaint is still there.

import type * as ast from '../generated/ast.js';
import type { Repair } from '../core/model/equipment.js';
import type { Conclusion, End, Handover, Leaves, Referral } from '../core/model/trees.js';
import { declared, type Lowering } from './context.js';
import { lowerRepair } from './lower-faults.js';
import { lowerGuard } from './lower-guards.js';
import { lowerGuardedFault } from './lower-references.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import {
    all,
    lowerName,
    lowerOptionalReference,
    lowerProse,
    lowerReference,
    lowerText,
    packed,
} from './lower-written.js';
import { expectOncePerBuild } from './said-twice.js';
import { endOf, pointAround, startOf } from './spans.js';

/** The faults that a path proves, with their repair. */
export function lowerConclusion(context: Lowering, node: ast.Conclusion): Conclusion {
    const conclusion: Conclusion = { ...lowerEnd(context, node), sort: 'conclusion', inOrder: node.inOrder };
    return declared(context, conclusion, node);
}

/** A deliberate hand-over to somebody else. */
export function lowerReferral(context: Lowering, node: ast.Referral): Referral {
    const place = node.$cstNode ?? pointAround(node);
    const reason = lowerProse(context, place, 'reason', node.reason);
    return declared(context, { ...lowerEnd(context, node), sort: 'referral', reason }, node);
}

/** Where the technician goes when something does not go as said. */
export function lowerHandover(context: Lowering, node: ast.StillWrong | ast.Disagree | ast.Cannot): Handover {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        target: lowerReference(context, node.target, 'target', place),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerEnd(context: Lowering, node: ast.Conclusion | ast.Referral): End {
    const place = node.$cstNode ?? pointAround(node);
    const guard = lowerGuard(context, node.guard);
    const faults = all(node.faults).map(fault => lowerGuardedFault(context, fault));
    let gathered: GatheredRemarks | undefined;
    const repairs: Repair[] = [];
    const unconfirmed: End['unconfirmed'][number][] = [];
    const leaves: Leaves[] = [];
    const stillWrong: Handover[] = [];
    for (const member of all(node.members)) {
        switch (member.$type) {
            case 'Repair':
                repairs.push(lowerRepair(context, member));
                break;
            case 'Leaves':
                leaves.push(lowerLeaves(context, member));
                break;
            case 'StillWrong':
                stillWrong.push(lowerHandover(context, member));
                break;
            case 'Unconfirmed':
                unconfirmed.push(lowerUnconfirmed(context, member));
                break;
            default:
                gathered = addRemark(context, gathered, member);
        }
    }
    expectOncePerBuild(context, unconfirmed, 'unconfirmed');
    expectOncePerBuild(context, stillWrong, 'still wrong');
    const { remarks, safety, acceptances } = gathered ?? noRemarks;
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard,
        faults,
        repairs: packed(repairs),
        unconfirmed: packed(unconfirmed),
        leaves: packed(leaves),
        stillWrong: packed(stillWrong),
        remarks,
        safety,
        acceptances,
    };
}

function lowerUnconfirmed(context: Lowering, node: ast.Unconfirmed): End['unconfirmed'][number] {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        reason: lowerText(context, place, 'reason', node.reason),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerLeaves(context: Lowering, node: ast.Leaves): Leaves {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        gate: lowerOptionalReference(context, node.gate, 'gate', place),
        condition: lowerOptionalReference(context, node.condition, 'condition', place),
        value: node.condition && lowerReference(context, node.value, 'value', place),
        guard: lowerGuard(context, node.guard),
    };
}
