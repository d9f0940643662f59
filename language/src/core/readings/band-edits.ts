// Edits of the ends of bands: closing one, opening one, moving one to another value.

import type { Edit } from '../findings/finding.js';
import type { Amount, Span } from '../model/written.js';
import { decimalFromFraction } from '../quantities/decimal.js';
import type { IntervalUnit } from '../quantities/interval-words.js';
import { displayNumber } from '../quantities/quantity.js';
import { differenceFromCoherent, fromCoherent } from '../quantities/unit-conversion.js';
import type Fraction from 'fraction.js';
import type { ReadingBand } from './read-band.js';

export type Side = 'low' | 'high';

/** Makes an end belong to its band, or not; undefined where the band has no such end, or it is written as a tolerance. */
export function edgeEdit({ band }: ReadingBand, side: Side, isClosed: boolean): Edit | undefined {
    if (band.sort === 'around') return undefined;
    if (band.sort === 'limit') {
        const isLow = band.comparison.startsWith('>');
        if (isLow !== (side === 'low')) return undefined;
        const sign = (isLow ? '>' : '<') + (isClosed ? '=' : '');
        return { ...between(band.start, band.value.start, band), text: `${sign} ` };
    }
    return side === 'low'
        ? { ...between(band.start, band.from.start, band), text: isClosed ? '' : '> ' }
        : { ...between(band.from.end, band.to.start, band), text: isClosed ? ' .. ' : ' .. < ' };
}

/** Moves an end to another value, and makes it belong or not; undefined where it is written as a tolerance, or there is no such end. */
export function moveEdit(
    { band }: ReadingBand,
    side: Side,
    { value, isClosed }: { readonly value: string; readonly isClosed: boolean },
): Edit | undefined {
    if (band.sort === 'around') return undefined;
    if (band.sort === 'limit') {
        const isLow = band.comparison.startsWith('>');
        if (isLow !== (side === 'low')) return undefined;
        return { ...spanOf(band), text: `${isLow ? '>' : '<'}${isClosed ? '=' : ''} ${value}` };
    }
    return side === 'low'
        ? { ...between(band.start, band.from.end, band), text: `${isClosed ? '' : '> '}${value}` }
        : { ...between(band.from.end, band.to.end, band), text: ` .. ${isClosed ? '' : '< '}${value}` };
}

/** Takes one end away, so that the band goes on without limit; undefined where it is no range. */
export function unlimitedEdit({ band }: ReadingBand, side: Side): Edit | undefined {
    if (band.sort !== 'range') return undefined;
    const kept: Amount = side === 'low' ? band.to : band.from;
    const isOpen = side === 'low' ? band.toOpen : band.fromOpen;
    const sign = (side === 'low' ? '<' : '>') + (isOpen ? '' : '=');
    return { ...spanOf(band), text: `${sign} ${kept.written}` };
}

/** A value as it can be written in a unit; undefined where its decimals never end. */
export function writtenValue(value: Fraction, { unit, asDifference }: IntervalUnit): string | undefined {
    const inUnit = unit ? (asDifference ? differenceFromCoherent(value, unit) : fromCoherent(value, unit)) : value;
    const decimal = decimalFromFraction(inUnit);
    return decimal && decimal.digits.length <= longestWritten
        ? displayNumber(decimal.text, unit?.symbol ?? '')
        : undefined;
}

const longestWritten = 12;

function between(start: number, end: number, { file }: Span): Span {
    return { file, start, end };
}

function spanOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
