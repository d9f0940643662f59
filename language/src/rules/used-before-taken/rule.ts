// A test that is asked before the readings that it is worked out from have been taken.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { type NotTaken, notTakenIn } from '../../core/questions/not-set-up.js';
import { referenceWords } from '../../core/questions/question-words.js';
import { guessExtras, withGuess } from '../../core/questions/report-ends.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'used-before-taken',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'slow',
    asks: 'walked',
    messages: {
        never: '{test} is worked out from {reading}, which has not been read here.',
    },
    check(model, file, report, signal) {
        for (const found of notTakenIn(model, file, signal)) {
            const { example, meeting, reading, test, walked } = found;
            const name = quoteName(reading.name);
            const values = { test: referenceWords(test), reading: name };
            const counterexample = counterexampleOf(
                example,
                { sort: 'meeting', meeting },
                walked,
                `${name} has not been read`,
            );
            const advice = `Read it before, in the same state as the others: \`read ${reading.name}\`.`;
            report('never', test, values, {
                ...(counterexample ? { counterexample } : {}),
                ...guessExtras(example),
                advice: withGuess(example, advice),
                mends: mendsFor(found),
            });
        }
    },
});

/** Puts in the reading before the test; whether it can be taken there is asked again then. */
function mendsFor({ action, reading }: NotTaken): Mend[] {
    const { file, start } = action.written;
    const text = `read ${reading.name}\n    `;
    return [
        {
            title: `Read \`${reading.name}\` before`,
            safety: 'suggestion',
            edits: [{ file, start, end: start, text }],
        },
    ];
}
