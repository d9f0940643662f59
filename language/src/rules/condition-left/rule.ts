// A referral that leaves a condition changed without saying so.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { type LeftPlace, leftPlaces } from '../../core/questions/hazards.js';
import { insertBefore, insertInReferral } from '../../core/questions/insert-clause.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'condition-left',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'slow',
    asks: 'walked',
    messages: {
        left: 'Referral {end} hands the unit over with {condition} still at {value}, and does not say so.',
    },
    check(model, file, report, signal) {
        for (const left of leftPlaces(model, file, signal)) {
            const { end, condition, value } = left;
            if (condition === undefined || value === undefined) continue;
            const values = {
                end: quoteName(end.name.text),
                condition: quoteName(condition),
                value: quoteName(value),
            };
            report('left', end.name, values, {
                ...(left.counterexample ? { counterexample: left.counterexample } : {}),
                advice: 'Set it back before the referral, or say there with `leaves` what stays changed, and tell those who take over.',
                mends: mendsFor(left, condition, value),
            });
        }
    },
});

/** Sets it back before the `go` that leads to the referral, or says there that it stays so. */
function mendsFor({ go, end, first }: LeftPlace, condition: string, value: string): Mend[] {
    const says: Mend = {
        title: `Say in ${quoteName(end.name.text)} that ${quoteName(condition)} stays at ${quoteName(value)}`,
        safety: 'suggestion',
        edits: [insertInReferral(end, `leaves ${condition} ${value}`)],
    };
    if (!go || first === undefined) return [says];
    const edits = [insertBefore(go.statement, go.step, `do "" sets ${condition} ${first}`)];
    const title = `Set ${quoteName(condition)} back to ${quoteName(first)} before this`;
    return [{ title, safety: 'placeholder', edits }, says];
}
