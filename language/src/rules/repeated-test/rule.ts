// A question that was asked before on every way here, with nothing done since.

import { defineRule } from '../../core/findings/rule.js';
import { idleQuestions } from '../../core/questions/answered.js';
import { referenceWords, testWords } from '../../core/questions/question-words.js';
import { repeatedFollows } from '../../core/questions/repeated.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'repeated-test',
    since: '0.1.0',
    severity: 'warning',
    group: 'economy',
    cost: 'slow',
    asks: 'walked',
    messages: {
        test: '{test} was asked before on every way here, and nothing was done since that could change the answer.',
        procedure:
            'All that {procedure} asks here was asked before on every way here, and nothing was done since that could change the answers.',
    },
    check(model, file, report, signal) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { question, why } of idleQuestions(fileModel, model, signal)) {
            if (why !== 'repeated') continue;
            const values = { test: testWords(question) };
            const advice =
                'Ask the test that was meant, or lead the branches of the first time to where these lead and leave this out.';
            report('test', question.statement.test, values, { advice });
        }
        for (const { procedure, subject } of repeatedFollows(fileModel, model, signal)) {
            const name = quoteName(procedure.text);
            const values = { procedure: subject ? `${name} with ${referenceWords(subject)}` : name };
            const advice = 'Follow it with what was meant, or lead on to where these branches lead and leave this out.';
            report('procedure', procedure, values, { advice });
        }
    },
});
