// Units that are not known.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule, type FindingExtras } from '../../core/findings/rule.js';
import type { Amount, Span } from '../../core/model/written.js';
import { nearUnits, splitUnit, unitMeant } from '../../core/quantities/unit-spellings.js';
import { clausesOf } from '../../core/questions/clauses.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'unit-unknown',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        unknown: 'There is no unit {unit}.',
        unreadable: 'The number {number} cannot be read.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const problem of clausesOf(fileModel, model).amounts) {
            const { amount } = problem;
            if (problem.sort === 'unreadable') {
                report('unreadable', amount, { number: quoteName(amount.written) }, { advice: adviceForNumber });
            } else if (problem.sort === 'unknown-unit') {
                const place = placeOfUnit(amount, problem.unit);
                if (place) report('unknown', place, { unit: quoteName(problem.unit) }, extrasFor(place, problem.unit));
            }
        }
    },
});

const adviceForNumber =
    'Write a number of at most 50 characters between 1e-99 and 1e99, with a full stop before its decimals, for example `0.5`.';

/** Where the unit stands; undefined where this end of a range has it from the other end. */
function placeOfUnit({ file, start, end, written }: Amount, unit: string): Span | undefined {
    return end - start === written.length ? { file, start: end - unit.length, end } : undefined;
}

function extrasFor(place: Span, unit: string): FindingExtras {
    const meant = unitMeant(unit);
    if (meant) return { mends: [unitMend(place, meant.symbol, 'safe')] };
    const split = splitUnit(unit);
    if (split) {
        const { symbol } = split.unit;
        return {
            advice: `The unit is \`${symbol}\`; write \`${split.modifier}\` where the quantity is named, for example \`measure voltage DC\`.`,
            mends: [unitMend(place, symbol, 'suggestion')],
        };
    }
    const near = nearUnits(unit);
    if (near.length === 0) {
        return { advice: 'Write a unit of the SI or of the trade, for example `V`, `kΩ`, `bar`, `min` or `EUR`.' };
    }
    const names = listOf(near.map(quoteName), 'and');
    return {
        advice: near.length === 1 ? `There is a unit like it: ${names}.` : `There are units like it: ${names}.`,
        mends: near.map(symbol => unitMend(place, symbol, 'suggestion')),
    };
}

function unitMend({ file, start, end }: Span, symbol: string, safety: Mend['safety']): Mend {
    return { title: `Write \`${symbol}\``, safety, edits: [{ file, start, end, text: symbol }] };
}
