/** How right instruments are, when a band is too narrow for them, and where bands leave gaps, against published examples. */
import { describe, expect, test } from 'vitest';
import { defaultSettings } from '../../../language/src/core/findings/settings.js';
import { containsInterval, contains, type Interval } from '../../../language/src/core/quantities/intervals.js';
import { displayInterval } from '../../../language/src/core/quantities/interval-words.js';
import { findUnit } from '../../../language/src/core/quantities/unit-spellings.js';
import { narrowBands, trueValues } from '../../../language/src/core/readings/coarseness.js';
import { gapsOf } from '../../../language/src/core/readings/gaps.js';
import { smallestUncertainty } from '../../../language/src/core/readings/measuring-ranges.js';
import { overlapsOf } from '../../../language/src/core/readings/overlaps.js';
import { type Reading, readingsOf } from '../../../language/src/core/readings/reading.js';
import { interval as intervalOf } from '../quantities/read.js';
import { onlyFile } from '../../support/check.js';
import { findingsOf, readTexts } from '../../support/read-texts.js';

/** A test with these bands, and the instrument that it is done with. */
function world(quantity: string, measures: string, bands: readonly string[]): string {
    return [
        `instrument meter "Meter" { measures ${quantity} ${measures} }`,
        'equipment bench "Bench" {',
        '  test reading "Reading" {',
        `    measure ${quantity} with meter`,
        ...bands.map(band => `    ${band}`),
        '  }',
        '}',
    ].join('\n');
}

function readingIn(text: string): Reading {
    const { model } = readTexts({ [onlyFile]: text });
    const file = model.files.get(onlyFile);
    const [reading] = file ? readingsOf(file, model) : [];
    if (!reading) throw new Error('The test has no reading.');
    return reading;
}

function rangesOf({ range }: Reading) {
    if (range.sort !== 'shown') throw new Error('The test has no instrument.');
    return range.ranges;
}

function shown(interval: Interval, unit: string): string {
    return displayInterval(interval, { unit: findUnit(unit) });
}

/** The value that a text names, in the coherent unit. */
function valueOf(text: string) {
    const { low } = intervalOf(text);
    if (!low) throw new Error(`${text} is no value.`);
    return low.value;
}

describe('the accuracy of a meter', () => {
    // Worked out by hand from the form that makers print, plus or minus (percent of the reading + digits); the last of them is the
    // example of a maker's primer on meters, from memory. What follows behind the second colon is the value that the primer gives.
    test.each([
        ['voltage AC', '0 V .. 600 V resolution 0.1 V accuracy 0.5 % + 3 digits', '230 V', '1.45 V'],
        ['voltage DC', '0 V .. 60 V resolution 0.01 V accuracy 1 % + 3 digits', '24 V', '0.27 V'],
        ['voltage DC', '0 V .. 6 V resolution 0.001 V accuracy 0.09 % + 2 digits', '5 V', '0.0065 V'],
        ['voltage AC', '0 V .. 600 V resolution 0.1 V accuracy 1 % + 2 digits', '100 V', '1.2 V'],
    ])('of %s %s, at %s, is %s', (quantity, measures, value, expected) => {
        const ranges = rangesOf(readingIn(world(quantity, measures, ['normal 1 V'])));
        const size = smallestUncertainty(ranges, valueOf(value));
        expect(size && shown({ low: { value: size, closed: true }, high: { value: size, closed: true } }, 'V')).toBe(
            expected,
        );
    });

    test('lets 100.0 V be anything from 98.8 V to 101.2 V', () => {
        const measures = '0 V .. 600 V resolution 0.1 V accuracy 1 % + 2 digits';
        const ranges = rangesOf(readingIn(world('voltage AC', measures, ['normal 1 V'])));
        expect(shown(trueValues({ ranges }, valueOf('100 V')), 'V')).toBe('98.8 V .. 101.2 V');
    });

    test('of the finest range counts', () => {
        const measures =
            '0 V .. 6 V resolution 0.001 V accuracy 0.09 % + 2 digits measures voltage DC 0 V .. 60 V resolution 0.01 V accuracy 1 % + 3 digits';
        const ranges = rangesOf(readingIn(world('voltage DC', measures, ['normal 1 V'])));
        const at = (value: string) => smallestUncertainty(ranges, valueOf(value))?.toFraction();
        expect([at('5 V'), at('24 V'), at('70 V')]).toEqual(['13/2000', '27/100', undefined]);
    });
});

