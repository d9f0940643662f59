// Readings that there cannot be: below absolute zero, above 100 % of humidity, a range that ends before it begins.

import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Curve, Instrument, Measures, Outcome, Table } from '../model/tests.js';
import type { Amount, Span, Word } from '../model/written.js';
import { withUnitOf } from '../quantities/bands.js';
import { contains, intersection } from '../quantities/intervals.js';
import { coherentValue, parseQuantity, type Quantity } from '../quantities/quantity.js';
import { type QuantityKind, quantityKinds, unitFits } from '../quantities/quantity-kinds.js';
import { convertible } from '../quantities/unit-conversion.js';
import { possibleReadings } from './possible.js';
import { bandKey, readBand, type ReadingBand, type WrittenBand } from './read-band.js';
import { ownedTests } from './reading.js';

/** Something written that can be no reading. */
export type Impossible = { readonly place: Span } &
    /** A value, or all of a band, beyond what the quantity can be. */
    (
        | {
              readonly sort: 'value' | 'band';
              readonly written: string;
              readonly quantity: string;
              readonly reason: string;
          }
        /** A range that ends before it begins, or in which no reading lies. */
        | { readonly sort: 'empty'; readonly written: string; readonly from: Amount; readonly to: Amount }
        /** A tolerance or an accuracy below zero, or a resolution that is not above it. */
        | { readonly sort: 'tolerance' | 'accuracy' | 'resolution'; readonly written: string }
    );

/** What of a file's tests, instruments, tables and curves can be no reading, in the order of the text. */
export function impossibleReadings(file: FileModel, model: Model): Impossible[] {
    const places: readonly (FileModel | Equipment)[] = [file, ...file.equipment];
    const possible: BandsSeen = new Set();
    return [
        ...ownedTests(file, model).flatMap(({ test }) => {
            const method = test.methods.find(({ sort }) => sort === 'measure' || sort === 'calculate');
            const quantity = method && 'quantity' in method ? measured(method) : undefined;
            return quantity ? test.outcomes.flatMap(outcome => inBands(outcome, quantity, possible)) : [];
        }),
        ...places.flatMap(({ instruments }) => instruments.flatMap(inInstrument)),
        ...places.flatMap(({ tables }) => tables.flatMap(inTable)),
        ...places.flatMap(({ curves }) => curves.flatMap(inCurve)),
    ].sort((one, other) => one.place.start - other.place.start);
}

interface Measured {
    readonly kind: QuantityKind;
    readonly modes: readonly string[];
}

function measured({ quantity, modes }: { readonly quantity: Word; readonly modes: readonly Word[] }) {
    const kind = quantityKinds.get(quantity.text);
    return kind && { kind, modes: modes.map(({ text }) => text) };
}

/** Bands of a file in which nothing is impossible, with the quantity: the same are written many times. */
type BandsSeen = Set<string>;

function inBands({ bands }: Outcome, quantity: Measured, possible: BandsSeen): Impossible[] {
    return bands.flatMap(band => {
        if (band.sort === 'otherwise' || band.sort === 'from-table') return [];
        const key = `${quantity.kind.name} ${quantity.modes.join(' ')} ${bandKey(band)}`;
        if (possible.has(key)) return [];
        const found = inWrittenBand(band, quantity);
        if (found.length === 0) possible.add(key);
        return found;
    });
}

function inWrittenBand(band: WrittenBand, quantity: Measured): Impossible[] {
    const { file, start, end } = band;
    const place = { file, start, end };
    if (band.sort === 'range' && isEmptyRange(band, quantity)) {
        const written = `${band.fromOpen ? '> ' : ''}${band.from.written} .. ${band.toOpen ? '< ' : ''}${band.to.written}`;
        return [{ sort: 'empty', place, written, from: band.from, to: band.to }];
    }
    if (band.sort === 'around' && isBelowZero(band.tolerance)) {
        return [{ sort: 'tolerance', place: band.tolerance ?? place, written: band.tolerance?.written ?? '' }];
    }
    const read = readBand(band, quantity.kind, quantity.modes);
    return read ? inBand(read, quantity) : [];
}

function inBand({ band, interval, unit }: ReadingBand, { kind, modes }: Measured): Impossible[] {
    const possible = possibleReadings(kind, modes, unit?.dimension);
    const { file, start, end } = band;
    const why = (isLow: boolean) => ({ quantity: kind.name, reason: (isLow ? possible.below : possible.above) ?? '' });
    if (!intersection(possible.interval, interval)) {
        const { low } = possible.interval;
        const isLow = low !== undefined && interval.high !== undefined && interval.high.value.compare(low.value) <= 0;
        const written = band.sort === 'limit' ? `${band.comparison} ${band.value.written}` : writtenBand(band);
        return [{ sort: 'band', place: { file, start, end }, written, ...why(isLow) }];
    }
    if (band.sort === 'around') return around(band, { kind, modes });
    const amounts = band.sort === 'limit' ? [band.value] : [band.from, band.to];
    return amounts.flatMap(amount => inAmount(amount, { kind, modes }, amounts));
}

