// A tree that could not be walked for all builds at once.

import { defineRule } from '../../core/findings/rule.js';
import { undecidedTrees } from '../../core/questions/walks.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'undecided-walk',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'slow',
    asks: 'walked',
    messages: {
        undecided: 'Tree {name} could not be verified: its builds and states differ in too many ways.',
        steps: 'It could not be decided who comes to {steps} of tree {name}, or how it goes on from there.',
        unfinished: 'Not all of what is in this file could be verified: its builds and states differ in too many ways.',
    },
    check(model, file, report, signal) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { tree, steps } of undecidedTrees(fileModel, model, signal)) {
            const names = (steps ?? []).map(step => quoteName(step.name.text));
            const values = {
                name: quoteName(tree.name.text),
                steps: `step${names.length > 1 ? 's' : ''} ${listOf(names, 'and', 6)}`,
            };
            report(steps ? 'steps' : 'undecided', tree.name, values, {
                advice: 'Divide the tree by its builds into several trees, or give options that always go together one name.',
                related: (steps ?? []).slice(0, mostPlaces).map(({ name }) => ({
                    file: name.file,
                    start: name.start,
                    end: name.end,
                    text: 'not decided here',
                })),
            });
        }
    },
});

/** More places than these help nobody. */
const mostPlaces = 6;
