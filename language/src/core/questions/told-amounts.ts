// What there is to say of an amount and of a test's readings: the other system of units, the UCUM code, and what a name could also mean.

import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import { bandText } from '../model/band-words.js';
import type { Band, Measures, Test } from '../model/tests.js';
import type { Amount } from '../model/written.js';
import { ambiguousUnit } from '../quantities/ambiguous-units.js';
import type { QuantityBand } from '../quantities/bands.js';
import { bandInOtherSystem, inOtherSystem, type Measured } from '../quantities/other-system.js';
import { display, parseQuantity } from '../quantities/quantity.js';
import { visitClauses } from './visit-clauses.js';

/** An amount as people read it. */
export interface ToldAmount {
    readonly amount: Amount;
    /** The number and the unit as they are shown: `4.7 µF`. */
    readonly text: string;
    /** The same in the other system of units; undefined where there is none. */
    readonly other: string | undefined;
    /** The unit in words; undefined for a plain number. */
    readonly unit: string | undefined;
    /** Its code by UCUM; a sum of money has none. */
    readonly ucum: string | undefined;
    /** Which of several meanings of the name is taken; undefined for a name with one meaning. */
    readonly note: string | undefined;
}

/** The readings of one outcome as people read them. */
export interface ToldOutcome {
    readonly name: string;
    readonly text: string;
    readonly other: string | undefined;
}

/** The amount that an offset of a file touches. */
export function amountAt(file: FileModel, model: Model, offset: number): ToldAmount | undefined {
    const found: { amount?: Amount } = {};
    visitClauses(file, model, {
        amount: amount => {
            if (amount.start <= offset && offset <= amount.end && amount.end > amount.start) found.amount = amount;
        },
        guard: ignore,
        picture: ignore,
        reading: ignore,
    });
    return found.amount && tellAmount(found.amount, measuredAt(found.amount, file));
}

/** The outcomes of a measured or calculated test with their readings, in the order written. */
export function toldOutcomes(test: Test): ToldOutcome[] {
    const method = test.methods.find(one => one.sort === 'measure' || one.sort === 'calculate');
    if (method?.sort !== 'measure' && method?.sort !== 'calculate') return [];
    const measured = measuredBy(method);
    return test.outcomes.flatMap(({ name, bands }) => {
        if (bands.length === 0) return [];
        const others = bands.map(band => otherBand(band, measured));
        const isElsewhere = others.some(other => other !== undefined);
        return [
            {
                name: name.text,
                text: bands.map(bandText).join(' or '),
                other: isElsewhere
                    ? bands.map((band, index) => others[index] ?? bandText(band)).join(' or ')
                    : undefined,
            },
        ];
    });
}

function ignore(): void {
    // Only amounts are looked for.
}

function tellAmount(amount: Amount, measured: Measured): ToldAmount | undefined {
    const quantity = parseQuantity(amount.written);
    if (!quantity) return undefined;
    const { unit, unitText } = quantity;
    return {
        amount,
        text: display(quantity),
        other: inOtherSystem(quantity, measured)?.text,
        unit: unit?.name,
        ucum: unit?.ucum,
        note: ambiguousUnit(unitText)?.note,
    };
}

function otherBand(band: Band, measured: Measured): string | undefined {
    const read = readBand(band);
    return read && bandInOtherSystem(read, measured)?.text;
}

function readBand(band: Band): QuantityBand | undefined {
    switch (band.sort) {
        case 'limit': {
            const value = parseQuantity(band.value.written);
            return value && { sort: 'limit', comparison: band.comparison, value };
        }
        case 'range': {
            const from = parseQuantity(band.from.written);
            const to = parseQuantity(band.to.written);
            return from && to && { sort: 'range', from, fromOpen: band.fromOpen, to, toOpen: band.toOpen };
        }
        case 'around': {
            const value = parseQuantity(band.value.written);
            const tolerance = band.tolerance && parseQuantity(band.tolerance.written);
            return value && { sort: 'around', value, tolerance };
        }
        default:
            return undefined;
    }
}

type Side = Pick<Measures, 'quantity' | 'modes'>;

function measuredBy({ quantity, modes }: Side): Measured {
    return { quantity: quantity.text, asDifference: modes.some(({ text }) => text === 'difference') };
}

/** How the amount is meant, by what it stands in: a tolerance and an accuracy are differences, whatever the reading is. */
function measuredAt(amount: Amount, file: FileModel): Measured {
    for (const test of testsOf(file)) {
        if (!holds(test, amount)) continue;
        const method = test.methods.find(one => one.sort === 'measure' || one.sort === 'calculate');
        const measured = method?.sort === 'measure' || method?.sort === 'calculate' ? measuredBy(method) : {};
        const isTolerance = test.outcomes
            .flatMap(({ bands }) => bands)
            .some(band => 'tolerance' in band && band.tolerance?.start === amount.start);
        return isTolerance ? { ...measured, asDifference: true } : measured;
    }
    for (const instrument of [...file.instruments, ...file.equipment.flatMap(({ instruments }) => instruments)]) {
        for (const measures of instrument.measures) {
            if (!holds(measures, amount)) continue;
            const { resolution, accuracy, accuracyPlus } = measures;
            const isSpan = [resolution, accuracy, accuracyPlus].some(one => one?.start === amount.start);
            return isSpan ? { ...measuredBy(measures), asDifference: true } : measuredBy(measures);
        }
    }
    for (const table of [...file.tables, ...file.equipment.flatMap(({ tables }) => tables)]) {
        const row = table.rows.find(one => holds(one, amount));
        if (row) return measuredBy(row.input.start === amount.start ? table.input : table.output);
    }
    return {};
}

function* testsOf(file: FileModel): Iterable<Test> {
    for (const kind of file.kinds) yield* kind.tests;
    for (const equipment of file.equipment) {
        yield* equipment.tests;
        for (const part of [...equipment.parts, ...equipment.supplies, ...equipment.kinds]) yield* part.tests;
    }
}

function holds(outer: { readonly start: number; readonly end: number }, inner: Amount): boolean {
    return outer.start <= inner.start && inner.end <= outer.end;
}