/** Half of a tolerance may lie beyond, as in `0 bar ± 0.1 bar`: it is only written for both sides. */
function around(band: Extract<ReadingBand['band'], { readonly sort: 'around' }>, measured: Measured): Impossible[] {
    return inAmount(band.value, measured, band.tolerance ? [band.tolerance] : []);
}

function writtenBand(band: Exclude<ReadingBand['band'], { readonly sort: 'limit' }>): string {
    if (band.sort === 'range') return `${band.from.written} .. ${band.to.written}`;
    return band.tolerance ? `${band.value.written} ± ${band.tolerance.written}` : band.value.written;
}

/** A single value; one that has no unit takes that of the others. */
function inAmount(amount: Amount, { kind, modes }: Measured, others: readonly Amount[] = []): Impossible[] {
    const quantity = readAmount(amount, others);
    const value = quantity && unitFits(kind, quantity.unit) && coherentValue(quantity, modes.includes('difference'));
    if (!quantity || !value) return [];
    const { interval, below, above } = possibleReadings(kind, modes, quantity.unit?.dimension);
    if (contains(interval, value)) return [];
    const isLow = interval.low !== undefined && value.compare(interval.low.value) < 0;
    const { file, start, end, written } = amount;
    const reason = (isLow ? below : above) ?? '';
    return [{ sort: 'value', place: { file, start, end }, written, quantity: kind.name, reason }];
}

function readAmount(amount: Amount, others: readonly Amount[]): Quantity | undefined {
    const quantity = parseQuantity(amount.written);
    const [other] = others.flatMap(one => parseQuantity(one.written) ?? []).filter(({ unitText }) => unitText !== '');
    return quantity && other ? withUnitOf(quantity, other) : quantity;
}

interface Range {
    readonly from: Amount;
    readonly to: Amount;
    readonly fromOpen?: boolean;
    readonly toOpen?: boolean;
}

function isEmptyRange({ from, to, fromOpen = false, toOpen = false }: Range, { kind, modes }: Measured): boolean {
    const [low, high] = [readAmount(from, [to]), readAmount(to, [from])];
    if (!low || !high || !unitFits(kind, low.unit) || !unitFits(kind, high.unit)) return false;
    if (low.unit && high.unit && !convertible(low.unit, high.unit)) return false;
    const [first, last] = [low, high].map(end => coherentValue(end, modes.includes('difference')));
    if (!first || !last) return false;
    const order = first.compare(last);
    return order > 0 || (order === 0 && (fromOpen || toOpen));
}

function isBelowZero(amount: Amount | undefined): boolean {
    const number = amount && parseQuantity(amount.written)?.number;
    return number !== undefined && number.negative;
}

function inInstrument({ measures }: Instrument): Impossible[] {
    return measures.flatMap(clause => {
        const quantity = measured(clause);
        return quantity ? [...inRange(clause, quantity), ...inFineness(clause)] : [];
    });
}

function inRange({ from, to }: Measures, quantity: Measured): Impossible[] {
    if (from && to && isEmptyRange({ from, to, fromOpen: true }, quantity)) {
        const place = { file: from.file, start: from.start, end: to.end };
        return [{ sort: 'empty', place, written: `${from.written} .. ${to.written}`, from, to }];
    }
    return [from, to].flatMap(end => (end ? inAmount(end, quantity, from && to ? [from, to] : []) : []));
}

function inFineness({ resolution, accuracy, accuracyPlus }: Measures): Impossible[] {
    const isZero = resolution && parseQuantity(resolution.written)?.number.digits === '0';
    const found: Impossible[] = [accuracy, accuracyPlus].flatMap(amount =>
        amount && isBelowZero(amount) ? [{ sort: 'accuracy', place: amount, written: amount.written } as const] : [],
    );
    return resolution && (isZero || isBelowZero(resolution))
        ? [{ sort: 'resolution', place: resolution, written: resolution.written }, ...found]
        : found;
}

function inTable({ input, output, rows }: Table): Impossible[] {
    const [from, to] = [measured(input), measured(output)];
    return rows.flatMap(row => [...(from ? inAmount(row.input, from) : []), ...(to ? inAmount(row.output, to) : [])]);
}

/** The inputs that a curve is limited to, and the two that a current loop stands for. */
function inCurve({ follows, limits }: Curve): Impossible[] {
    const [shape] = follows;
    const loop = shape?.shape.text === 'loop' ? shape : undefined;
    const quantity = loop
        ? loop.word && measured({ quantity: loop.word, modes: loop.modes })
        : measured({ quantity: temperature, modes: [] });
    if (!quantity) return [];
    const ends = loop ? [...loop.values, ...(loop.last ? [loop.last] : [])] : [];
    return [
        ...ends.flatMap(end => inAmount(end, quantity, ends)),
        ...limits.flatMap(({ from, to }): Impossible[] => {
            if (isEmptyRange({ from, to, fromOpen: true }, quantity)) {
                const place = { file: from.file, start: from.start, end: to.end };
                return [{ sort: 'empty', place, written: `${from.written} .. ${to.written}`, from, to }];
            }
            return [from, to].flatMap(end => inAmount(end, quantity, [from, to]));
        }),
    ];
}

const temperature: Word = { file: '', start: 0, end: 0, text: 'temperature' };
