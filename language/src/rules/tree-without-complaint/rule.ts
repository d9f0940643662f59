// A tree that does not say which complaint sends the technician to it.

import { defineRule } from '../../core/findings/rule.js';
import type { Mend } from '../../core/findings/finding.js';
import type { Tree } from '../../core/model/trees.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'tree-without-complaint',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    messages: {
        none: 'Tree {name} does not say for which complaint it is.',
    },
    check(model, file, report) {
        for (const tree of model.files.get(file)?.trees ?? []) {
            if (tree.complaints.length > 0 || tree.name.text === '') continue;
            report(
                'none',
                tree.name,
                { name: quoteName(tree.name.text) },
                {
                    advice: 'Write `complaint`, a test, and the outcome that the customer sees, for example `complaint motor-runs absent`.',
                    mends: complaintMends(tree),
                },
            );
        }
    },
});

/** Adds a complaint before the first step; what it is, is for the writer to say. */
function complaintMends({ file, steps: [first] }: Tree): Mend[] {
    if (!first) return [];
    const edits = [{ file, start: first.start, end: first.start, text: 'complaint \n\n  ' }];
    return [{ title: 'Add a `complaint`', safety: 'placeholder', edits }];
}
