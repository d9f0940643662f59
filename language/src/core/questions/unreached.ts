// Steps and ends to which no unit comes, as far as no other finding says why already.

import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Branch, Conclusion, End, Follow, Procedure, Referral, Statement, Step, Tree } from '../model/trees.js';
import type { Span } from '../model/written.js';
import { componentsOf } from '../walk/components.js';
import { isExit } from './exits.js';
import { type Passages, passagesOf } from './passages.js';
import { unusedIn } from './unused.js';
import { type WalkedTree, walkedTrees, walksThrough } from './walks.js';
import { hasWrongWays } from './wrong-ends.js';

/** Something that nobody comes to, with what leads there and is not taken. */
export interface Unreached {
    readonly what: Step | Conclusion | Referral;
    readonly leading: readonly { readonly written: Span; readonly text: string }[];
}

interface Signal {
    readonly aborted: boolean;
}

/** What nobody comes to in the trees and procedures of a file, in the order of the text. */
export function unreachedIn(file: FileModel, model: Model, signal: Signal): Unreached[] {
    const unused = new Set<unknown>(unusedIn(file, model).map(({ declaration }) => declaration));
    const inTrees = walkedTrees(file, model, signal).flatMap(walked =>
        unreachedOf(walked.tree, { walks: [walked], passages: [passagesOf(walked.all)], unused, model }),
    );
    if (file.procedures.length === 0) return inTrees;
    const walks = walksThrough(file, model, signal);
    const passages = [...new Set(walks.map(({ all }) => all))].map(passagesOf);
    const inProcedures = file.procedures
        // One that nobody follows is told where it is declared, or where it would be followed.
        .filter(({ steps: [first] }) => first && passages.some(({ visited }) => visited.has(first)))
        .flatMap(procedure => unreachedOf(procedure, { walks, passages, unused, model }));
    return [...inTrees, ...inProcedures].sort((one, other) => one.what.start - other.what.start);
}

/** What is known of those who go through a tree or a procedure. */
interface Passing {
    readonly walks: readonly WalkedTree[];
    /** Of each equipment that it is followed in. */
    readonly passages: readonly Passages[];
    readonly unused: ReadonlySet<unknown>;
    readonly model: Model;
}

function unreachedOf(owner: Tree | Procedure, passing: Passing): Unreached[] {
    const explained = explainedIn(owner, passing);
    const open = placesOf(owner).filter(
        one => !isVisited(one, passing) && !explained.has(one) && !passing.unused.has(one) && one.name.text !== '',
    );
    const told = open.length === 0 ? [] : withoutThoseBehind(open);
    if (told.length === 0) return [];
    const leading = leadingIn(owner);
    return told.map(what => ({ what, leading: leading.get(what.name.text) ?? [] }));
}

function placesOf(owner: Tree | Procedure): Unreached['what'][] {
    return owner.sort === 'tree' ? [...owner.steps, ...owner.conclusions, ...owner.referrals] : [...owner.steps];
}

function isVisited(one: Step | End, { passages }: Passing): boolean {
    return passages.some(({ visited }) => visited.has(one));
}

/** One that another such step leads to is reached when that step is; of a circle the first in the text is told. */
function withoutThoseBehind(open: readonly Unreached['what'][]): Unreached['what'][] {
    const byName = new Map<string, number[]>();
    open.forEach(({ name }, index) => byName.set(name.text, [...(byName.get(name.text) ?? []), index]));
    const next = open.map(one =>
        'statements' in one ? targetsOfStep(one).flatMap(name => byName.get(name) ?? []) : [],
    );
    const component = componentsOf(next);
    const isBehind = new Set<number>();
    next.forEach((list, index) => {
        for (const to of list) {
            const isLaterInCircle =
                component[index] === component[to] && (open[index]?.start ?? 0) >= (open[to]?.start ?? 0);
            if (!isLaterInCircle) isBehind.add(to);
        }
    });
    return open.filter((_, index) => !isBehind.has(index));
}

