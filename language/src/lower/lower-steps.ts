// Lowers steps: what is done in them, in order, and where their tests lead.

import type * as ast from '../generated/ast.js';
import type { Acceptance } from '../core/model/remarks.js';
import type { Branch, Confirm, Do, Statement, Step, Wait } from '../core/model/trees.js';
import type { ReferenceRole } from '../core/model/written.js';
import { expectUnit } from './amount-units.js';
import { declared, type Lowering } from './context.js';
import { lowerOneCost, lowerOneReference, lowerOneTime } from './lower-clauses.js';
import { lowerSetting } from './lower-gates.js';
import { lowerGuard } from './lower-guards.js';
import { lowerFaultReferences, lowerTestReference } from './lower-references.js';
import { lowerAcceptance, lowerRemark, lowerSafetyStatement } from './lower-remarks.js';
import {
    all,
    lowerAmount,
    lowerName,
    lowerOptionalReference,
    lowerProse,
    lowerReference,
    lowerReferences,
    lowerText,
    packed,
} from './lower-written.js';
import { blockOf, endOf, pointAround, startOf } from './spans.js';
import { reportStepGoesOn } from './step-goes-on.js';

/** One step of a tree or a procedure. */
export function lowerStep(context: Lowering, node: ast.Step): Step {
    const place = node.$cstNode ?? pointAround(node);
    const guard = lowerGuard(context, node.guard);
    const statements: Statement[] = [];
    const acceptances: Acceptance[] = [];
    for (const member of all(node.statements)) {
        if (member.$type === 'Accept') acceptances.push(lowerAcceptance(context, member));
        else {
            const statement = lowerStatement(context, member);
            if (statement) statements.push(statement);
        }
    }
    reportStepGoesOn(context, statements);
    const step: Step = {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'step',
        name: lowerName(context, place, node.name),
        title: lowerProse(context, place, 'title', node.title),
        guard,
        statements: packed(statements),
        acceptances: packed(acceptances),
    };
    return declared(context, step, node);
}

function lowerStatement(context: Lowering, node: Exclude<ast.Statement, ast.Accept>): Statement | undefined {
    switch (node.$type) {
        case 'Do':
            return lowerDo(context, node);
        case 'Wait':
            return lowerWait(context, node);
        case 'Confirm':
            return lowerConfirm(context, node);
        case 'Note':
        case 'Picture':
        case 'Reference':
            return lowerRemark(context, node);
        case 'SafetyStatement':
            return lowerSafetyStatement(context, node);
        default:
            return lowerShortStatement(context, node);
    }
}

function lowerShortStatement(
    context: Lowering,
    node: ast.UseGate | ast.Restore | ast.Read | ast.Ask | ast.Follow | ast.Go | ast.ContinueWith,
): Statement | undefined {
    const place = node.$cstNode ?? pointAround(node);
    const { file } = context;
    const start = startOf(place);
    const end = endOf(place);
    switch (node.$type) {
        case 'UseGate':
        case 'Restore': {
            const gate = lowerReference(context, node.gate, 'gate', place);
            const sort = node.$type === 'Restore' ? 'restore' : 'gate-used';
            return { file, start, end, sort, gate, guard: lowerGuard(context, node.guard) };
        }
        case 'Read': {
            const tests = all(node.tests).map(test => lowerTestReference(context, test, place));
            return { file, start, end, sort: 'read', tests, guard: lowerGuard(context, node.guard) };
        }
        case 'Ask': {
            const test = lowerTestReference(context, node.test, place);
            const guard = lowerGuard(context, node.guard);
            const branches = lowerBranches(context, all(node.branches), 'outcome');
            return { file, start, end, sort: 'ask', test, guard, branches, block: blockOf(context, place) };
        }
        case 'Follow': {
            const procedure = lowerReference(context, node.procedure, 'procedure', place);
            const subject = node.subject && lowerTestReference(context, node.subject, place, 'subject-given');
            const guard = lowerGuard(context, node.guard);
            const branches = lowerBranches(context, all(node.branches), 'result');
            return {
                file,
                start,
                end,
                sort: 'follow',
                procedure,
                subject,
                guard,
                branches,
                block: blockOf(context, place),
            };
        }
        case 'Go': {
            const target = lowerReference(context, node.target, 'target', place);
            return { file, start, end, sort: 'go', target, guard: lowerGuard(context, node.guard) };
        }
        case 'ContinueWith': {
            const tree = lowerReference(context, node.tree, 'tree', place);
            return { file, start, end, sort: 'continue', tree, guard: lowerGuard(context, node.guard) };
        }
        default:
            return undefined;
    }
}

