// Which readings a test can have: what its instrument shows, or what its quantity can be.

import type { Model } from '../model/model.js';
import type { Calculate, Instrument, Measure } from '../model/tests.js';
import type { Interval } from '../quantities/intervals.js';
import type { QuantityKind } from '../quantities/quantity-kinds.js';
import { rangeOfCalculation } from './calculated-ranges.js';
import { type MeasuringRange, servingRanges } from './measuring-ranges.js';
import { possibleReadings } from './possible.js';

/** Which readings there can be. */
export type ReadingRange =
    /** An instrument shows them. */
    | { readonly sort: 'shown'; readonly instrument: Instrument; readonly ranges: readonly MeasuringRange[] }
    /** No instrument is named, or the one that is named does not say: whatever the quantity can be. */
    | { readonly sort: 'possible'; readonly interval: Interval }
    /** A calculated reading of which it is not known how small or large it can be; only what is written says. */
    | { readonly sort: 'unknown' };

/**
 * The readings that a test can have by one of its methods: what its instrument shows, what its quantity can be, or what can come
 * out of a calculation. Where only something around that is known of a calculation, a gap might be one that nothing ever comes to.
 */
export function rangeOf(
    method: Measure | Calculate,
    kind: QuantityKind,
    modes: readonly string[],
    model: Model,
): ReadingRange {
    if (method.sort === 'calculate') return rangeOfResult(method, model);
    const target = method.instrument && model.target(method.instrument);
    const instrument = target?.sort === 'instrument' ? target : undefined;
    const ranges = instrument ? servingRanges(instrument, kind, modes) : [];
    if (instrument && ranges.length > 0) return { sort: 'shown', instrument, ranges };
    return { sort: 'possible', interval: possibleReadings(kind, modes, undefined).interval };
}

function rangeOfResult(method: Calculate, model: Model): ReadingRange {
    const result = rangeOfCalculation(method, model);
    return result?.isTight && result.interval ? { sort: 'possible', interval: result.interval } : { sort: 'unknown' };
}
