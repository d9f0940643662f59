// A tree in which there is nothing to do.

import { defineRule } from '../../core/findings/rule.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'tree-without-step',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    messages: {
        none: 'Tree {name} has no step.',
    },
    check(model, file, report) {
        for (const tree of model.files.get(file)?.trees ?? []) {
            if (tree.steps.length > 0 || tree.name.text === '') continue;
            report(
                'none',
                tree.name,
                { name: quoteName(tree.name.text) },
                {
                    advice: 'Write what the technician does first, for example `step start "Look at the lamp" { … }`.',
                },
            );
        }
    },
});
