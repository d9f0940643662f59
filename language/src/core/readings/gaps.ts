// Readings that no outcome takes, in some build and state.

import type Fraction from 'fraction.js';

import { gaps, type Interval, intersection } from '../quantities/intervals.js';
import { stretchOf } from './cells.js';
import { allOf, notOf } from './conditions.js';
import { stepWithin, shownWithin } from './measuring-ranges.js';
import type { ReadingBand } from './read-band.js';
import type { Entry, Reading } from './reading.js';
import { nothingIfAlike, oncePerReading } from './once-per-reading.js';
import { cellsWithReadings, hasReading } from './reading-cells.js';
import type { Witness } from './search.js';
import { isSurelyTaken, isTaken, isUnclear, standingEntries, takersAmong } from './takers.js';

/** Readings of one build and state that no outcome takes. */
export interface Gap {
    readonly reading: Reading;
    /** Each as far as it goes, from low to high. */
    readonly stretches: readonly GapStretch[];
    readonly witness: Witness;
}

export interface GapStretch {
    readonly interval: Interval;
    /** The band that ends where the gap begins, and the one that begins where it ends. */
    readonly below: Neighbor | undefined;
    readonly above: Neighbor | undefined;
}

/** A band beside a gap, and the outcome that it belongs to. */
export interface Neighbor {
    readonly entry: Entry;
    readonly band: ReadingBand;
}

/** The gaps of a test's readings; each reading is told once, for the first build in which nothing takes it. */
export const gapsOf = oncePerReading(nothingIfAlike(findGaps));

function findGaps(reading: Reading): readonly Gap[] {
    const told = new Set<number>();
    const found: Gap[] = [];
    for (const cell of reading.cells.inRange) {
        if (told.has(cell) || isSurelyTaken(reading, cell) || !hasReading(reading, cell)) continue;
        const wanted = allOf([notOf(isTaken(reading, cell)), notOf(isUnclear(reading))]);
        const witness = reading.search.find(wanted);
        if (!witness) continue;
        const stretches = stretchesFor(reading, witness, told);
        if (stretches.length > 0) found.push({ reading, stretches, witness });
    }
    return found;
}

/** What there can be read within a stretch: a part of it, or one step of the instrument; undefined for nothing. */
export function readingsWithin({ range }: Reading, stretch: Interval): Interval | undefined {
    if (range.sort === 'unknown') return stretch;
    if (range.sort === 'possible') return intersection(range.interval, stretch);
    for (const one of range.ranges) {
        const shown = shownWithin(one, stretch);
        if (shown) return shown;
    }
    return undefined;
}

/** One reading of the instrument within a stretch, near its middle where there are steps to choose from. */
export function stepNear({ range }: Reading, stretch: Interval): Fraction | undefined {
    if (range.sort !== 'shown') return undefined;
    for (const one of range.ranges) {
        const shown = intersection(one.interval, stretch);
        if (!shown || !one.step) continue;
        const { low, high } = shown;
        const middle = low && high && { value: low.value.add(high.value).div(2n), closed: true };
        const near = middle && stepWithin(one.step, { low: middle, high });
        const step = near ?? stepWithin(one.step, shown);
        if (step) return step;
    }
    return undefined;
}

/** The part of a stretch in which there can be readings, whatever the steps. */
export function rangeWithin({ range }: Reading, stretch: Interval): Interval {
    if (range.sort === 'unknown') return stretch;
    if (range.sort === 'possible') return intersection(range.interval, stretch) ?? stretch;
    return range.ranges.flatMap(({ interval }) => intersection(interval, stretch) ?? [])[0] ?? stretch;
}

function stretchesFor(reading: Reading, witness: Witness, told: Set<number>): GapStretch[] {
    const standing = standingEntries(reading, witness);
    const stretches: GapStretch[] = [];
    let run: number[] = [];
    const finish = () => {
        const [first] = run;
        const last = run.at(-1);
        if (first !== undefined && last !== undefined) {
            stretches.push(stretchFrom(standing, stretchOf(reading.cells, first, last)));
        }
        run = [];
    };
    for (const cell of cellsWithReadings(reading)) {
        const isOpen = takersAmong(standing, cell).length === 0;
        if (!isOpen) finish();
        else {
            run.push(cell);
            told.add(cell);
        }
    }
    finish();
    return stretches;
}

function stretchFrom(standing: readonly Entry[], interval: Interval): GapStretch {
    const bands = standing.flatMap(entry => entry.bands.map(band => ({ entry, band })));
    // Between two steps of the instrument a gap may go on as far as the next band.
    const whole = gaps(bands.map(({ band }) => band.interval)).find(gap => intersection(gap, interval)) ?? interval;
    const { low, high } = whole;
    const below = low && bands.find(({ band }) => band.interval.high?.value.equals(low.value));
    const above = high && bands.find(({ band }) => band.interval.low?.value.equals(high.value));
    return { interval, below, above };
}
