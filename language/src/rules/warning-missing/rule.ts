// A place where somebody has to be warned of a hazard and no safety statement does so.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import type { Gate } from '../../core/model/gates.js';
import { insertBefore } from '../../core/questions/insert-clause.js';
import { type MissingWarning, missingWarnings } from '../../core/questions/missing-warnings.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'warning-missing',
    since: '0.1.0',
    severity: 'warning',
    group: 'safety',
    cost: 'slow',
    asks: 'walked',
    messages: {
        permitted: 'Gate {gate} permits work beside {hazards}, and no safety statement warns of {it}.',
        proved: 'In gate {gate} an instrument is held to {hazards}, which may still be there, and no safety statement warns of {it}.',
        restored: 'Gate {gate} gives back {hazards} when it is restored, and no safety statement warns of {it}.',
        waited: 'Whoever waits here is beside {hazards}, and no safety statement warns of {it}.',
        started: 'This starts what drives {hazards}, and no safety statement before it warns of {it}.',
    },
    check(model, file, report, signal, settings) {
        for (const missing of missingWarnings(model, file, settings.safetyLimits, signal)) {
            const { why, place, gate, hazards, counterexample } = missing;
            const values = {
                gate: quoteName(gate?.name.text ?? ''),
                hazards: listOf(
                    hazards.map(({ name }) => quoteName(name)),
                    'and',
                ),
                it: hazards.length > 1 ? 'them' : 'it',
            };
            report(why, place, values, {
                ...(counterexample ? { counterexample } : {}),
                advice: gate
                    ? 'Add a safety statement to the gate that says what can happen and how to avoid it.'
                    : 'Add a safety statement before this that says what can happen and how to avoid it.',
                mends: hazards.flatMap(one => mendsFor(one, missing)),
            });
        }
    },
});

function mendsFor(
    { name, word }: MissingWarning['hazards'][number],
    { gate, statement, step }: MissingWarning,
): Mend[] {
    const title = `Add \`${word} about ${name}\``;
    const text = `${word} about ${name} ""`;
    if (gate) {
        const { file } = gate;
        const place = endOfHeading(gate);
        return [{ title, safety: 'placeholder', edits: [{ file, start: place, end: place, text: `\n    ${text}` }] }];
    }
    if (!statement || !step.statements.includes(statement)) return [];
    return [{ title, safety: 'placeholder', edits: [insertBefore(statement, step, text)] }];
}

/** Behind what the gate controls and permits. */
function endOfHeading({ controls, permits, instruments, wear, name }: Gate): number {
    return Math.max(...[...controls, ...permits, ...instruments, ...wear].map(({ end }) => end), name.end);
}
