// Readings that there cannot be.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { type Impossible, impossibleReadings } from '../../core/readings/impossible.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'impossible-reading',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        value: 'There is no {quantity} of {written}: {reason}.',
        band: 'No {quantity} lies in {written}: {reason}.',
        empty: 'No reading lies in {written}: the second value must be larger than the first.',
        tolerance: 'A tolerance cannot be below zero, as {written} is.',
        accuracy: 'An accuracy cannot be below zero, as {written} is.',
        resolution: 'A resolution must be above zero: it is the smallest step that the instrument shows.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const impossible of impossibleReadings(fileModel, model)) {
            const { sort, place, written } = impossible;
            const { quantity, reason } = 'reason' in impossible ? impossible : { quantity: '', reason: '' };
            const { start, end } = place;
            report(
                sort,
                { file: place.file, start, end },
                { written: quoteName(written), quantity, reason },
                { advice: advice[sort], mends: mendsFor(impossible) },
            );
        }
    },
});

const advice: Readonly<Record<Impossible['sort'], string>> = {
    value: 'Look at the sign, the unit and how the quantity is meant: `AC` or `DC`, `gauge`, `absolute` or `difference`.',
    band: 'Look at the sign, the unit and how the quantity is meant: `AC` or `DC`, `gauge`, `absolute` or `difference`.',
    empty: 'Write the smaller value first.',
    tolerance: 'Write how far the reading may lie to either side, without a sign.',
    accuracy: 'Write how far the reading may be off to either side, without a sign.',
    resolution: 'Write the smallest step, for example `resolution 0.1 V`.',
};

function mendsFor(impossible: Impossible): Mend[] {
    const { sort, place } = impossible;
    if (sort === 'empty') {
        const { from, to } = impossible;
        if (from.written === to.written) return [];
        const edits = [
            { file: from.file, start: from.start, end: from.end, text: to.written },
            { file: to.file, start: to.start, end: to.end, text: from.written },
        ];
        return [{ title: 'Swap the two ends', safety: 'suggestion', edits }];
    }
    if (sort !== 'tolerance' && sort !== 'accuracy') return [];
    const { file, start, end } = place;
    const text = impossible.written.replace(/^[-−]\s*/, '');
    return [{ title: 'Take the sign out', safety: 'suggestion', edits: [{ file, start, end, text }] }];
}
