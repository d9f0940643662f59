// A branch whose outcome nothing can show after what was answered and done before.

import { defineRule } from '../../core/findings/rule.js';
import { untakenBranches } from '../../core/questions/answered.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { branchWords, testWords } from '../../core/questions/question-words.js';

export default defineRule({
    code: 'contradiction',
    since: '0.1.0',
    severity: 'warning',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        branch: 'After what was answered and done before, nothing that comes here makes {test} show {outcomes}.',
    },
    check(model, file, report, signal) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { question, branch, why, elsewhere } of untakenBranches(fileModel, model, signal)) {
            if (why !== 'not here') continue;
            const values = { test: testWords(question), outcomes: branchWords(branch) };
            const end = elsewhere?.comesHere
                ? `here ${values.test} does not show ${values.outcomes}`
                : 'so it does not come here';
            const counterexample =
                elsewhere && counterexampleOf(elsewhere.example, { sort: 'run' }, elsewhere.walked, end);
            report('branch', branch, values, {
                ...(counterexample ? { counterexample } : {}),
                advice: 'Look at the answers on the way here: one of them says the opposite. Where the answer would be a surprise, lead the branch to where `disagree` leads.',
            });
        }
    },
});
