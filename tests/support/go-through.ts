/** Goes through trees of texts, for tests: texts and answers in, positions as short lines out. */
import type { Model } from '../../language/src/core/model/model.js';
import { walkedTrees } from '../../language/src/core/questions/walks.js';
import { readBuild } from '../../language/src/core/walk/choose-build.js';
import { answersAt, beginAt, type Position, takeAnswer } from '../../language/src/core/walk/go-through.js';
import { suspectsOf } from '../../language/src/core/walk/ruled-out.js';
import { readTexts, type Texts } from './read-texts.js';

export interface Begun {
    readonly model: Model;
    readonly start: Position;
}

/** The start of a tree, the first one unless it is named, for a unit with these choices. */
export function begin(texts: string | Texts, tree?: string, build = ''): Begun {
    const { model, findings } = readTexts(typeof texts === 'string' ? { 'example.fault': texts } : texts);
    const [slip] = findings.filter(({ severity }) => severity === 'error');
    if (slip) throw new Error(`The text of the test is wrong: ${slip.message}`);
    const walked = [...model.files.values()]
        .flatMap(file => walkedTrees(file, model, { aborted: false }))
        .find(one => tree === undefined || one.tree.name.text === tree);
    if (!walked) throw new Error(`There is no tree ${tree ?? ''} to go through.`);
    const builds = readBuild(build, walked.all.around.space);
    if (builds.sort === 'problem') throw new Error(builds.message);
    return { model, start: beginAt(walked, builds.within) };
}

/** Gives answers by their names, one after the other. */
export function answer(position: Position, ...names: readonly string[]): Position {
    return names.reduce((at, name) => {
        const found = answersAt(at).find(one => one.name === name);
        if (!found) {
            throw new Error(
                `${name} is no answer here: ${answersAt(at)
                    .map(one => one.name)
                    .join(', ')}`,
            );
        }
        return takeAnswer(at, found);
    }, position);
}

/** Those who are still possible, in the order of their names. */
export function possible(position: Position): string[] {
    return suspectsOf(position)
        .map(({ fault }) => fault?.name ?? 'healthy')
        .sort();
}

/** Where a position stands: the steps since the last answer, and what comes next. */
export function where({ visits, next }: Position): string {
    const steps = visits.map(({ station }) => station.step.name.text);
    return [...steps, nextWords(next)].join(' > ');
}

function nextWords(next: Position['next']): string {
    switch (next.sort) {
        case 'test':
            return `${next.test.name}? ${answerWords(next.answers)}`;
        case 'doing':
        case 'build':
            return `${next.sort}? ${answerWords(next.answers)}`;
        case 'end':
            return `end ${next.end.written.name.text}`;
        default:
            return next.sort;
    }
}

/** Each answer; in brackets one that nobody gives. */
function answerWords(answers: ReturnType<typeof answersAt>): string {
    return answers.map(({ name, isShown }) => (isShown ? name : `(${name})`)).join(', ');
}
