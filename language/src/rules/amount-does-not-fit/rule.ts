// Amounts in places that take only a time, a share, a sum of money or the like.

import { defineRule } from '../../core/findings/rule.js';
import { dimensionInWords } from '../../core/quantities/dimensions.js';
import type { Quantity } from '../../core/quantities/quantity.js';
import { clausesOf } from '../../core/questions/clauses.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'amount-does-not-fit',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        unit: '{clause} needs {wanted}, and {unit} is a unit of {words}.',
        negative: '{clause} cannot be below zero, as {amount} is.',
        zero: '{clause} cannot be zero.',
        whole: '{clause} cannot be above 100 %, as {amount} is.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const problem of clausesOf(fileModel, model).amounts) {
            if (problem.sort === 'unreadable' || problem.sort === 'unknown-unit') continue;
            const { amount, quantity, demand } = problem;
            const { clause, wanted, example } = demand;
            const unit = quoteName(quantity.unitText);
            const values = { clause, wanted, amount: quoteName(amount.written), unit, words: unitWords(quantity) };
            report(problem.sort, amount, values, { advice: `Write ${wanted}, for example \`${example}\`.` });
        }
    },
});

function unitWords({ unit }: Quantity): string {
    const words = unit && dimensionInWords(unit.dimension);
    return (words ?? 'something else').replace(/^an? /, '');
}
