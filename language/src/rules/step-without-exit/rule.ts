// A step after which the technician would not know where to go.

import { makeCounterexample } from '../../core/findings/counterexample.js';
import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { Step } from '../../core/model/trees.js';
import { describeBuild } from '../../core/questions/builds.js';
import { exitFactsOf, isExit } from '../../core/questions/exits.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'step-without-exit',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    messages: {
        none: 'Step {name} leads nowhere.',
        forSome: 'Step {name} leads nowhere in some builds.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { step, build, asked } of exitFactsOf(fileModel, model).endless) {
            if (step.name.text === '') continue;
            const name = quoteName(step.name.text);
            const mends = goMends(step);
            if (!build) {
                report('none', step.name, { name }, { advice: adviceForNone, mends });
                continue;
            }
            const { start, end } = step.name;
            const path = [{ file, start, end, step: step.name.text, text: 'what leads on is for other builds' }];
            report(
                'forSome',
                step.name,
                { name },
                {
                    counterexample: makeCounterexample({
                        build: describeBuild(build, asked),
                        path,
                        end: 'nothing follows',
                    }),
                    related: step.statements.filter(isExit).map(exit => ({
                        file,
                        start: exit.start,
                        end: exit.end,
                        text: 'this leads on in some builds only',
                    })),
                    advice: 'Write where the other builds go, or limit the whole step with `for`.',
                    mends,
                },
            );
        }
    },
});

const adviceForNone = 'End it with a test and its branches, or with `go` and the name of the next step or end.';

/** Adds a `go` behind the last statement; where it leads is for the writer to say. */
function goMends(step: Step): Mend[] {
    const last = step.statements.at(-1);
    if (!last) return [];
    const edits = [{ file: last.file, start: last.end, end: last.end, text: '\n    go ' }];
    return [{ title: 'Add a `go`', safety: 'placeholder', edits }];
}