/**
 * What another finding explains: what lies behind branches that nobody takes, behind steps that nothing leads to, behind what
 * a step says after it has ended, and what a build is led to that does not have it. All that follows is not told again.
 */
function explainedIn(owner: Tree | Procedure, passing: Passing): ReadonlySet<Step | End> {
    const byName = new Map<string, Step | End>(placesOf(owner).map(one => [one.name.text, one]));
    const names: string[] = [];
    for (const step of owner.steps) {
        if (passing.unused.has(step)) names.push(...targetsOfStep(step));
        else if (passing.passages.some(({ walked }) => walked.has(step))) names.push(...untakenTargets(step, passing));
    }
    for (const { route, walk } of passing.walks) {
        for (const { sort, exit } of walk.meetings) {
            const written = sort === 'missing' && exit !== undefined ? route.exits[exit]?.written : undefined;
            const target = written && 'target' in written ? written.target : undefined;
            if (target && target.start >= owner.start && target.end <= owner.end) names.push(target.text);
        }
    }
    const explained = new Set<Step | End>();
    for (let name = names.pop(); name !== undefined; name = names.pop()) {
        const next = byName.get(name);
        if (!next || explained.has(next) || isVisited(next, passing)) continue;
        explained.add(next);
        if ('statements' in next) names.push(...targetsOfStep(next));
    }
    return explained;
}

/** Where a step would lead that somebody comes to: by branches that nobody takes, and by what stands behind its end. */
function untakenTargets(step: Step, passing: Passing): string[] {
    const names: string[] = [];
    let hasEnded = false;
    for (const statement of step.statements) {
        if (hasEnded) names.push(...targetsOf(statement));
        // A branch of `confirm` that nobody takes is told nowhere.
        else if ('branches' in statement && statement.sort !== 'confirm') {
            const untaken = statement.branches
                .filter(branch => !passing.passages.some(({ taken }) => taken.has(branch)))
                .filter(branch => statement.sort !== 'follow' || isToldInside(branch, statement, passing));
            names.push(...untaken.map(({ target }) => target.text));
        }
        hasEnded ||= isExit(statement) && !('guard' in statement && statement.guard);
    }
    return names;
}

/** Whether the branch for a result is not taken because nobody at all is given that result: the procedure tells why. */
function isToldInside(branch: Branch, { procedure, branches }: Follow, { walks, passages, model }: Passing): boolean {
    const followed = model.target(procedure);
    if (followed?.sort !== 'procedure' || walks.some(hasWrongWays)) return true;
    const named = branches.flatMap(({ outcomes }) => outcomes.map(({ text }) => text));
    const results = followed.results.filter(({ name }) =>
        branch.otherwise ? !named.includes(name.text) : branch.outcomes.some(({ text }) => text === name.text),
    );
    return !results.some(result => passages.some(({ given }) => given.has(result)));
}

/** The names of the steps and ends that a step leads to. */
export function targetsOfStep(step: Step): string[] {
    return step.statements.flatMap(targetsOf);
}

function targetsOf(statement: Statement): string[] {
    if ('branches' in statement) return statement.branches.map(({ target }) => target.text);
    if (statement.sort === 'go') return [statement.target.text];
    return statement.sort === 'do' && statement.cannot ? [statement.cannot.text] : [];
}

/** By name: what would lead there. */
function leadingIn(owner: Tree | Procedure): ReadonlyMap<string, Unreached['leading']> {
    const leading = new Map<string, { written: Span; text: string }[]>();
    for (const step of owner.steps) {
        const text = `step \`${step.name.text}\` would lead here`;
        for (const statement of step.statements) {
            const targets = 'branches' in statement ? statement.branches.map(({ target }) => target) : [];
            if (statement.sort === 'go') targets.push(statement.target);
            for (const target of targets) {
                const list = leading.get(target.text) ?? [];
                leading.set(target.text, list);
                list.push({ written: target, text });
            }
        }
    }
    return leading;
}
