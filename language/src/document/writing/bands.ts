// Writes bands of readings with exact ends in the unit that the author thinks in.

import { bandInterval, displayBand, type QuantityBand } from '../../core/quantities/bands.js';
import type { End } from '../../core/quantities/intervals.js';
import type { Unit } from '../../core/quantities/unit.js';
import { differenceFromCoherent, fromCoherent } from '../../core/quantities/unit-conversion.js';
import type { Band as BandModel, Outcome } from '../../core/model/tests.js';
import type { Amount } from '../../core/model/written.js';
import type { AroundTable, Band, Interval, IntervalEnd, Otherwise } from '../types.js';
import { bandInOtherSystem, type Measured } from '../../core/quantities/other-system.js';
import { fractionToJsonNumber, readAmount, unitCode, writeOptionalQuantity } from './amounts.js';
import { readingType, testOf } from '../../core/readings/reading-types.js';
import { writeDirection } from './curves.js';
import { writeTestId } from './references.js';
import { made, report, writeId, type Writer } from './writer.js';

/** One band of an outcome. `measured` tells what is read. Undefined, with a problem, where it holds nothing. */
export function writeBand(writer: Writer, outcome: Outcome, band: BandModel, measured: Measured): Band | undefined {
    if (band.sort === 'otherwise') return writeOtherwise(outcome);
    if (band.sort === 'from-table') return writeAroundTable(writer, band);
    const read = readBand(writer, band);
    return read && writeInterval(writer, band, read, measured);
}

// The words low and high say on which side of the healthy readings the rest is taken.
function writeOtherwise(outcome: Outcome): Otherwise {
    const side = outcome.name.text === 'low' ? 'below' : outcome.name.text === 'high' ? 'above' : 'any';
    return { otherwise: side };
}

function writeAroundTable(writer: Writer, band: Extract<BandModel, { sort: 'from-table' }>): AroundTable {
    const table = writeId(writer, band.table);
    const input = writeTestId(writer, band.input);
    const test = testOf(band.input, writer.model);
    const backward = writeDirection(writer, band.table, test && readingType(test, writer.model));
    const tolerance = writeOptionalQuantity(writer, band.tolerance, { asDifference: true });
    const spread = tolerance ? ` ± ${tolerance.display}` : '';
    return made<AroundTable>({ table, input, backward, tolerance, display: `${table} of ${input}${spread}` });
}

type PlainBand = Exclude<BandModel, { sort: 'otherwise' | 'from-table' }>;

function readBand(writer: Writer, band: PlainBand): QuantityBand | undefined {
    const read = (amount: Amount) => readAmount(writer, amount);
    switch (band.sort) {
        case 'limit': {
            const value = read(band.value);
            return value && { sort: 'limit', comparison: band.comparison, value };
        }
        case 'range': {
            const from = read(band.from);
            const to = read(band.to);
            return from && to && { sort: 'range', from, fromOpen: band.fromOpen, to, toOpen: band.toOpen };
        }
        case 'around': {
            const value = read(band.value);
            const tolerance = band.tolerance && read(band.tolerance);
            if (band.tolerance && !tolerance) return undefined;
            return value && { sort: 'around', value, tolerance };
        }
    }
}

function writeInterval(writer: Writer, band: PlainBand, read: QuantityBand, measured: Measured): Interval | undefined {
    const { asDifference = false } = measured;
    const result = bandInterval(read, asDifference);
    if (result.problem) {
        report(
            writer,
            band,
            `The readings \`${displayBand(read)}\` cannot be made out: ${wordsFor(result.problem.kind)}.`,
        );
        return undefined;
    }
    const { interval, unit } = result;
    const code = unitCode({ ...quantityOf(read), unit, unitText: unit?.symbol ?? '' });
    if (code === undefined) {
        report(writer, band, `The readings \`${displayBand(read)}\` are a price.`);
        return undefined;
    }
    return made<Interval>({
        low: interval.low && writeEnd(interval.low, unit, asDifference),
        high: interval.high && writeEnd(interval.high, unit, asDifference),
        unit: code,
        display: displayBand(read),
        other: bandInOtherSystem(read, measured)?.text,
    });
}

function writeEnd({ value, closed }: End, unit: Unit | undefined, asDifference: boolean): IntervalEnd {
    const inUnit = unit ? (asDifference ? differenceFromCoherent(value, unit) : fromCoherent(value, unit)) : value;
    return made<IntervalEnd>({ ...fractionToJsonNumber(inUnit), closed });
}

function quantityOf(band: QuantityBand) {
    return band.sort === 'range' ? band.from : band.value;
}

function wordsFor(kind: 'unknown-unit' | 'units-differ' | 'unit-missing' | 'negative-tolerance' | 'empty'): string {
    switch (kind) {
        case 'unknown-unit':
            return 'the unit is not known';
        case 'units-differ':
            return 'the units do not fit each other';
        case 'unit-missing':
            return 'a unit is missing';
        case 'negative-tolerance':
            return 'the tolerance is below zero';
        case 'empty':
            return 'no reading lies between its ends';
    }
}
