// Why a session is where it is: the answers with what they led to, and the faults that can still be named.

import type { Conclusion, Guard, Procedure, Referral, Step, Tree as TreeOfDocument } from '../document/types.js';
import { decide } from './builds.js';
import { faultOf } from './screen-parts.js';
import { type Frame, listOf, type Session, type TrailEntry } from './session.js';

export interface Why {
    readonly answers: readonly TrailEntry[];
    /** The faults that some end names which can still be reached from here. */
    readonly open: readonly string[];
    /** The faults that the tree names elsewhere only: the answers have led past them. */
    readonly past: readonly string[];
    /** Trees that may go on from here; what those name is not known here. */
    readonly otherTrees: readonly string[];
}

/**
 * What the way so far has settled. This goes by the written ways alone, in the build as far as it is said, and reckons with every answer
 * that may still come: a fault that it calls past is named by no end that can be reached any more. It does not reason about what each
 * test would show with each fault, so a fault that it calls open may be ruled out all the same.
 */
export function why(session: Session): Why {
    const reached = reachable(session);
    const { tree } = session.tree.document;
    const all = new Set([...tree.conclusions, ...tree.referrals].flatMap(end => faultsIn(end, session)));
    const open = new Set(reached.ends.flatMap(end => faultsIn(end, session)));
    return {
        answers: listOf(session.trail),
        open: [...all].filter(fault => open.has(fault)),
        past: [...all].filter(fault => !open.has(fault)),
        otherTrees: reached.otherTrees,
    };
}

function faultsIn(end: Conclusion | Referral, session: Session): readonly string[] {
    return (end.faults ?? [])
        .filter(({ fault, guard }) => mayBe(guard, session) && mayBe(faultOf(fault, session.tree)?.guard, session))
        .map(({ fault }) => fault);
}

type Owner = TreeOfDocument | Procedure;

/** A name in a tree or procedure that a way leads to. */
type Lead = readonly [Owner, string];

interface Reached {
    readonly ends: readonly (Conclusion | Referral)[];
    readonly otherTrees: readonly string[];
}

/** Steps and ends that can still be reached. A step of a procedure stands for all calls of it, which can only make more reachable. */
function reachable(session: Session): Reached {
    const { position, tree } = session;
    const root = tree.document.tree;
    const ends = new Set<Conclusion | Referral>();
    const otherTrees = new Set<string>();
    const seen = new Set<Step>();
    const pending: Lead[] = [];
    const leave = (owner: Owner, step: Step, from: number): void => {
        if (from === 0 && seen.has(step)) return;
        if (from === 0) seen.add(step);
        for (const lead of leadsOf(owner, step, from, session)) pending.push(lead);
        for (const statement of step.statements.slice(from)) {
            if (statement.type === 'continue' && mayBe(statement.guard, session)) otherTrees.add(statement.tree);
        }
    };
    if (position.sort === 'start' && root.steps[0]) pending.push([root, root.steps[0].id]);
    if (position.sort === 'end') ends.add(position.end);
    if (position.sort === 'hand-over') otherTrees.add(position.tree);
    if (position.sort === 'step') {
        leave(position.frame.owner, position.step, position.statement);
        for (let frame: Frame | undefined = position.frame; frame?.caller; frame = frame.caller) {
            for (const lead of named(frame.caller.owner, frame.follow?.branches, session)) pending.push(lead);
        }
    }
    for (let next = pending.pop(); next; next = pending.pop()) {
        const [owner, name] = next;
        const target = tree.targets.get(owner)?.get(name);
        if (target?.sort === 'step') leave(owner, target.step, 0);
        else if (target && target.sort !== 'result') ends.add(target.end);
    }
    return { ends: [...ends], otherTrees: [...otherTrees] };
}

function mayBe(guard: Guard | undefined, { tree, choices }: Session): boolean {
    return guard === undefined || decide(guard, tree, choices) !== false;
}

interface Way {
    readonly to: string;
    readonly guard?: Guard;
}

function named(owner: Owner, ways: readonly Way[] | undefined, session: Session): readonly Lead[] {
    return (ways ?? []).filter(({ guard }) => mayBe(guard, session)).map(({ to }): Lead => [owner, to]);
}

/** Everything that a step can lead to from one of its statements on. */
function leadsOf(owner: Owner, step: Step, from: number, session: Session): readonly Lead[] {
    const root = session.tree.document.tree;
    return [
        ...[owner, root].flatMap(one => [
            ...named(one, one.cannotBeRead, session),
            ...named(one, one.cannotBeDone, session),
        ]),
        ...step.statements.slice(from).flatMap(statement => {
            if ('guard' in statement && !mayBe(statement.guard, session)) return [];
            switch (statement.type) {
                case 'do':
                    return named(
                        owner,
                        statement.cannotBeDone === undefined ? [] : [{ to: statement.cannotBeDone }],
                        session,
                    );
                case 'go':
                    return named(owner, [statement], session);
                case 'test':
                    return named(owner, statement.branches, session);
                case 'confirm': {
                    const others = statement.othersDisagree ? named(root, root.disagree, session) : [];
                    return [...named(owner, statement.branches, session), ...others];
                }
                case 'follow': {
                    const procedure = session.tree.procedures.get(statement.procedure);
                    const [first] = procedure?.steps ?? [];
                    const called: readonly Lead[] = procedure && first ? [[procedure, first.id]] : [];
                    return [...named(owner, statement.branches, session), ...called];
                }
                default:
                    return [];
            }
        }),
    ];
}
