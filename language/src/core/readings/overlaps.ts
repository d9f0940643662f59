// Readings that two outcomes take in some build and state, and outcomes on the wrong side of the normal band.

import type { Interval } from '../quantities/intervals.js';
import { type CellPlace, lastCell, stretchOf } from './cells.js';
import { allOf, notOf } from './conditions.js';
import type { Neighbor } from './gaps.js';
import { nothingIfAlike, oncePerReading } from './once-per-reading.js';
import type { Entry, Reading } from './reading.js';
import { cellsWithReadings, holdsReading } from './reading-cells.js';
import type { Witness } from './search.js';
import { bandsHold, isBeside, isUnclear, takesValue } from './takers.js';

/** A band that takes what bands of other outcomes take too. */
export interface Overlap {
    readonly reading: Reading;
    /** The band to look at, and one of those that share readings with it; what `otherwise` takes has no band. */
    readonly second: Taker;
    readonly first: Taker;
    /** The other bands that share readings with the second. */
    readonly others: readonly Taker[];
    readonly shared: Interval;
    readonly witness: Witness;
}

export interface Taker {
    readonly entry: Entry;
    readonly band: Neighbor['band'] | undefined;
}

/** A `low` band above the normal band, or a `high` one below it. */
export interface Misplaced {
    readonly reading: Reading;
    readonly taker: Neighbor;
    readonly normal: Neighbor;
    readonly witness: Witness;
}

/** Two outcomes that take the same readings. */
export interface Pair {
    readonly first: Taker;
    readonly second: Taker;
    readonly shared: Interval;
    readonly witness: Witness;
}

/** More pairs of bands than this are not searched; a test that has so many has been told of enough of them. */
const mostPairs = 2000;

/** What two outcomes take. Each pair is told once, at the band that explains most of them. */
export const overlapsOf = oncePerReading(
    nothingIfAlike((reading): readonly Overlap[] =>
        grouped(reading, [...overlappingBands(reading), ...restPairs(reading)]),
    ),
);

/** Every two bands of different outcomes that share readings. */
export function overlappingBands(reading: Reading): Pair[] {
    const takers = reading.entries.flatMap(entry =>
        entry.bands.map((band, index) => ({ entry, band, place: entry.places[index] ?? nowhere })),
    );
    const pairs: Pair[] = [];
    let tried = 0;
    takers.forEach((second, index) => {
        for (let before = 0; before < index; before += 1) {
            const first = takers[before];
            const shared = first && sharedCells(first.place, second.place);
            if (!shared || first.entry.name === second.entry.name || tried >= mostPairs) continue;
            if (!holdsReading(reading, shared)) continue;
            tried += 1;
            const witness = reading.search.find(allOf([first.entry.holds, second.entry.holds]));
            if (witness) {
                pairs.push({ first, second, shared: stretchOf(reading.cells, shared.first, shared.last), witness });
            }
        }
    });
    return pairs;
}

const nowhere: CellPlace = { first: 0, last: -1 };

function sharedCells(one: CellPlace, other: CellPlace): CellPlace | undefined {
    const [first, last] = [Math.max(one.first, other.first), Math.min(one.last, other.last)];
    return first <= last ? { first, last } : undefined;
}

/** Outcomes that both take all that is left; each two of them once. */
export function restPairs(reading: Reading): Pair[] {
    const rest = reading.entries.filter(entry => entry.rest === 'all');
    const pairs: Pair[] = [];
    rest.forEach((second, index) => {
        for (const first of rest.slice(0, index)) {
            if (first.name === second.name) continue;
            const pair = restPair(reading, first, second);
            if (pair) pairs.push(pair);
        }
    });
    return pairs;
}

function restPair(reading: Reading, first: Entry, second: Entry): Pair | undefined {
    for (const cell of cellsWithReadings(reading)) {
        // Two bands that share readings are told by themselves.
        if (bandsHold(first, cell) || bandsHold(second, cell)) continue;
        const both = [takesValue(reading, first, cell), takesValue(reading, second, cell)];
        const witness = reading.search.find(allOf([...both, notOf(isUnclear(reading))]));
        if (!witness) continue;
        const [one, other] = [first, second].map(entry => ({ entry, band: undefined }));
        return one && other && { first: one, second: other, shared: stretchOf(reading.cells, cell), witness };
    }
    return undefined;
}

/** Tells the pairs at as few bands as explain them all; `normal` must explain two more than another, and of two alike it is the later. */
function grouped(reading: Reading, pairs: readonly Pair[]): Overlap[] {
    const found: Overlap[] = [];
    let left = pairs;
    while (left.length > 0) {
        const counts = new Map<string, { taker: Taker; count: number }>();
        for (const taker of left.flatMap(({ first, second }) => [second, first])) {
            const known = counts.get(keyOf(taker));
            if (known) known.count += 1;
            else counts.set(keyOf(taker), { taker, count: 1 });
        }
        const [best] = [...counts.values()].sort(
            (one, other) => weightOf(other) - weightOf(one) || placeOf(other.taker) - placeOf(one.taker),
        );
        if (!best) break;
        const isMine = ({ first, second }: Pair) => [first, second].some(taker => keyOf(taker) === keyOf(best.taker));
        const mine = left.filter(isMine);
        const others = mine.map(({ first, second }) => (keyOf(first) === keyOf(best.taker) ? second : first));
        const [pair] = mine;
        const [first, ...more] = others;
        if (!pair || !first) break;
        found.push({ reading, ...pair, second: best.taker, first, others: more });
        left = left.filter(one => !isMine(one));
    }
    return found.sort((one, other) => placeOf(one.second) - placeOf(other.second));
}

function placeOf({ entry, band }: Taker): number {
    return band?.band.start ?? entry.outcome.start;
}

function keyOf(taker: Taker): string {
    return `${placeOf(taker)} ${taker.band ? 'band' : 'rest'}`;
}

function weightOf({ taker, count }: { readonly taker: Taker; readonly count: number }): number {
    return taker.entry.name === 'normal' ? count - 1.5 : count;
}

/** `low` bands that lie above all that a healthy unit reads in some build and state, and `high` ones below it. */
export const misplacedBands = nothingIfAlike(findMisplaced);

function findMisplaced(reading: Reading): readonly Misplaced[] {
    return reading.entries.flatMap(entry => {
        if (entry.name !== 'low' && entry.name !== 'high') return [];
        for (const band of entry.bands) {
            const found = misplaced(reading, { entry, band }, entry.name === 'low' ? 'above' : 'below');
            if (found) return [found];
        }
        return [];
    });
}

function misplaced(reading: Reading, taker: Neighbor, side: 'above' | 'below'): Misplaced | undefined {
    const place = taker.entry.places[taker.entry.bands.indexOf(taker.band)];
    if (!place) return undefined;
    // All of the band lies beyond the normal one where its nearest end does.
    const nearest = side === 'above' ? place.first : place.last;
    if (nearest === (side === 'above' ? 0 : lastCell(reading.cells))) return undefined;
    const normal = reading.entries.filter(({ name, bands, isUnclear: unclear }) => {
        return name === 'normal' && (bands.length > 0 || unclear);
    });
    const isBeyond = (entry: Entry) => isBeside(entry, nearest, side);
    const others = normal.filter(entry => !isBeyond(entry)).map(({ holds }) => notOf(holds));
    for (const entry of normal.filter(isBeyond)) {
        const witness = reading.search.find(allOf([taker.entry.holds, entry.holds, ...others]));
        const [band] = entry.bands;
        if (witness && band) return { reading, taker, normal: { entry, band }, witness };
    }
    return undefined;
}
