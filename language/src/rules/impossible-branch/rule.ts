// A branch that nobody takes, because nothing that brings the complaint shows its outcome.

import { defineRule } from '../../core/findings/rule.js';
import { untakenBranches } from '../../core/questions/answered.js';
import { testWords, branchWords } from '../../core/questions/question-words.js';

export default defineRule({
    code: 'impossible-branch',
    since: '0.1.0',
    severity: 'warning',
    group: 'structure',
    cost: 'slow',
    asks: 'walked',
    messages: {
        never: 'Nothing that arrives with the complaint makes {test} show {outcomes}.',
        builds: 'No unit for which this branch is written comes here.',
    },
    check(model, file, report, signal) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { question, branch, why } of untakenBranches(fileModel, model, signal)) {
            if (why === 'not here') continue;
            const values = { test: testWords(question), outcomes: branchWords(branch) };
            report(why === 'never' ? 'never' : 'builds', branch, values, {
                advice:
                    why === 'never'
                        ? 'Say in the equipment which fault shows it; or, where it should not come, lead the branch to where `disagree` leads.'
                        : 'Take the branch out, or lead those units here.',
            });
        }
    },
});
