// All scenarios of some files as they were played, for a list of what has passed and what has not.

import type { Counterexample } from '../findings/finding.js';
import { fillMessage } from '../findings/rule.js';
import type { Scenario } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { FileId } from '../model/written.js';
import { TooManyNodes } from '../walk/sets/world-sets.js';
import { equipmentOf } from './answers.js';
import { endName, scenarioFailure, scenarioMessages } from './scenario-words.js';
import { playScenario } from './scenarios.js';

/** One scenario as it was played. */
export interface PlayedScenario {
    readonly scenario: Scenario;
    /** `not played` where what it uses cannot be read, or names lead nowhere, or there are too many worlds. */
    readonly result: 'passed' | 'failed' | 'not played';
    /** Why it has not passed, as one sentence. */
    readonly why: string | undefined;
    readonly advice: string | undefined;
    /** The end that it comes to; where it comes to another one than it says, that one. */
    readonly end: string | undefined;
    /** The longest way to the end, in milliseconds; undefined where nothing was played. */
    readonly time: number | undefined;
    /** The most that is allowed, in milliseconds; undefined where nothing is said. */
    readonly within: number | undefined;
    /** The unit, and its way, where it has failed on one. */
    readonly counterexample: Counterexample | undefined;
}

/** Plays the scenarios of files, in the order of files and places. `unreadable` are the files with slips. */
export function playScenariosOf(
    files: readonly FileId[],
    model: Model,
    unreadable: ReadonlySet<FileId>,
): PlayedScenario[] {
    return [...files]
        .sort()
        .flatMap(file => model.files.get(file)?.scenarios ?? [])
        .map(scenario => playOne(scenario, model, unreadable));
}

function playOne(scenario: Scenario, model: Model, unreadable: ReadonlySet<FileId>): PlayedScenario {
    const tree = model.target(scenario.tree);
    const equipment = tree?.sort === 'tree' ? equipmentOf(tree, model) : undefined;
    const places = [scenario, tree, equipment].filter(place => place !== undefined);
    const isUnclear = places.some(({ file }) => model.visibleFiles(file).some(seen => unreadable.has(seen.file)));
    if (isUnclear) return notPlayed(scenario, unclearWords, unclearAdvice);
    try {
        const result = playScenario(scenario, model, { aborted: false });
        if (!result || result.outcome === 'unknown') return notPlayed(scenario, unclearWords, unclearAdvice);
        const failure = scenarioFailure(result);
        return {
            scenario,
            result: failure ? 'failed' : 'passed',
            why: failure && fillMessage(scenarioMessages[failure.message], failure.values),
            advice: failure?.advice,
            end: endName(result),
            time: result.shown && result.longest,
            within: result.within,
            counterexample: failure?.counterexample,
        };
    } catch (problem) {
        if (!(problem instanceof TooManyNodes)) throw problem;
        return notPlayed(scenario, 'The builds and states of its equipment differ in too many ways.', undefined);
    }
}

const unclearWords = 'Errors stand in its file, its tree or its equipment.';
const unclearAdvice = '`halfsplit check` shows them.';

function notPlayed(scenario: Scenario, why: string, advice: string | undefined): PlayedScenario {
    const nothing = { end: undefined, time: undefined, within: undefined, counterexample: undefined };
    return { scenario, result: 'not played', why, advice, ...nothing };
}