function lowerDo(context: Lowering, node: ast.Do): Do {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'do',
        text: lowerText(context, place, 'text', node.text),
        settings: all(node.settings).map(setting => lowerSetting(context, setting)),
        clears: all(node.clears).flatMap(clears => lowerFaultReferences(context, clears.faults, place)),
        replaces: all(node.replaces).flatMap(({ parts }) => lowerReferences(context, parts, 'part', place)),
        uses: all(node.uses).flatMap(({ parts }) => lowerReferences(context, parts, 'part', place)),
        at: lowerOneReference(
            context,
            all(node.at).map(({ part }) => part),
            'part',
            place,
            'at',
        ),
        in: lowerOneReference(
            context,
            all(node.in).map(({ zone }) => zone),
            'zone',
            place,
            'in',
        ),
        takes: lowerOneTime(context, place, all(node.takes)),
        costs: lowerOneCost(context, place, all(node.costs)),
        cannot: lowerOneReference(
            context,
            all(node.cannot).map(({ target }) => target),
            'target',
            place,
            'cannot be done',
        ),
        guard: lowerGuard(context, node.guard),
    };
}

function lowerWait(context: Lowering, node: ast.Wait): Wait {
    const place = node.$cstNode ?? pointAround(node);
    const amount = lowerAmount(context, place, 'amount', node.amount);
    expectUnit(context, amount, '`wait`', 'min');
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'wait',
        amount,
        hazard: lowerOptionalReference(context, node.hazard, 'energy', place),
        text: lowerProse(context, place, 'text', node.text),
        guard: lowerGuard(context, node.guard),
    };
}

// The short form names the expected outcomes only; they become its one branch.
function lowerConfirm(context: Lowering, node: ast.Confirm): Confirm {
    const place = node.$cstNode ?? pointAround(node);
    const test = lowerTestReference(context, node.test, place);
    const block = blockOf(context, place);
    const short = block === undefined;
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        sort: 'confirm',
        test,
        branches: short ? lowerExpected(context, node) : lowerBranches(context, all(node.branches), 'outcome'),
        short,
        block,
        guard: lowerGuard(context, node.guard),
    };
}

function lowerExpected(context: Lowering, node: ast.Confirm): readonly Branch[] {
    const place = node.$cstNode ?? pointAround(node);
    if (all(node.outcomes).length === 0 && !node.target) return [];
    const outcomes = lowerReferences(context, node.outcomes, 'outcome', place);
    const target = lowerReference(context, node.target, 'target', place);
    return [
        {
            file: context.file,
            start: (outcomes[0] ?? target).start,
            end: target.end,
            outcomes,
            otherwise: false,
            cannotBeRead: false,
            target,
            guard: undefined,
        },
    ];
}

function lowerBranches(context: Lowering, nodes: readonly ast.Branch[], role: ReferenceRole): readonly Branch[] {
    return nodes.map(node => lowerBranch(context, node, role));
}

function lowerBranch(context: Lowering, node: ast.Branch, role: ReferenceRole): Branch {
    const place = node.$cstNode ?? pointAround(node);
    return {
        file: context.file,
        start: startOf(place),
        end: endOf(place),
        outcomes: lowerReferences(context, node.outcomes, role, place),
        otherwise: node.otherwise,
        cannotBeRead: node.cannotBeRead,
        target: lowerReference(context, node.target, 'target', place),
        guard: lowerGuard(context, node.guard),
    };
}
