// Units that do not fit the quantity beside which they stand, or that cannot be compared with the others there.

import type { Edit, Mend } from '../findings/finding.js';
import type { Model } from '../model/model.js';
import type { Band, Measures, Outcome, Table, Test } from '../model/tests.js';
import type { Amount } from '../model/written.js';
import { decimalFromFraction } from '../quantities/decimal.js';
import { type Dimension, dimensions, sameDimensions } from '../quantities/dimensions.js';
import { coherentValue, displayNumber, parseQuantity, type Quantity } from '../quantities/quantity.js';
import { type QuantityKind, quantityKinds, unitFits } from '../quantities/quantity-kinds.js';
import type { Unit } from '../quantities/unit.js';
import { differenceFromCoherent, fromCoherent } from '../quantities/unit-conversion.js';
import { findUnit } from '../quantities/unit-spellings.js';
import { quoteName } from '../text/words.js';
import { type Mismatch, ofWhat, placeOf } from './mismatch.js';
import { amountsOfBand, isServed, measuredAs } from './reading-types.js';

/** An amount that should be one of the quantity. */
interface Placed {
    readonly amount: Amount;
    /** A tolerance, a resolution or an accuracy: of temperatures, a difference. */
    readonly isDifference: boolean;
    /** A share of a reading may stand here too. */
    readonly mayBeShare: boolean;
}

/** Amounts that belong together, and the quantities that they may be of. */
interface Amounts {
    readonly placed: readonly Placed[];
    readonly kinds: readonly QuantityKind[];
    /** The dimension that the others have, where the quantity has several. */
    readonly dimension: Dimension | undefined;
    readonly asDifference: boolean;
}

/** The units in the bands of a test. */
export function unitsOfTest(test: Test, model: Model): Mismatch[] {
    const read = measuredAs(test, model);
    // An unknown quantity says nothing of units.
    const methods = test.methods.filter(({ sort }) => sort === 'measure' || sort === 'calculate');
    if (read.length === 0 || read.length < methods.length) return [];
    // A quantity that the instrument does not measure is told there, and is probably not the one that the units are of.
    if (!read.every(({ method, kind }) => isServed(method, kind, model))) return [];
    const [first] = read;
    const kinds = read.map(({ kind }) => kind);
    const dimension = read.length === 1 ? first?.type?.dimension : undefined;
    const fitsAll = (band: Band) =>
        amountsOfBand(band).every(amount => isOfReadings(unitOf(amount), kinds, dimension)) &&
        toleranceOf(band).every(amount => isShare(unitOf(amount)) || isOfReadings(unitOf(amount), kinds, dimension));
    // So it is nearly always, and then nothing needs to be gathered.
    if (test.outcomes.every(({ bands }) => bands.every(fitsAll))) return [];
    return mismatches({
        placed: test.outcomes.flatMap(amountsOfOutcome),
        kinds,
        dimension,
        asDifference: first?.modes.includes('difference') ?? false,
    });
}

function amountsOfOutcome({ bands }: Outcome): Placed[] {
    return bands.flatMap(band => [
        ...amountsOfBand(band).map(amount => ({ amount, isDifference: false, mayBeShare: false })),
        ...toleranceOf(band).map(amount => ({ amount, isDifference: true, mayBeShare: true })),
    ]);
}

function toleranceOf(band: Band): readonly Amount[] {
    return (band.sort === 'around' || band.sort === 'from-table') && band.tolerance ? [band.tolerance] : [];
}

/** The units of what an instrument measures. */
export function unitsOfRange(measures: Measures): Mismatch[] {
    const { quantity, modes, from, to, resolution, accuracy, accuracyPlus } = measures;
    const kind = quantityKinds.get(quantity.text);
    if (!kind) return [];
    const ends = [from, to].map(amount => amount && { amount, isDifference: false, mayBeShare: false });
    const sizes = [resolution, accuracy, accuracyPlus].map(
        (amount, index) => amount && { amount, isDifference: true, mayBeShare: index > 0 },
    );
    const placed = [...ends, ...sizes].filter(one => one !== undefined);
    const dimension = firstDimension(
        kind,
        placed.map(({ amount }) => amount),
    );
    return mismatches({
        placed,
        kinds: [kind],
        dimension,
        asDifference: modes.some(({ text }) => text === 'difference'),
    });
}

/** The units in the rows of a table. */
export function unitsOfTable({ input, output, rows }: Table): Mismatch[] {
    return [input, output].flatMap((side, index) => {
        const kind = quantityKinds.get(side.quantity.text);
        const amounts = rows.map(row => (index === 0 ? row.input : row.output));
        const placed = amounts.map(amount => ({ amount, isDifference: false, mayBeShare: false }));
        const asDifference = side.modes.some(({ text }) => text === 'difference');
        return kind
            ? mismatches({ placed, kinds: [kind], dimension: firstDimension(kind, amounts), asDifference })
            : [];
    });
}

