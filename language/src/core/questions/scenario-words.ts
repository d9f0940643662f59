// What is said of a scenario that fails, for its finding and for whoever plays the scenarios by themselves.

import type { Counterexample } from '../findings/finding.js';
import type { MessageValues } from '../findings/rule.js';
import type { Span } from '../model/written.js';
import { quoteName } from '../text/words.js';
import { counterexampleOfRun } from './counterexamples.js';
import { referenceWords } from './question-words.js';
import type { ScenarioOutcome, ScenarioResult } from './scenarios.js';

/** One sentence for each way to fail. */
export const scenarioMessages = {
    fault: 'Scenario {title} does not say what is wrong with the unit.',
    expect: 'Scenario {title} does not say at which end it must arrive.',
    target: 'Scenario {title} expects {expected}, which is a step and no end.',
    unit: 'No unit is built as scenario {title} says.',
    scope: 'The case of scenario {title} does not bring the complaint of {tree}.',
    reading: 'In scenario {title} nothing makes {test} show {outcome}.',
    end: 'Scenario {title} ends at {end}, not at {expected}.',
    handed: 'Scenario {title} goes on in tree {other} and does not end at {expected}.',
    nowhere: 'Scenario {title} comes to no end.',
    time: 'Scenario {title} takes {time} min to its end; the limit is {within} min.',
};

export type ScenarioMessage = keyof typeof scenarioMessages;

/** What there is to say of a scenario that has failed. */
export interface ScenarioFailure {
    readonly message: ScenarioMessage;
    readonly values: MessageValues;
    readonly place: Span;
    readonly advice: string;
    readonly counterexample: Counterexample | undefined;
}

const advice: Readonly<Record<ScenarioMessage, string>> = {
    fault: 'Write `fault` and what is wrong, or `fault healthy`.',
    expect: 'Write `expect` and the end that it must reach.',
    target: 'Expect the conclusion or referral that the step leads to.',
    unit: 'Choose a build that is made and that has the fault.',
    scope: 'Choose a fault that shows the complaint, or the tree to which this case belongs.',
    reading: 'Read an outcome that the fault can show, or say with `shows`, `as` or `makes` that it can.',
    end: 'If the scenario is right, look where its path takes the wrong way; else expect the other end.',
    handed: 'Write the scenario for the tree in which it ends.',
    nowhere: 'Look where its path ends, and lead it on.',
    time: 'Ask the quick tests first, or allow the time.',
};

/** Why a scenario has failed; undefined where it has passed, or where a name in it leads nowhere. */
export function scenarioFailure(result: ScenarioResult): ScenarioFailure | undefined {
    const message = messageOf(result);
    if (!message) return undefined;
    const { scenario, shown, unread } = result;
    const [expected] = scenario.expects;
    const ending = shown?.run.ending;
    const end = quoteName(endName(result) ?? '');
    const values: MessageValues = {
        title: quoteName(scenario.title.value),
        tree: quoteName(scenario.tree.text),
        end,
        expected: quoteName(expected?.target.text ?? ''),
        other: quoteName(ending?.sort === 'handed over' ? ending.tree.name.text : ''),
        test: unread ? referenceWords(unread.test) : '',
        outcome: quoteName(unread?.outcome.text ?? ''),
        time: inMinutes(result.longest),
        within: inMinutes(result.within ?? 0),
    };
    const counterexample = shown && counterexampleOfRun(shown, endWords(shown.run.ending.sort, end));
    return { message, values, place: placeOf(message, result), advice: advice[message], counterexample };
}

/** The name of the end that the shown run comes to. */
export function endName({ shown }: ScenarioResult): string | undefined {
    const ending = shown?.run.ending;
    return ending?.sort === 'end' ? shown?.route.ends[ending.end]?.written.name.text : undefined;
}

/** Milliseconds as minutes, to two places. */
export function inMinutes(time: number): number {
    return Math.round(time / 600) / 100;
}

function messageOf(result: ScenarioResult): ScenarioMessage | undefined {
    if (result.outcome !== 'other end') return messages[result.outcome];
    const ending = result.shown?.run.ending.sort;
    return ending === 'end' ? 'end' : ending === 'handed over' ? 'handed' : 'nowhere';
}

const messages: Partial<Record<ScenarioOutcome, ScenarioMessage>> = {
    'no fault': 'fault',
    'no end': 'expect',
    'not an end': 'target',
    'no such unit': 'unit',
    'not in scope': 'scope',
    'other reading': 'reading',
    'too long': 'time',
};

function placeOf(message: ScenarioMessage, { scenario, unread }: ScenarioResult): Span {
    const [expected] = scenario.expects;
    if (message === 'time') return expected?.within ?? scenario.title;
    if (message === 'reading') return unread ?? scenario.title;
    const isAboutEnd = message === 'end' || message === 'handed' || message === 'nowhere' || message === 'target';
    return isAboutEnd && expected ? expected.target : scenario.title;
}

function endWords(ending: string, end: string): string {
    if (ending === 'end') return `ends at ${end}`;
    return ending === 'handed over' ? 'another tree goes on' : 'comes to no end';
}
