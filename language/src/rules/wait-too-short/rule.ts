// A wait that ends before the hazard has gone.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule, type Report } from '../../core/findings/rule.js';
import type { RunDown } from '../../core/model/equipment.js';
import type { Span } from '../../core/model/written.js';
import { insertBefore } from '../../core/questions/insert-clause.js';
import { type ShortWait, shortWaitsIn } from '../../core/questions/short-waits.js';
import { type UncountedWait, uncountedWaits } from '../../core/questions/uncounted-waits.js';
import { timeWords } from '../../core/text/times.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'wait-too-short',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'slow',
    asks: 'walked',
    messages: {
        driven: 'Nothing has stopped {flows} before this wait: energy still comes into {hazard}, and the time does not count.',
        reset: '{faults} is reset here while {hazard} may still be there: it trips by heat, and must cool {cooling} before.',
        step: '{hazard} takes {needed} to {go}, and at the end of this wait only {passed} may have passed.',
        gate: '{hazard} takes {needed} to {go}, and gate {gate} is closed {passed} after it is cut off.',
    },
    check(model, file, report, signal) {
        for (const wait of uncountedWaits(model, file, signal)) reportUncounted(wait, report);
        for (const wait of shortWaitsIn(model, file, signal)) {
            const { place, gate, hazard, runDown, passed, counterexample } = wait;
            const needed = runDown.amount.written;
            const values = {
                hazard: quoteName(hazard.name.text),
                needed,
                go: goes[runDown.manner],
                passed: passed === 0 && gate ? 'at once' : timeWords(passed),
                gate: quoteName(gate?.declaration.name.text ?? ''),
            };
            report(gate ? 'gate' : 'step', place, values, {
                ...(counterexample ? { counterexample } : {}),
                advice: `Wait at least ${needed}; where the maker's instructions ask for more, wait that long.`,
                mends: mendsFor(wait),
            });
        }
    },
});

const goes: Readonly<Record<RunDown['manner'], string>> = {
    'runs down': 'run down',
    cools: 'cool',
    discharges: 'discharge',
    settles: 'settle',
};

/** Where no time counts, something must be stopped or waited for first. */
function reportUncounted(wait: UncountedWait, report: Report<'driven' | 'reset'>): void {
    const { sort, place, hazard, causes, gates, cooling, statement, step, counterexample } = wait;
    const names = listOf(causes.map(quoteName), 'and');
    const until = `wait ${cooling} until ${hazard.name.text} safe`;
    const before = (title: string, text: string): Mend => ({
        title,
        safety: 'suggestion',
        edits: [insertBefore(statement, step, text)],
    });
    const values = { hazard: quoteName(hazard.name.text), flows: names, faults: names, cooling };
    report(sort, place, values, {
        ...(counterexample ? { counterexample } : {}),
        advice:
            sort === 'driven'
                ? 'Stop it before the wait: close a gate that cuts it off, or do what switches it off and say what that `sets`.'
                : `Wait before the reset until it is safe; where the maker's instructions ask for more, wait that long.`,
        mends:
            sort === 'driven'
                ? gates.map(gate => before(`Close the gate ${quoteName(gate)} before this`, `gate ${gate}`))
                : [before(`Wait ${cooling} until ${quoteName(hazard.name.text)} is safe`, until)],
    });
}

/** The time as long as the hazard takes. A gate that waits for it nowhere is mended by hand: its elements stand in an order. */
function mendsFor({ amount, text, runDown }: ShortWait): Mend[] {
    const { written } = runDown.amount;
    const title = `Wait ${written}`;
    if (amount) return [{ title, safety: 'suggestion', edits: [{ ...spanOf(amount), text: written }] }];
    if (!text) return [];
    const { file, end } = text;
    return [{ title, safety: 'suggestion', edits: [{ file, start: end, end, text: ` ${written}` }] }];
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
