// A band as it is written, as an exact interval.

import type { Band } from '../model/tests.js';
import type { Amount } from '../model/written.js';
import { bandInterval, type BandInterval, type QuantityBand } from '../quantities/bands.js';
import type { Interval } from '../quantities/intervals.js';
import { parseQuantity } from '../quantities/quantity.js';
import { type QuantityKind, unitFits } from '../quantities/quantity-kinds.js';
import type { Unit } from '../quantities/unit.js';

/** A band that says which readings it takes. */
export type WrittenBand = Exclude<Band, { readonly sort: 'otherwise' | 'from-table' }>;

export interface ReadingBand {
    readonly band: WrittenBand;
    /** In the coherent SI unit. */
    readonly interval: Interval;
    readonly unit: Unit | undefined;
}

/**
 * A band as an interval, or undefined where it is none.
 * A band that a table or a curve gives for another reading is not known here: it hangs on that reading.
 */
export function readBand(band: WrittenBand, kind: QuantityKind, modes: readonly string[]): ReadingBand | undefined {
    const result = intervalOf(band, modes.includes('difference'));
    if (!result || result.problem || !unitFits(kind, result.unit)) return undefined;
    return { band, interval: result.interval, unit: result.unit };
}

/** The same text for bands that say the same in the same words. */
export function bandKey(band: Band): string {
    switch (band.sort) {
        case 'limit':
            return band.comparison + band.value.written;
        case 'range':
            return `${band.fromOpen ? '>' : ''}${band.from.written}..${band.toOpen ? '<' : ''}${band.to.written}`;
        case 'around':
            return band.tolerance ? `${band.value.written}±${band.tolerance.written}` : band.value.written;
        default:
            return band.sort;
    }
}

// Few distinct bands stand in a workspace many times; the limit keeps a long editing session from growing without end.
const cacheLimit = 20_000;
const known = {
    value: new Map<string, BandInterval | undefined>(),
    difference: new Map<string, BandInterval | undefined>(),
};

function intervalOf(band: WrittenBand, asDifference: boolean): BandInterval | undefined {
    const cache = asDifference ? known.difference : known.value;
    const key = bandKey(band);
    let result = cache.get(key);
    if (!result && !cache.has(key)) {
        const written = quantityBand(band);
        result = written && bandInterval(written, asDifference);
        if (cache.size >= cacheLimit) cache.clear();
        cache.set(key, result);
    }
    return result;
}

function quantityBand(band: WrittenBand): QuantityBand | undefined {
    const read = (amount: Amount) => parseQuantity(amount.written);
    switch (band.sort) {
        case 'limit': {
            const value = read(band.value);
            return value && { sort: 'limit', comparison: band.comparison, value };
        }
        case 'range': {
            const [from, to] = [read(band.from), read(band.to)];
            return from && to && { sort: 'range', from, fromOpen: band.fromOpen, to, toOpen: band.toOpen };
        }
        case 'around': {
            const value = read(band.value);
            const tolerance = band.tolerance && read(band.tolerance);
            if (!value || (band.tolerance && !tolerance)) return undefined;
            return { sort: 'around', value, tolerance };
        }
    }
}
