// Finds the answer that a person means, by its number, its name, or the words that the author gave it.

import { listOf, nearNames, type ToldAnswer, type ToldNext, type ToldPosition } from 'halfsplit-language';
import { visible } from '../visible.js';

export type FoundAnswer =
    | { readonly sort: 'found'; readonly index: number }
    | { readonly sort: 'unknown'; readonly message: string; readonly advice: string | undefined };

/** The answers that a position offers; none where the way has ended. */
export function answersOf({ next }: ToldPosition): readonly ToldAnswer[] {
    return 'answers' in next ? next.answers : [];
}

/** Looks up what was written among the answers of a position. */
export function findAnswer(written: string, position: ToldPosition): FoundAnswer {
    const answers = answersOf(position);
    const wanted = written.trim().toLowerCase();
    const number = /^\d+$/.test(wanted) ? Number(wanted) : 0;
    if (number >= 1 && number <= answers.length) return { sort: 'found', index: number - 1 };
    const named = answers.findIndex(({ name }) => name.toLowerCase() === wanted);
    if (named >= 0) return { sort: 'found', index: named };
    const worded = answers.flatMap(({ readings }, index) =>
        readings.some(({ text }) => text.toLowerCase() === wanted) ? [index] : [],
    );
    const [only, second] = worded;
    if (only !== undefined && second === undefined) return { sort: 'found', index: only };
    return unknownAnswer(written.trim(), position.next, answers);
}

function unknownAnswer(written: string, next: ToldNext, answers: readonly ToldAnswer[]): FoundAnswer {
    const shown = `\`${visible(written)}\``;
    if (answers.length === 0) {
        return { sort: 'unknown', message: `${shown} answers nothing: the way has ended.`, advice: undefined };
    }
    const names = answers.map(({ name }) => name);
    const near = nearNames(written, names).map(quoted);
    return {
        sort: 'unknown',
        message: `${shown} is no answer ${askedBy(next)}.`,
        advice:
            near.length > 0
                ? `There is an answer with a similar name: ${listOf(near, 'or')}.`
                : `The answers are ${listOf(names.map(quoted), 'and', 12)}.`,
    };
}

function askedBy(next: ToldNext): string {
    if (next.sort === 'test') return `to the test ${quoted(next.name)}`;
    if (next.sort === 'build') return `to the option ${quoted(next.option.name)}`;
    return 'here';
}

function quoted(name: string): string {
    return `\`${visible(name)}\``;
}