function firstDimension(kind: QuantityKind, amounts: readonly Amount[]): Dimension | undefined {
    return amounts.map(unitOf).find(unit => unit && unitFits(kind, unit))?.dimension;
}

function unitOf({ written }: Amount): Unit | undefined {
    return parseQuantity(written)?.unit;
}

/** One finding for each unit that does not fit, at the first amount that has it. */
function mismatches({ placed, kinds, dimension, asDifference }: Amounts): Mismatch[] {
    const told = new Map<string, Placed[]>();
    for (const one of placed) {
        const unit = unitOf(one.amount);
        if (!unit || fits(one, unit, kinds, dimension)) continue;
        told.set(unit.symbol, [...(told.get(unit.symbol) ?? []), one]);
    }
    return [...told.values()].flatMap(group => {
        const [first] = group.filter(({ amount }) => isWhole(amount));
        const unit = first && unitOf(first.amount);
        const [kind] = kinds;
        return first && unit && kind ? [mismatchOf(group, first, { unit, kind, kinds, dimension, asDifference })] : [];
    });
}

function fits(one: Placed, unit: Unit, kinds: readonly QuantityKind[], dimension: Dimension | undefined): boolean {
    return (one.mayBeShare && isShare(unit)) || isOfReadings(unit, kinds, dimension);
}

/** Whether a unit is one of these quantities; nothing is said of a number without one. */
function isOfReadings(
    unit: Unit | undefined,
    kinds: readonly QuantityKind[],
    dimension: Dimension | undefined,
): boolean {
    if (!unit) return true;
    return kinds.some(kind => unitFits(kind, unit)) && (!dimension || sameDimensions(unit.dimension, dimension));
}

function isShare(unit: Unit | undefined): boolean {
    if (!unit) return false;
    const { dimension, usedFor, symbol } = unit;
    return symbol === 'digits' || (usedFor === undefined && sameDimensions(dimension, dimensions.ratio));
}

/** An end of a range may have its unit from the other end; the unit then stands there. */
function isWhole({ start, end, written }: Amount): boolean {
    return end - start === written.length;
}

interface Misfit {
    readonly unit: Unit;
    readonly kind: QuantityKind;
    readonly kinds: readonly QuantityKind[];
    readonly dimension: Dimension | undefined;
    readonly asDifference: boolean;
}

function mismatchOf(group: readonly Placed[], { amount }: Placed, misfit: Misfit): Mismatch {
    const { unit, kind, kinds, dimension, asDifference } = misfit;
    const place = placeOf(amount);
    const related = group
        .filter(one => one.amount !== amount && isWhole(one.amount))
        .map(one => ({ ...placeOf(one.amount), text: `${quoteName(unit.symbol)} stands here too` }));
    const quantity = quoteName(kind.name);
    const isOfQuantity = kinds.some(one => unitFits(one, unit));
    if (isOfQuantity && dimension) {
        const words = { unit: quoteName(unit.symbol), of: ofWhat(unit.dimension), other: ofWhat(dimension) };
        const advice = `Write them all in units of ${ofWhat(dimension)}, or all in units of ${ofWhat(unit.dimension)}.`;
        return { about: 'unit', sort: 'apart', place, words, advice, mends: [], related };
    }
    const words = { unit: quoteName(unit.symbol), of: ofWhat(unit.dimension), quantity };
    const mend = conversion(group, kind, asDifference);
    const advice = `Write a unit that fits, for example \`${kind.usualUnit}\`, or another quantity.`;
    return { about: 'unit', sort: 'unit', place, words, advice, mends: mend ? [mend] : [], related };
}

/** The amounts in the usual unit of the quantity, where it is one of the same size of things and every number ends. */
function conversion(group: readonly Placed[], kind: QuantityKind, asDifference: boolean): Mend | undefined {
    const unit = findUnit(kind.usualUnit);
    if (!unit) return undefined;
    const edits: Edit[] = [];
    let first = '';
    for (const { amount, isDifference } of group) {
        const quantity = parseQuantity(amount.written);
        const text = quantity && inUnit(quantity, unit, asDifference || isDifference);
        if (text === undefined) return undefined;
        if (first === '') first = `Write ${quoteName(text)} for ${quoteName(amount.written)}`;
        edits.push({ ...placeOf(amount), text });
    }
    return { title: first, safety: 'safe', edits };
}

function inUnit(quantity: Quantity, unit: Unit, asDifference: boolean): string | undefined {
    if (!quantity.unit || !sameDimensions(quantity.unit.dimension, unit.dimension)) return undefined;
    const value = coherentValue(quantity, asDifference);
    const number = value && decimalFromFraction((asDifference ? differenceFromCoherent : fromCoherent)(value, unit));
    return number && number.digits.length <= mostDigits ? displayNumber(number.text, unit.symbol) : undefined;
}

/** A number with more digits than this is no number to read. */
const mostDigits = 12;
