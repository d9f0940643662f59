// A gate that stays closed at a referral that does not say so, or that is not closed where one says so.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { idleLocks, type LeftPlace, leftPlaces } from '../../core/questions/hazards.js';
import { insertBefore, insertInReferral } from '../../core/questions/insert-clause.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'gate-left-closed',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'slow',
    asks: 'walked',
    messages: {
        left: 'Referral {end} hands the unit over with gate {gate} still closed, and does not say so.',
        open: 'Referral {end} says that gate {gate} stays closed, and nobody comes there with it closed.',
    },
    check(model, file, report, signal) {
        for (const left of leftPlaces(model, file, signal)) {
            if (left.gate === undefined) continue;
            const values = { end: quoteName(left.end.name.text), gate: quoteName(left.gate) };
            report('left', left.end.name, values, {
                ...(left.counterexample ? { counterexample: left.counterexample } : {}),
                advice: 'Restore the gate before the referral, or say there that it leaves the gate closed, and tell those who take over.',
                mends: mendsFor(left, left.gate),
            });
        }
        for (const { end, leaves, gate } of idleLocks(model, file, signal)) {
            const values = { end: quoteName(end.name.text), gate: quoteName(gate) };
            report('open', leaves, values, {
                advice: 'Close the gate before the referral, or take this out: those who take over rely on it.',
            });
        }
    },
});

/** Restores it before the `go` that leads to the referral, or says there that it stays closed. */
function mendsFor({ go, end }: LeftPlace, gate: string): Mend[] {
    const says: Mend = {
        title: `Say in ${quoteName(end.name.text)} that ${quoteName(gate)} stays closed`,
        safety: 'suggestion',
        edits: [insertInReferral(end, `leaves gate ${gate} closed`)],
    };
    if (!go) return [says];
    const edits = [insertBefore(go.statement, go.step, `restore ${gate}`)];
    return [{ title: `Restore ${quoteName(gate)} before this`, safety: 'suggestion', edits }, says];
}
