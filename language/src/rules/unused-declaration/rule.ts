// Declarations that nothing uses.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { nounFor } from '../../core/model/declaration-words.js';
import { type Unused, type UnusedReason, unusedIn } from '../../core/questions/unused.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'unused-declaration',
    since: '0.1.0',
    severity: 'warning',
    group: 'names',
    cost: 'fast',
    messages: {
        'not-named': 'Nothing uses the {noun} {name}.',
        'no-tree': 'No tree is of the equipment {name}.',
        'not-asked': 'No tree and no procedure asks the test {name}.',
        'not-led-to': 'Nothing leads to the {noun} {name}.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const unused of unusedIn(fileModel, model)) {
            const { declaration, why } = unused;
            report(
                why,
                declaration.name,
                { noun: nounFor(declaration), name: quoteName(declaration.name.text) },
                { advice: advice[why], unnecessary: true, ...(why === 'no-tree' ? {} : { mends: [removal(unused)] }) },
            );
        }
    },
});

const advice: Readonly<Record<UnusedReason, string>> = {
    'not-named': 'Use it, or take it out.',
    'no-tree': 'Write a tree for a complaint about it, or take it out.',
    'not-asked': 'Ask it in a step, or take it out.',
    'not-led-to': 'Let a branch lead to it, or take it out.',
};

function removal({ declaration }: Unused): Mend {
    const { file, start, end, name } = declaration;
    return {
        title: `Take out the ${nounFor(declaration)} \`${name.text}\``,
        safety: 'suggestion',
        edits: [{ file, start, end, text: '' }],
    };
}
