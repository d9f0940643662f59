// How an overlap of two bands is mended: by an end that leaves its limit out, or by one that is moved to the other band.

import type { Mend } from '../findings/finding.js';
import { isPoint } from '../quantities/intervals.js';
import { edgeEdit, moveEdit, type Side, writtenValue } from './band-edits.js';
import type { Overlap, Taker } from './overlaps.js';
import type { Reading } from './reading.js';

/** The mends of an overlap. It is safe to leave a limit to what a healthy unit shows; all else is for the writer to say. */
export function overlapMends({ reading, first, second, others, shared }: Overlap): Mend[] {
    const pairs: [Taker, Taker][] = [
        [second, first],
        [first, second],
    ];
    const found = pairs.flatMap(([moved, kept]) =>
        moved.entry.name === 'normal' && kept.entry.name !== 'normal' && others.length > 0
            ? []
            : pairMends(reading, moved, kept),
    );
    const isLimit = isPoint(shared) && others.length === 0;
    return found.map((mend, index) => ({
        ...mend,
        safety: isLimit && index === 0 && first.entry.name === 'normal' ? 'safe' : 'suggestion',
    }));
}

/** Cuts one band where the other ends, as long as it goes further on one side only. */
function pairMends(reading: Reading, { entry, band }: Taker, kept: Taker): Mend[] {
    if (!band || !kept.band) return [];
    const side = sideWithin(band.interval, kept.band.interval);
    const end = side && kept.band.interval[side === 'low' ? 'high' : 'low'];
    if (!side || !end) return [];
    const value = writtenValue(end.value, reading.shown);
    if (value === undefined) return [];
    const isSame = band.interval[side]?.value.equals(end.value) ?? false;
    const edit = isSame ? edgeEdit(band, side, !end.closed) : moveEdit(band, side, { value, isClosed: !end.closed });
    if (!edit) return [];
    const words = side === 'low' ? 'begin' : 'end';
    const where = end.closed ? `${side === 'low' ? 'above' : 'below'} ${value}` : `at ${value}`;
    return [{ title: `Let \`${entry.name}\` ${words} ${where}`, safety: 'suggestion', edits: [edit] }];
}

type Ends = NonNullable<Taker['band']>['interval'];

/** The end of the band that lies within the other, where the other end does not. */
function sideWithin(band: Ends, other: Ends): Side | undefined {
    const goesBelow = other.low !== undefined && (!band.low || band.low.value.compare(other.low.value) < 0);
    const goesAbove = other.high !== undefined && (!band.high || band.high.value.compare(other.high.value) > 0);
    if (goesBelow === goesAbove) return undefined;
    return goesBelow ? 'high' : 'low';
}
