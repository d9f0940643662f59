// Readings that no outcome of a test takes.

import { defineRule, type Report } from '../../core/findings/rule.js';
import type { Span } from '../../core/model/written.js';
import { isPoint } from '../../core/quantities/intervals.js';
import { closedBand, gapMends } from '../../core/readings/gap-mends.js';
import { type Gap, gapsOf } from '../../core/readings/gaps.js';
import { nameOfTest, type Reading, readingsOf } from '../../core/readings/reading.js';
import { exampleOf, exampleWords, stretchWords } from '../../core/readings/reading-words.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'reading-gap',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        one: 'No outcome of {test} takes the reading {example}.',
        none: '{test} measures, and no outcome says which readings are meant.',
        stretch: 'No outcome of {test} takes {stretches}: where the reading is {example}, nobody knows what it means.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const reading of readingsOf(fileModel, model)) {
            if (!hasBands(reading)) {
                reportNoBands(reading, report);
                continue;
            }
            for (const gap of gapsOf(reading)) {
                const [first] = gap.stretches;
                if (!first) continue;
                const example = exampleWords(reading, first.interval);
                const shown = exampleOf(reading, gap.witness, `reads ${example}, and no outcome takes it`);
                const isOne = gap.stretches.length === 1 && isPoint(first.interval);
                report(
                    isOne ? 'one' : 'stretch',
                    placeOf(gap),
                    { test: quoteName(nameOfTest(reading)), stretches: stretchesOf(gap), example: quoteName(example) },
                    {
                        ...(shown ? { counterexample: shown } : {}),
                        advice: 'Let the bands meet, or let an outcome take what is left with `otherwise`.',
                        mends: gapMends(gap),
                    },
                );
            }
        }
    },
});

function hasBands({ entries }: Reading): boolean {
    return entries.some(({ bands, rest, isUnclear }) => bands.length > 0 || rest !== undefined || isUnclear);
}

function reportNoBands(reading: Reading, report: Report<'none'>): void {
    if (reading.entries.length === 0) return;
    report(
        'none',
        reading.test.name,
        { test: quoteName(nameOfTest(reading)) },
        {
            advice: 'Give each outcome a band of readings such as `< 3 V`, or write `observe` where a person sees or hears it.',
        },
    );
}

function stretchesOf({ reading, stretches }: Gap): string {
    return listOf(
        stretches.map(({ interval }) => quoteName(stretchWords(reading, interval))),
        'and',
    );
}

/** The band whose end is to be looked at. */
function placeOf({ reading, stretches }: Gap): Span {
    const [first] = stretches;
    const closed = first && isPoint(first.interval) ? closedBand(reading, first) : undefined;
    return (closed ?? first?.below ?? first?.above)?.band.band ?? reading.test.name;
}
