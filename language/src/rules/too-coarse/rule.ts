// Bands that are too narrow for the instrument that the test is done with.

import { defineRule, type Report } from '../../core/findings/rule.js';
import { bandText } from '../../core/model/band-words.js';
import type { Span } from '../../core/model/written.js';
import {
    bandsBetweenSteps,
    type BetweenSteps,
    middleOf,
    narrowBands,
    type TooNarrow,
    trueValues,
} from '../../core/readings/coarseness.js';
import { nameOfTest, type Reading, readingsOf } from '../../core/readings/reading.js';
import { exampleOf, ratioWords, sizeWords, stretchWords, valueWords } from '../../core/readings/reading-words.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'too-coarse',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: {
        swallowed:
            '{instrument} cannot tell {outcome} of {test} from {others}: {band} is {width} wide, and a reading may be off by {uncertainty} to either side.',
        steps: '{instrument} never shows {outcome} of {test}: it reads in steps of {step}, and none lies in {band}.',
        ratio: '{band} of {outcome} of {test} is {tolerance} to either side of its middle, and {instrument} may be off by {uncertainty}: {ratio} to 1, less than {wanted} to 1.',
        side: '{band} of {outcome} of {test} is {tolerance} wide, and {instrument} may be off by {uncertainty} at its limit: {ratio} to 1, less than {wanted} to 1.',
    },
    check(model, file, report, _signal, settings) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        const wanted = settings.testUncertaintyRatio;
        for (const reading of readingsOf(fileModel, model)) {
            for (const between of bandsBetweenSteps(reading)) reportSteps(between, report);
            for (const narrow of narrowBands(reading, wanted)) reportNarrow(narrow, wanted, report);
        }
    },
});

function reportSteps({ reading, taker, step, witness }: BetweenSteps, report: Report<'steps'>): void {
    const { entry, band } = taker;
    const counterexample = exampleOf(reading, witness, `has \`${entry.name}\` at \`${bandText(band.band)}\``);
    const values = {
        ...namesOf(reading, entry.name),
        step: quoteName(sizeWords(reading, step)),
        band: quoteName(bandText(band.band)),
    };
    report('steps', spanOf(band.band), values, {
        ...(counterexample ? { counterexample } : {}),
        related: rangePlaces(reading),
        advice: 'Measure with an instrument of a finer resolution, or make the band wider.',
    });
}

function reportNarrow(narrow: TooNarrow, wanted: number, report: Report<'swallowed' | 'ratio' | 'side'>): void {
    const { reading, entry, band, run, tolerance, uncertainty, ratio, isSwallowed, witness } = narrow;
    const counterexample = exampleOf(
        reading,
        witness,
        `has \`${entry.name}\` at \`${stretchWords(reading, run.interval)}\``,
    );
    const isTwoSided = run.below !== undefined && run.above !== undefined;
    const others = [...new Set([run.below, run.above].filter(name => name !== undefined))];
    const values = {
        ...namesOf(reading, entry.name),
        others: listOf(others.map(quoteName), 'or'),
        band: quoteName(stretchWords(reading, run.interval)),
        width: quoteName(sizeWords(reading, isTwoSided ? tolerance.mul(2n) : tolerance)),
        tolerance: quoteName(sizeWords(reading, tolerance)),
        uncertainty: quoteName(sizeWords(reading, uncertainty)),
        ratio: ratioWords(ratio),
        wanted: String(wanted),
    };
    const place = spanOf(band?.band ?? entry.outcome.bands.find(({ sort }) => sort === 'otherwise') ?? entry.outcome);
    report(isSwallowed ? 'swallowed' : isTwoSided ? 'ratio' : 'side', place, values, {
        ...(counterexample ? { counterexample } : {}),
        ...(isSwallowed ? {} : { severity: 'warning' }),
        related: rangePlaces(reading),
        advice: `Measure with a more accurate instrument, or make the band wider: ${behindReading(narrow)}.`,
    });
}

/** The reading in the middle of the band, and what can be behind it. */
function behindReading({ reading, run }: TooNarrow): string {
    const { range } = reading;
    const middle = middleOf(run);
    const behind = range.sort === 'shown' ? trueValues(range, middle) : run.interval;
    return `where the reading is ${valueWords(reading, middle)}, the true value can be anything in ${stretchWords(reading, behind)}`;
}

function namesOf(reading: Reading, outcome: string) {
    const { range } = reading;
    return {
        outcome: quoteName(outcome),
        test: quoteName(nameOfTest(reading)),
        instrument: range.sort === 'shown' ? quoteName(range.instrument.name.text) : '',
    };
}

function rangePlaces({ range }: Reading) {
    if (range.sort !== 'shown') return [];
    return range.ranges.map(({ clause }) => ({ ...spanOf(clause), text: 'this is how accurate the instrument is' }));
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
