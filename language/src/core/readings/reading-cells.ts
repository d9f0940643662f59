// The cells of a test's readings: those that its range covers, and those in which there can be a reading.

import type { Interval } from '../quantities/intervals.js';
import { type Cells, cellsBetween, type CellPlace, holdsCell, lastCell, stretchOf } from './cells.js';
import { mayBeShown } from './measuring-ranges.js';
import type { Reading } from './reading.js';
import type { ReadingRange } from './range-of.js';

/** The cells between the ends of a test's bands and those of its range. */
export interface ReadingCells extends Pick<Cells, 'ends'> {
    /** Where each of the instrument's ranges lies, or what the quantity can be. */
    readonly ranges: readonly CellPlace[];
    /** The cells as far as the range goes, from low to high, whatever the steps of the instrument. */
    readonly inRange: readonly number[];
}

/** The cells for these bands, and where each of the bands lies. */
export function cellsOfBands(
    bands: readonly Interval[],
    range: ReadingRange,
): { readonly cells: ReadingCells; readonly places: readonly CellPlace[] } {
    const limits = limitsOf(range);
    const { ends, places } = cellsBetween([...bands, ...limits]);
    const ranges = places.slice(bands.length);
    const last = lastCell({ ends });
    const inRange: number[] = [];
    // What is calculated is judged between what is written only: nobody knows how far it goes.
    const isCovered = (cell: number) =>
        range.sort === 'unknown' ? cell > 0 && cell < last : ranges.some(place => holdsCell(place, cell));
    for (let cell = 0; cell <= last; cell += 1) if (isCovered(cell)) inRange.push(cell);
    return { cells: { ends, ranges, inRange }, places };
}

function limitsOf(range: ReadingRange): readonly Interval[] {
    switch (range.sort) {
        case 'shown':
            return range.ranges.map(({ interval }) => interval);
        case 'possible':
            return [range.interval];
        case 'unknown':
            return [];
    }
}

/** Whether there can be a reading in a cell: one that the instrument shows, or one that the quantity can have. */
export function hasReading({ range, cells }: Reading, cell: number): boolean {
    if (range.sort === 'unknown') return true;
    return range.sort === 'possible'
        ? cells.ranges.some(place => holdsCell(place, cell))
        : range.ranges.some((one, index) => {
              const place = cells.ranges[index];
              return place && holdsCell(place, cell) && mayBeShown(one, stretchOf(cells, cell));
          });
}

/** Whether there can be a reading somewhere from the first to the last cell. */
export function holdsReading(reading: Reading, { first, last }: CellPlace): boolean {
    for (let cell = first; cell <= last; cell += 1) if (hasReading(reading, cell)) return true;
    return false;
}

/** The cells in which there can be a reading, from low to high. */
export function cellsWithReadings(reading: Reading): readonly number[] {
    return reading.cells.inRange.filter(cell => hasReading(reading, cell));
}
