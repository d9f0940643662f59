// Bands and outcomes that the instrument of a test can never show.

import { defineRule, type Report } from '../../core/findings/rule.js';
import { bandText } from '../../core/model/band-words.js';
import {
    type BeyondRange,
    bandsBeyond,
    type NothingLeft,
    outcomesWithNothingLeft,
} from '../../core/readings/beyond-range.js';
import { type NeverWorkedOut, neverWorkedOut } from '../../core/readings/never-worked-out.js';
import { nameOfTest, type Reading, readingsOf } from '../../core/readings/reading.js';
import { exampleOf, rangeWords, stretchWords, valueWords } from '../../core/readings/reading-words.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'out-of-range',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        whole: '{outcome} of {test} can never be read: {instrument} shows {range}, and nothing of {band}.',
        high: '{outcome} of {test} goes up to {end}, and {instrument} shows no more than {limit}.',
        low: '{outcome} of {test} goes down to {end}, and {instrument} shows no less than {limit}.',
        left: '{outcome} of {test} can never be read: the other outcomes take all that {instrument} shows.',
        worked: '{outcome} of {test} can never come out: {band} lies beyond {range}, which is all that its readings lead to.',
        nothing: '{outcome} of {test} can never come out: its readings lead to no value.',
        possible: '{outcome} of {test} can never be read: the other outcomes take every reading there can be.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const reading of readingsOf(fileModel, model)) {
            for (const beyond of bandsBeyond(reading)) reportBeyond(beyond, report);
            const never = neverWorkedOut(reading, model);
            for (const one of never) reportNever(one, report);
            // What is left for the others hangs on what comes out.
            if (never.length > 0) continue;
            for (const left of outcomesWithNothingLeft(reading)) reportNothingLeft(left, report);
        }
    },
});

function reportBeyond(
    { reading, taker, sort, limit, witness }: BeyondRange,
    report: Report<BeyondRange['sort']>,
): void {
    const { entry, band } = taker;
    const end = sort === 'whole' ? undefined : band.interval[sort];
    const { file, start, end: last } = band.band;
    const counterexample = exampleOf(reading, witness, `has \`${entry.name}\` at \`${bandText(band.band)}\``);
    const values = {
        ...namesOf(reading),
        outcome: quoteName(entry.name),
        band: quoteName(bandText(band.band)),
        range: quoteName(rangeWords(reading)),
        limit: quoteName(valueWords(reading, limit)),
        end: end ? quoteName(valueWords(reading, end.value)) : '',
    };
    report(sort, { file, start, end: last }, values, {
        ...(counterexample ? { counterexample } : {}),
        related: rangePlaces(reading),
        advice: 'Measure with an instrument that shows these readings, or write the band as far as it goes.',
    });
}

function reportNever({ reading, taker, range, witness }: NeverWorkedOut, report: Report<'worked' | 'nothing'>): void {
    const { entry, band } = taker;
    const { file, start, end } = band.band;
    const counterexample = exampleOf(reading, witness, `has \`${entry.name}\` at \`${bandText(band.band)}\``);
    const values = {
        ...namesOf(reading),
        outcome: quoteName(entry.name),
        band: quoteName(bandText(band.band)),
        range: range ? quoteName(stretchWords(reading, range)) : '',
    };
    report(range ? 'worked' : 'nothing', { file, start, end }, values, {
        ...(counterexample ? { counterexample } : {}),
        advice: 'Look at the calculation, and at what the instruments of its readings show; or write the band as far as the result goes.',
    });
}

function reportNothingLeft({ reading, entry, witness }: NothingLeft, report: Report<'left' | 'possible'>): void {
    const { file, start, end } = entry.outcome;
    const counterexample = exampleOf(reading, witness, `leaves nothing for \`${entry.name}\``);
    const values = { ...namesOf(reading), outcome: quoteName(entry.name) };
    report(reading.range.sort === 'shown' ? 'left' : 'possible', { file, start, end }, values, {
        ...(counterexample ? { counterexample } : {}),
        related: rangePlaces(reading),
        advice: `Take \`${entry.name}\` out, limit it to the builds that can show it, or make room for it among the others.`,
    });
}

function namesOf(reading: Reading) {
    const { range } = reading;
    return {
        test: quoteName(nameOfTest(reading)),
        instrument: range.sort === 'shown' ? quoteName(range.instrument.name.text) : '',
    };
}

function rangePlaces({ range }: Reading) {
    if (range.sort !== 'shown') return [];
    return range.ranges.map(({ clause }) => {
        const { file, start, end } = clause;
        return { file, start, end, text: 'this is what the instrument shows' };
    });
}
