// Lowers trees and procedures: complaints, handovers, results; steps and ends have their own files.

import type * as ast from '../generated/ast.js';
import type {
    Cannot,
    Complaint,
    Conclusion,
    Handover,
    Procedure,
    Referral,
    Result,
    Step,
    Subject,
    Tree,
} from '../core/model/trees.js';
import { expectPercent } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerConclusion, lowerHandover, lowerReferral } from './lower-ends.js';
import { lowerGuard, lowerState } from './lower-guards.js';
import { lowerTestReference } from './lower-references.js';
import { addRemark, type GatheredRemarks, noRemarks } from './lower-remarks.js';
import { lowerStep } from './lower-steps.js';
import {
    all,
    lowerName,
    lowerOptionalAmount,
    lowerOptionalReference,
    lowerProse,
    lowerReference,
    lowerReferences,
    packed,
} from './lower-written.js';
import { expectOnce, expectOncePerBuild, expectOncePerSort } from './said-twice.js';
import { endOf, pointAround, startOf } from './spans.js';

/** One fault isolation tree. Without `of`, its equipment is a reference with an empty text behind the heading. */
export function lowerTree(context: Lowering, node: ast.Tree): Tree {
    const place = node.$cstNode ?? pointAround(node);
    const name = lowerName(context, place, node.name);
    const title = lowerProse(context, place, 'title', node.title);
    const behindHeading = (title ?? name).end;
    const equipment = node.equipment
        ? lowerReference(context, node.equipment, 'equipment', place)
        : { ...lowerReference(context, undefined, 'equipment', place), start: behindHeading, end: behindHeading };
    const guard = lowerGuard(context, node.guard);
    const members: TreeMembers = {
        gathered: undefined,
        complaints: [],
        steps: [],
        conclusions: [],
        referrals: [],
        stillWrong: [],
        disagree: [],
        cannot: [],
    };
    for (const member of all(node.members)) addTreeMember(context, members, member);
    expectOnceInTree(context, members);
    const { remarks, safety, acceptances } = members.gathered ?? noRemarks;
    const tree: Tree = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'tree',
        name,
        title,
        guard,
        equipment,
        complaints: packed(members.complaints),
        steps: packed(members.steps),
        conclusions: packed(members.conclusions),
        referrals: packed(members.referrals),
        stillWrong: packed(members.stillWrong),
        disagree: packed(members.disagree),
        cannot: packed(members.cannot),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, tree, node);
}

/** A procedure that trees and other procedures follow. */
export function lowerProcedure(context: Lowering, node: ast.Procedure): Procedure {
    const place = node.$cstNode ?? pointAround(node);
    const equipment = lowerOptionalReference(context, node.equipment, 'equipment', place);
    const subject = node.about && lowerSubject(context, node.about);
    const guard = lowerGuard(context, node.guard);
    let gathered: GatheredRemarks | undefined;
    const steps: Step[] = [];
    const results: Result[] = [];
    const cannot: Cannot[] = [];
    for (const member of all(node.members)) {
        switch (member.$type) {
            case 'Step':
                steps.push(lowerStep(context, member));
                break;
            case 'Result':
                results.push(lowerResult(context, member));
                break;
            case 'Cannot':
                cannot.push(lowerCannot(context, member));
                break;
            default:
                gathered = addRemark(context, gathered, member);
        }
    }
    expectOncePerSort(context, cannot, ({ what }) => `cannot be ${what}`);
    const { remarks, safety, acceptances } = gathered ?? noRemarks;
    const procedure: Procedure = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'procedure',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard,
        equipment,
        subject,
        steps: packed(steps),
        results: packed(results),
        cannot: packed(cannot),
        remarks,
        safety,
        acceptances,
    };
    return declared(context, procedure, node);
}

interface TreeMembers {
    gathered: GatheredRemarks | undefined;
    readonly complaints: Complaint[];
    readonly steps: Step[];
    readonly conclusions: Conclusion[];
    readonly referrals: Referral[];
    readonly stillWrong: Handover[];
    readonly disagree: Handover[];
    readonly cannot: Cannot[];
}

function addTreeMember(context: Lowering, members: TreeMembers, node: ast.TreeMember): void {
    switch (node.$type) {
        case 'Complaint':
            members.complaints.push(lowerComplaint(context, node));
            return;
        case 'Step':
            members.steps.push(lowerStep(context, node));
            return;
        case 'Conclusion':
            members.conclusions.push(lowerConclusion(context, node));
            return;
        case 'Referral':
            members.referrals.push(lowerReferral(context, node));
            return;
        case 'StillWrong':
            members.stillWrong.push(lowerHandover(context, node));
            return;
        case 'Disagree':
            members.disagree.push(lowerHandover(context, node));
            return;
        case 'Cannot':
            members.cannot.push(lowerCannot(context, node));
            return;
        default:
            members.gathered = addRemark(context, members.gathered, node);
    }
}

function expectOnceInTree(context: Lowering, members: TreeMembers): void {
    expectOncePerBuild(context, members.stillWrong, 'still wrong');
    expectOncePerBuild(context, members.disagree, 'disagree');
    expectOncePerSort(context, members.cannot, ({ what }) => `cannot be ${what}`);
    // The share of mistaken complaints is one number for the tree, however many complaints lead to it.
    const mistaken = members.complaints
        .filter(complaint => !complaint.guard)
        .flatMap(complaint => complaint.mistaken ?? []);
    expectOnce(context, mistaken, 'mistaken');
}

function lowerComplaint(context: Lowering, node: ast.Complaint): Complaint {
    const place = node.$cstNode ?? pointAround(node);
    const mistaken = lowerOptionalAmount(context, place, 'mistaken', node.mistaken);
    expectPercent(context, mistaken, '`mistaken`');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        test: lowerTestReference(context, node.test, place),
        outcomes: lowerReferences(context, node.outcomes, 'outcome', place),
        when: lowerState(context, node.when),
        mistaken,
        guard: lowerGuard(context, node.guard),
    };
}

function lowerCannot(context: Lowering, node: ast.Cannot): Cannot {
    return { ...lowerHandover(context, node), what: node.what ?? 'done' };
}

function lowerSubject(context: Lowering, node: ast.Subject): Subject {
    const place = node.$cstNode ?? pointAround(node);
    const subject: Subject = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'subject',
        of: node.sort ?? 'kind',
        kind: node.sort ? undefined : lowerReference(context, node.kind, 'kind', place),
    };
    return declared(context, subject, node);
}

function lowerResult(context: Lowering, node: ast.Result): Result {
    const place = node.$cstNode ?? pointAround(node);
    const result: Result = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'result',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
    };
    return declared(context, result, node);
}
