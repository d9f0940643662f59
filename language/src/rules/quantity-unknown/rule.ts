// Quantities that are not known.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { quantitiesNamed } from '../../core/readings/named-quantities.js';
import { nearNames } from '../../core/text/near-names.js';
import { quantityKinds } from '../../core/quantities/quantity-kinds.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'quantity-unknown',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        unknown: 'There is no quantity {quantity}.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { word, suggestions } of quantitiesNamed(fileModel, model)) {
            if (word.text === '' || quantityKinds.has(word.text)) continue;
            const place = { file: word.file, start: word.start, end: word.end };
            const near = [...new Set([...nearNames(word.text, quantityKinds.keys()), ...suggestions])].slice(0, 3);
            const mends = near.map((name): Mend => {
                return { title: `Write \`${name}\``, safety: 'suggestion', edits: [{ ...place, text: name }] };
            });
            const advice =
                near.length > 0
                    ? `Write ${listOf(near.map(quoteName), 'or')}.`
                    : 'Write the quantity that is measured, for example `voltage`, `pressure` or `temperature`.';
            report('unknown', place, { quantity: quoteName(word.text) }, { advice, mends });
        }
    },
});
