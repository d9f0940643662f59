// A safety statement in a step that stands behind the action that it is for.

import { exampleOfBuild } from '../../core/findings/counterexample.js';
import { defineRule } from '../../core/findings/rule.js';
import type { SafetyStatement } from '../../core/model/remarks.js';
import type { Span } from '../../core/model/written.js';
import { lateWarnings } from '../../core/questions/late-warnings.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'warning-after-step',
    since: '0.1.0',
    severity: 'warning',
    group: 'safety',
    cost: 'fast',
    messages: {
        last: 'Nothing is done in step {step} after this `{level}`: it is read too late.',
        behind: 'This `{level}` about {hazard} stands behind an action that meets it: it is read too late.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { step, statement, action, build } of lateWarnings(fileModel, model)) {
            const { level, hazard } = statement;
            const values = { step: quoteName(step.name.text), level, hazard: quoteName(hazard?.text ?? '') };
            const example = exampleOfBuild(build, `this \`${level}\` comes too late`);
            report(action ? 'behind' : 'last', wordOf(statement), values, {
                ...(example ? { counterexample: example } : {}),
                related: action ? [{ ...spanOf(action), text: `${quoteName(hazard?.text ?? '')} is met here` }] : [],
                advice: action
                    ? 'Move it before that action.'
                    : 'Move it before the action that it is for, or into the step that does it.',
            });
        }
    },
});

/** The signal word alone, so that the mark stays short. */
function wordOf({ file, start, level }: SafetyStatement): Span {
    return { file, start, end: start + level.length };
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