describe('the test uncertainty ratio', () => {
    const codes = (accuracy: string, ratio = 4) =>
        findingsOf(
            {
                [onlyFile]: world('voltage DC', `0 V .. 60 V accuracy ${accuracy}`, [
                    'normal 24 V ± 1 V',
                    'low otherwise',
                    'high otherwise',
                ]),
            },
            { settings: { ...defaultSettings, testUncertaintyRatio: ratio } },
        )
            .filter(({ code }) => code === 'too-coarse')
            .map(({ severity }) => severity);

    // ANSI/NCSL Z540.3, from memory: a tolerance of ± 1.0 V and an uncertainty of 0.25 V make 4 to 1.
    test('of ± 1 V and 0.25 V is 4 to 1', () => {
        expect(codes('0.25 V')).toEqual([]);
        expect(codes('0.26 V')).toEqual(['warning']);
        expect(codes('0.25 V', 5)).toEqual(['warning']);
        expect(codes('0.26 V', 3)).toEqual([]);
    });

    // ILAC-G8 and ISO 14253-1, from memory: acceptance limits are the tolerance limits less the guard band w = U.
    // With U = 1 V the acceptance limits of 24 V ± 1 V meet at 24 V; with more nothing is between them.
    test('below 1 to 1 leaves nothing between the guard bands', () => {
        expect(codes('1 V')).toEqual(['warning']);
        expect(codes('1.01 V')).toEqual(['error']);
    });
});

describe('JCGM 106', () => {
    // JCGM 106:2012, 7.3.2, from memory: a Zener diode is to have at most -5.40 V; measured are -5.47 V with u = 0.05 V.
    // It conforms with a probability of Φ(1.4) = 91.9 %, less than the 97.7 % that a guard band of 2 u stands for.
    test('does not call a Zener diode right that is nearer to its limit than two standard uncertainties', () => {
        const reading = readingIn(
            world('voltage DC', '-10 V .. 0 V accuracy 0.1 V', ['normal <= -5.4 V', 'high otherwise']),
        );
        const ranges = rangesOf(reading);
        const allowed = intervalOf('<= -5.4 V');
        expect(contains(allowed, valueOf('-5.47 V'))).toBe(true);
        expect(containsInterval(allowed, trueValues({ ranges }, valueOf('-5.47 V')))).toBe(false);
        // At -5.50 V the probability is Φ(2) = 97.7 %.
        expect(containsInterval(allowed, trueValues({ ranges }, valueOf('-5.5 V')))).toBe(true);
    });

    // JCGM 106:2012, 7.4, from memory: an oil is to have 12.5 mm²/s to 16.3 mm²/s, and u = 1.8 mm²/s. At 13.6 mm²/s it conforms with
    // 66 %; in the middle of the band, where it is likeliest, with 2 Φ(1.9/1.8) - 1 = 71 %: no reading is sure at 95 %.
    test('cannot be sure of an oil whose band is narrower than the uncertainty', () => {
        const reading = readingIn(
            world('viscosity', '0 mm²/s .. 100 mm²/s accuracy 3.6 mm²/s', [
                'normal 12.5 mm²/s .. < 16.3 mm²/s',
                'low otherwise',
                'high otherwise',
            ]),
        );
        const swallowed = narrowBands(reading, 4).filter(({ isSwallowed }) => isSwallowed);
        expect(swallowed.map(({ entry }) => entry.name)).toEqual(['normal']);
    });
});

describe('a decision table', () => {
    // OMG DMN, the example of hit policy U (unique), from memory: ages above 60, from 25 to 60, below 25 are complete and never overlap.
    const ages = (middle: readonly string[]) =>
        readingIn(
            [
                'equipment bench "Bench" { test age "Age" { measure time',
                ...middle,
                'high > 60 yr',
                'low < 25 yr',
                '} }',
            ].join('\n'),
        );

    test('of ages is complete, and no two of its rules hold together', () => {
        const reading = ages(['normal 25 yr .. 60 yr']);
        expect(gapsOf(reading)).toEqual([]);
        expect(overlapsOf(reading)).toEqual([]);
    });

    test('with one rule widened by a year overlaps there', () => {
        const reading = ages(['normal 25 yr .. 61 yr']);
        expect(gapsOf(reading)).toEqual([]);
        expect(overlapsOf(reading).map(({ shared }) => shown(shared, 'yr'))).toEqual(['> 60 yr .. 61 yr']);
    });

    test('without its middle rule leaves those ages out', () => {
        const reading = ages(['normal 100 yr .. 200 yr']);
        const left = gapsOf(reading).flatMap(({ stretches }) => stretches.map(({ interval }) => shown(interval, 'yr')));
        expect(left).toEqual(['25 yr .. 60 yr']);
    });
});
