// One answer that two branches take in the same build.

import { makeCounterexample } from '../../core/findings/counterexample.js';
import { defineRule } from '../../core/findings/rule.js';
import { doubleBranches, questionsOf } from '../../core/questions/branches.js';
import { describeBuild } from '../../core/questions/builds.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'branch-twice',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    messages: {
        twice: '{name} leads to two places: {first} and {second}.',
        same: '{name} is branched twice to {first}.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const question of questionsOf(fileModel, model)) {
            for (const { name, first, second, build, asked } of doubleBranches(question, model)) {
                const place = second.outcomes.find(outcome => outcome.text === name) ?? second;
                const same = first.target.text === second.target.text;
                const { file: firstFile, start, end } = first;
                report(
                    same ? 'same' : 'twice',
                    place,
                    {
                        name: quoteName(name),
                        first: quoteName(first.target.text),
                        second: quoteName(second.target.text),
                    },
                    {
                        related: [{ file: firstFile, start, end, text: 'the first branch is here' }],
                        counterexample: makeCounterexample({
                            build: describeBuild(build, asked),
                            path: [
                                {
                                    file: place.file,
                                    start: place.start,
                                    end: place.end,
                                    step: question.step.name.text,
                                    text: `answer ${name}`,
                                },
                            ],
                            end: 'two branches follow',
                        }),
                        advice: 'Take one of the branches out, or limit each to its builds with `for`.',
                    },
                );
            }
        }
    },
});
