// Readings that two outcomes of a test take, and outcomes whose names say the other side of the normal band.

import { defineRule, type Report } from '../../core/findings/rule.js';
import type { Span } from '../../core/model/written.js';
import { isPoint } from '../../core/quantities/intervals.js';
import { overlapMends } from '../../core/readings/overlap-mends.js';
import { type Misplaced, misplacedBands, type Overlap, overlapsOf, type Taker } from '../../core/readings/overlaps.js';
import { nameOfTest, readingsOf } from '../../core/readings/reading.js';
import { exampleOf, exampleWords, stretchWords } from '../../core/readings/reading-words.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'reading-overlap',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        one: '{second} and {first} of {test} both take the reading {example}.',
        stretch: '{second} and {first} of {test} both take {stretch}, for example {example}.',
        rest: '{second} and {first} of {test} both take what the other outcomes leave, for example {example}.',
        low: '`low` means below what a healthy unit reads; here {band} of {test} lies above {normal}.',
        high: '`high` means above what a healthy unit reads; here {band} of {test} lies below {normal}.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const reading of readingsOf(fileModel, model)) {
            for (const overlap of overlapsOf(reading)) reportOverlap(overlap, report);
            for (const misplaced of misplacedBands(reading)) reportMisplaced(misplaced, report);
        }
    },
});

function reportOverlap(overlap: Overlap, report: Report<'one' | 'stretch' | 'rest'>): void {
    const { reading, first, second, others, shared, witness } = overlap;
    const example = exampleWords(reading, shared);
    const names = [second, first].map(({ entry }) => `\`${entry.name}\``).join(' and ');
    const counterexample = exampleOf(reading, witness, `reads ${example}, and ${names} both take it`);
    const values = {
        second: quoteName(second.entry.name),
        first: quoteName(first.entry.name),
        test: quoteName(nameOfTest(reading)),
        stretch: quoteName(stretchWords(reading, shared)),
        example: quoteName(example),
    };
    const message = !second.band ? 'rest' : isPoint(shared) ? 'one' : 'stretch';
    report(message, placeOf(second), values, {
        ...(counterexample ? { counterexample } : {}),
        related: [first, ...others].map(taker => ({
            ...placeOf(taker),
            text: `\`${taker.entry.name}\` takes some of it too`,
        })),
        advice: second.band
            ? 'Let one of the two end where the other begins, and let one of them leave out the limit.'
            : 'Let only one outcome take what is left with `otherwise`, and give the other bands of its own.',
        mends: overlapMends(overlap),
    });
}

function reportMisplaced({ reading, taker, normal, witness }: Misplaced, report: Report<'low' | 'high'>): void {
    const band = stretchWords(reading, taker.band.interval);
    const values = {
        band: quoteName(band),
        test: quoteName(nameOfTest(reading)),
        normal: quoteName(stretchWords(reading, normal.band.interval)),
    };
    const side = taker.entry.name === 'low' ? 'low' : 'high';
    const counterexample = exampleOf(reading, witness, `has \`${side}\` at \`${band}\``);
    report(side, placeOf(taker), values, {
        ...(counterexample ? { counterexample } : {}),
        related: [{ ...placeOf(normal), text: 'this is what a healthy unit reads' }],
        advice: `Call it \`${side === 'low' ? 'high' : 'low'}\`, or give it another name.`,
    });
}

function placeOf({ entry, band }: Taker): Span {
    const { file, start, end } = band?.band ?? entry.outcome;
    return { file, start, end };
}
