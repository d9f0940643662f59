// Readings, stretches of them, and the builds and states that show something, in words for messages.

import type Fraction from 'fraction.js';

import { makeCounterexample } from '../findings/counterexample.js';
import type { Counterexample } from '../findings/finding.js';
import { decimalFromFraction } from '../quantities/decimal.js';
import { displayInterval, exampleWithin } from '../quantities/interval-words.js';
import type { Interval } from '../quantities/intervals.js';
import { coherentValue, displayNumber, makeQuantity } from '../quantities/quantity.js';
import { listOf } from '../text/words.js';
import { rangeWithin, readingsWithin, stepNear } from './gaps.js';
import { nameOfTest, type Reading } from './reading.js';
import type { Witness } from './search.js';

/** A stretch in the language's own notation: `> 5 V .. < 6 V`. */
export function stretchWords(reading: Reading, interval: Interval): string {
    return displayInterval(interval, reading.shown);
}

/** One reading within the stretch in the writer's unit, as plain as can be, and one that the instrument shows: `5.5 V`. */
export function exampleWords(reading: Reading, interval: Interval): string {
    const { shown } = reading;
    const plain = exampleWithin(rangeWithin(reading, interval), shown);
    const value = plain && coherentValue(makeQuantity(plain, shown.unit), shown.asDifference);
    const isShown = value && readingsWithin(reading, pointAt(value)) !== undefined;
    if (plain && isShown) return displayNumber(plain.text, shown.unit?.symbol ?? '');
    const step = stepNear(reading, interval);
    return step ? stretchWords(reading, pointAt(step)) : stretchWords(reading, interval);
}

/** A single value in the writer's unit, rounded where it must be. */
export function valueWords({ shown }: Reading, value: Fraction): string {
    return displayInterval(pointAt(value), shown);
}

/** The build and the state in which something is so of a reading; undefined where it is so in all of them. */
export function exampleOf(reading: Reading, witness: Witness, end: string): Counterexample | undefined {
    const { build, state } = witness;
    if (build.length === 0 && state.length === 0) return undefined;
    const words = listOf(
        state.map(one => `\`${one}\``),
        'and',
    );
    const when = words === '' ? '' : `with ${words}, `;
    return makeCounterexample({ build, path: [], end: `${when}\`${nameOfTest(reading)}\` ${end}` });
}

function pointAt(value: Fraction): Interval {
    return { low: { value, closed: true }, high: { value, closed: true } };
}

/** What the instrument shows, from the first to the last reading of each of its ranges: `0 V .. 20 V`. */
export function rangeWords(reading: Reading): string {
    const { range } = reading;
    if (range.sort !== 'shown') return 'any value';
    return listOf([...new Set(range.ranges.map(({ interval }) => stretchWords(reading, interval)))], 'and');
}

/** A width or an uncertainty in the writer's unit: of temperatures, a difference. */
export function sizeWords({ shown }: Reading, size: Fraction): string {
    return displayInterval(pointAt(size), { ...shown, asDifference: true });
}

/** A ratio with one digit behind the point, never rounded up: `3.9`. */
export function ratioWords(ratio: Fraction): string {
    return decimalFromFraction(ratio.mul(10n).floor().div(10n))?.text ?? '';
}
