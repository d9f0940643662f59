// A conclusion that leaves more parts to choose from than the workspace allows.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { Conclusion } from '../../core/model/trees.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { largeGroupsIn } from '../../core/questions/groups.js';
import { listOf, plural, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'ambiguous',
    since: '0.1.0',
    severity: 'warning',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        many: 'Conclusion {end} would repair or replace {count}: {parts}; the workspace allows {most}.',
    },
    check(model, file, report, signal, settings) {
        const most = settings.mostPartsAtEnd;
        for (const { end, number, parts, example, walked } of largeGroupsIn(model, file, signal, most)) {
            const name = quoteName(end.name.text);
            const counterexample = counterexampleOf(example, { sort: 'end', end: number }, walked, `ends at ${name}`);
            const values = {
                end: name,
                count: plural(parts.length, 'part'),
                parts: listOf(parts.map(quoteName), 'and', 6),
                most,
            };
            report('many', end.name, values, {
                ...(counterexample ? { counterexample } : {}),
                advice: 'Ask a test that divides them, or say `in order` where they are tried one after the other.',
                mends: [orderMend(end)],
            });
        }
    },
});

function orderMend({ file, name, title }: Conclusion): Mend {
    const { end } = title ?? name;
    return {
        title: 'Say `in order`: the parts are tried one after the other',
        safety: 'suggestion',
        edits: [{ file, start: end, end, text: ' in order' }],
    };
}
