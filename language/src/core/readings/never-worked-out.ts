// Bands of a calculated test that its readings can never lead to.

import type { Model } from '../model/model.js';
import { type Interval, intersection } from '../quantities/intervals.js';
import { rangeOfCalculation } from './calculated-ranges.js';
import type { Neighbor } from './gaps.js';
import type { Reading } from './reading.js';
import type { Witness } from './search.js';

/** A band that nothing that is worked out lies in. */
export interface NeverWorkedOut {
    readonly reading: Reading;
    readonly taker: Neighbor;
    /** Holds all that can come out; undefined where nothing ever does, because the readings lie outside a curve or a divisor is zero. */
    readonly range: Interval | undefined;
    readonly witness: Witness;
}

/** The bands of a calculated test that lie wholly beyond what can come out; nothing where that is not known. */
export function neverWorkedOut(reading: Reading, model: Model): readonly NeverWorkedOut[] {
    const range = reading.method.sort === 'calculate' ? rangeOfCalculation(reading.method, model) : undefined;
    if (!range) return [];
    const { interval } = range;
    return reading.entries.flatMap(entry =>
        entry.bands.flatMap(band => {
            if (interval && intersection(interval, band.interval)) return [];
            const witness = reading.search.find(entry.holds);
            return witness ? [{ reading, taker: { entry, band }, range: interval, witness }] : [];
        }),
    );
}
