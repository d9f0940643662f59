// Finds clauses that may stand once for the same builds and stand twice.

import type { ChoiceExpression } from '../core/model/guards.js';
import type { Span } from '../core/model/written.js';
import { type Lowering, report } from './context.js';

/** A clause that may have a guard. */
export interface Clause extends Span {
    readonly guard?: ChoiceExpression | undefined;
}

/** Reports every clause without a guard after the first such one: both would hold for all builds. */
export function expectOncePerBuild(context: Lowering, clauses: readonly Clause[], words: string): void {
    if (clauses.length < 2) return;
    const [first, ...others] = clauses.filter(clause => !clause.guard);
    for (const other of others) {
        if (first) reportTwice(context, first, other, words, 'Keep one of them, or write `for CHOICES` behind each.');
    }
}

/** Reports every clause after the first, where the clause cannot have a guard. */
export function expectOnce(context: Lowering, clauses: readonly Span[], words: string): void {
    if (clauses.length < 2) return;
    const [first, ...others] = clauses;
    for (const other of others) if (first) reportTwice(context, first, other, words, 'Keep one of them.');
}

/** Reports every clause without a guard after the first of its own sort; `wordsOf` names the sort. */
export function expectOncePerSort<C extends Clause>(
    context: Lowering,
    clauses: readonly C[],
    wordsOf: (clause: C) => string,
): void {
    if (clauses.length < 2) return;
    const sorts = new Map<string, C[]>();
    for (const clause of clauses) {
        const words = wordsOf(clause);
        const same = sorts.get(words);
        if (same) same.push(clause);
        else sorts.set(words, [clause]);
    }
    for (const [words, same] of sorts) expectOncePerBuild(context, same, words);
}

function reportTwice(context: Lowering, first: Span, other: Span, words: string, advice: string): void {
    report(context, 'said-twice', `\`${words}\` stands here a second time for the same builds.`, other, {
        related: [{ file: first.file, start: first.start, end: first.end, text: `the first \`${words}\`` }],
        advice,
    });
}
