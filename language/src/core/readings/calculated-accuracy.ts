// How far a calculated reading may be off: the worst case, in which all readings that it is worked out from are off to the wrong side.
//
// A statistical sum would be smaller. The worst case is taken because the errors of one instrument, which often takes all the readings, go
// together.

import Fraction from 'fraction.js';

import type { Model } from '../model/model.js';
import type { Calculate, Test } from '../model/tests.js';
import { contains, type Interval, intersection } from '../quantities/intervals.js';
import { rangesFor } from './calculated-ranges.js';
import type { Plan } from './calculation.js';
import { enclose } from './enclosures.js';
import { type MeasuringRange, smallestUncertainty } from './measuring-ranges.js';
import { evaluate, planOf, readingsIn } from './plans.js';
import { readBand } from './read-band.js';
import { measuredAs } from './reading-types.js';

/** A reading in the coherent SI unit, and how far it may be off to either side. */
export interface UncertainReading {
    readonly value: Fraction;
    readonly uncertainty: Fraction;
}

/**
 * How far the result of a plan may be off for these readings, to the side where it is worst. Undefined where a reading is not there, and
 * where some readings within the uncertainty give no value.
 */
export function uncertaintyOf(
    plan: Plan,
    readingOf: (test: Test) => UncertainReading | undefined,
): Fraction | undefined {
    const value = evaluate(plan, test => readingOf(test)?.value);
    const { interval, mayLackValue } = enclose(plan, test => {
        const reading = readingOf(test);
        const range = reading ? around(reading) : {};
        return { interval: range, isTight: true, mayLackValue: false };
    });
    if (!value || mayLackValue || !interval?.low || !interval.high) return undefined;
    const [below, above] = [value.sub(interval.low.value), interval.high.value.sub(value)];
    return above.compare(below) > 0 ? above : below;
}

function around({ value, uncertainty }: UncertainReading): Interval {
    return {
        low: { value: value.sub(uncertainty), closed: true },
        high: { value: value.add(uncertainty), closed: true },
    };
}

/**
 * How far a calculated test may be off on a healthy unit: the largest of what it is with all readings at the low end, in the middle and at
 * the high end of their normal bands, each with the accuracy of its instrument there.
 * Undefined where a reading has no instrument with an accuracy or no normal band that ends on both sides.
 */
export function uncertaintyOfCalculation(method: Calculate, model: Model): Fraction | undefined {
    const plan = planOf(method, model);
    if (!plan) return undefined;
    const normal = new Map<Test, readonly UncertainReading[]>();
    for (const test of readingsIn(plan)) {
        const readings = normalReadings(test, model);
        if (!readings) return undefined;
        normal.set(test, readings);
    }
    const sizes = [0, 1, 2].map(at => uncertaintyOf(plan, test => normal.get(test)?.[at]));
    const known = sizes.filter(size => size !== undefined);
    if (known.length < sizes.length) return undefined;
    return known.reduce((most, size) => (size.compare(most) > 0 ? size : most), new Fraction(0n));
}

/** The low end, the middle and the high end of what a healthy unit reads, as far as the instrument shows it. */
function normalReadings(test: Test, model: Model): readonly UncertainReading[] | undefined {
    const [read, second] = measuredAs(test, model);
    if (!read || second) return undefined;
    const ranges = rangesFor(read, model);
    const bands = test.outcomes
        .filter(({ name }) => name.text === 'normal')
        .flatMap(outcome => outcome.bands)
        .map(band =>
            band.sort === 'otherwise' || band.sort === 'from-table' ? undefined : readBand(band, read.kind, read.modes),
        );
    const shown = bands.flatMap(band =>
        ranges.flatMap(({ interval }) => (band && intersection(interval, band.interval)) ?? []),
    );
    const ends = shown.flatMap(({ low, high }) => (low && high ? [low.value, high.value] : []));
    const [first] = ends;
    if (!first || ends.length < 2 * shown.length) return undefined;
    const low = ends.reduce((least, end) => (end.compare(least) < 0 ? end : least), first);
    const high = ends.reduce((most, end) => (end.compare(most) > 0 ? end : most), first);
    const readings = [low, low.add(high).div(2n), high].map(value => uncertainAt(ranges, value));
    const known = readings.filter(reading => reading !== undefined);
    return known.length < readings.length ? undefined : known;
}

function uncertainAt(ranges: readonly MeasuringRange[], value: Fraction): UncertainReading | undefined {
    const near = ranges.filter(({ interval }) => contains(interval, value));
    const uncertainty = smallestUncertainty(near, value);
    return uncertainty && { value, uncertainty };
}
