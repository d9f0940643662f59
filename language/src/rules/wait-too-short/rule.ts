// A wait that ends before the hazard has gone.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { RunDown } from '../../core/model/equipment.js';
import type { Span } from '../../core/model/written.js';
import { type ShortWait, shortWaitsIn } from '../../core/questions/short-waits.js';
import { timeWords } from '../../core/text/times.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'wait-too-short',
    since: '0.1.0',
    severity: 'error',
    group: 'safety',
    cost: 'slow',
    asks: 'walked',
    messages: {
        step: '{hazard} takes {needed} to {go}, and at the end of this wait only {passed} may have passed.',
        gate: '{hazard} takes {needed} to {go}, and gate {gate} is closed {passed} after it is cut off.',
    },
    check(model, file, report, signal) {
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
