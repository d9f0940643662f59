// A test that is asked although what it needs is not so.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { type Change, type NotSetUp, notSetUpIn } from '../../core/questions/not-set-up.js';
import { referenceWords } from '../../core/questions/question-words.js';
import { guessExtras, withGuess } from '../../core/questions/report-ends.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'test-not-set-up',
    since: '0.1.0',
    severity: 'error',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        needs: '{test} needs {need}, and that is not so here.',
        flowing: '{test} needs {need}, and a fault that is still possible here may have stopped it.',
        gate: '{test} is asked here while gate {change} is closed, so nothing flows there.',
        state: '{test} is asked here without {change}, so nothing flows there.',
        energy: '{test} is asked here where nothing flows: its energy is off, or a state on the way is not set.',
        unsaid: '{test} is asked here in a state for which no normal outcome is written.',
    },
    check(model, file, report, signal) {
        for (const found of notSetUpIn(model, file, signal)) {
            const { change, example, meeting, walked } = found;
            const test = referenceWords(found.test);
            const values = { test, need: quoteName(found.need), change: quoteName(change?.words ?? '') };
            const counterexample = counterexampleOf(example, { sort: 'meeting', meeting }, walked, endWords(found));
            report(messageOf(found), found.test, values, {
                ...(counterexample ? { counterexample } : {}),
                ...guessExtras(example),
                advice: withGuess(example, adviceFor(found)),
                mends: mendsFor(found),
            });
        }
    },
});

function messageOf({ why, change }: NotSetUp): 'needs' | 'flowing' | 'gate' | 'state' | 'energy' | 'unsaid' {
    if (why !== 'energy' || !change || change.sort === 'close') return why;
    return change.sort === 'restore' ? 'gate' : 'state';
}

function endWords({ why, need }: NotSetUp): string {
    if (why === 'energy') return 'nothing flows there';
    if (why === 'unsaid') return 'no normal outcome is written for this state';
    return `${quoteName(need)} is not so`;
}

function adviceFor({ why, change }: NotSetUp): string {
    if (change) return changeAdvice(change, why);
    switch (why) {
        case 'flowing':
            return 'Ask first whether it flows, and come here only where it does.';
        case 'unsaid':
            return 'Set the state that the test is meant for, or write a normal outcome for this one.';
        case 'energy':
            return 'Restore the gate and set the states that the flow needs before the test.';
        default:
            return 'Bring it about on every way to this test, or ask the test where it is so.';
    }
}

function changeAdvice({ sort, words }: Change, why: NotSetUp['why']): string {
    const or = why === 'unsaid' ? ', or write a normal outcome for this state' : '';
    if (sort === 'set') return `Set it before the test: \`do "…" sets ${words}\`${or}.`;
    if (sort === 'close') return `Close the gate before the test: \`gate ${words}\`${or}.`;
    return `Ask the test before the gate is closed, or restore it first: \`restore ${words}\`${or}.`;
}

/** Puts in the action that sets the condition, its words left to the writer, or that closes the gate. */
function mendsFor({ change, action }: NotSetUp): Mend[] {
    // To give the energy back by a click would be too easy.
    if (!change || change.sort === 'restore') return [];
    const { file, start } = action.written;
    const { words } = change;
    const [title, text] =
        change.sort === 'set'
            ? [`Set \`${words}\` before the test`, `do "" sets ${words}\n    `]
            : [`Close \`${words}\` before the test`, `gate ${words}\n    `];
    const safety = change.sort === 'set' ? 'placeholder' : 'suggestion';
    return [{ title, safety, edits: [{ file, start, end: start, text }] }];
}
