// A conclusion that replaces a part which is good in everybody who comes to it.

import { defineRule } from '../../core/findings/rule.js';
import { counterexampleOf } from '../../core/questions/counterexamples.js';
import { goodPartsIn } from '../../core/questions/good-parts.js';
import { guessExtras } from '../../core/questions/report-ends.js';
import { listOf, quoteName } from '../../core/text/words.js';

/** So many names are told; the rest is counted. */
const mostNames = 5;

export default defineRule({
    code: 'good-part-replaced',
    since: '0.1.0',
    severity: 'error',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        one: 'Conclusion {end} names {parts}, which is good in every unit that comes here.',
        several: 'Conclusion {end} names {parts}, which are good in every unit that comes here.',
    },
    check(model, file, report, signal) {
        for (const { end, number, parts, clause, example, walked } of goodPartsIn(model, file, signal)) {
            const values = { end: quoteName(end.name.text), parts: listOf(parts.map(quoteName), 'and', mostNames) };
            const goal = { sort: 'end', end: number } as const;
            const outcome = `${values.parts} ${parts.length === 1 ? 'is' : 'are'} replaced although good`;
            const counterexample = counterexampleOf(example, goal, walked, outcome);
            report(parts.length === 1 ? 'one' : 'several', clause.fault, values, {
                ...(counterexample ? { counterexample } : {}),
                ...guessExtras(example),
                advice: 'Take it out of this conclusion, or look where the units that have its fault go instead.',
            });
        }
    },
});
