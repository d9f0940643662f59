// A question to which all who come give the same answer.

import { defineRule } from '../../core/findings/rule.js';
import { idleQuestions } from '../../core/questions/answered.js';
import { testWords } from '../../core/questions/question-words.js';
import { listOf, quoteName } from '../../core/text/words.js';

/** The names in the message are cut after so many. */
const mostNames = 4;

export default defineRule({
    code: 'pointless-test',
    since: '0.1.0',
    severity: 'warning',
    group: 'structure',
    cost: 'slow',
    asks: 'walked',
    messages: {
        one: 'Only {who} is still possible here and shows {outcome}: {test} tells nothing new.',
        several: 'Only {who} are still possible here and all show {outcome}: {test} tells nothing new.',
    },
    check(model, file, report, signal) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { question, why, outcome, possible } of idleQuestions(fileModel, model, signal)) {
            if (why !== 'known' || outcome === undefined) continue;
            const who = possible.map(fault => (fault ? quoteName(fault.name) : 'a healthy unit'));
            const values = {
                who: listOf(who, 'and', mostNames),
                test: testWords(question),
                outcome: quoteName(outcome),
            };
            report(who.length === 1 ? 'one' : 'several', question.statement.test, values, {
                advice: 'Leave it out; or say in the equipment what else it shows; or write `confirm` where it makes sure before a repair.',
            });
        }
    },
});
