// A unit that comes to a place from which nothing leads on.

import { defineRule } from '../../core/findings/rule.js';
import { strandedIn } from '../../core/questions/stranded.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { guessExtras } from '../../core/questions/report-ends.js';
import { referenceWords } from '../../core/questions/question-words.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'dead-end',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'slow',
    asks: 'walked',
    messages: {
        answer: '{test} can show {outcomes} here, and nothing says where to go then.',
        action: 'This cannot be done where {parts} is faulty, and nothing says where to go then.',
    },
    check(model, file, report, signal) {
        for (const { place, action, outcomes, parts, example, meeting, walked } of strandedIn(model, file, signal)) {
            const goal = { sort: 'meeting', meeting } as const;
            const counterexample = counterexampleOf(example, goal, walked, 'nothing follows');
            const isAction = action.sort === 'do';
            const values = {
                test: action.sort === 'ask' ? referenceWords(action.written.test) : '',
                outcomes: listOf(outcomes.map(quoteName), 'or'),
                parts: listOf(parts.map(quoteName), 'or'),
            };
            report(isAction ? 'action' : 'answer', place, values, {
                ...(counterexample ? { counterexample } : {}),
                ...guessExtras(example),
                advice: isAction
                    ? 'Say where to go with `cannot be done ->`, here or once for the whole tree.'
                    : 'Give this answer a branch of its own, because it does come; `disagree ->` in the tree takes answers that should not come.',
            });
        }
    },
});
