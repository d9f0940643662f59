// What an instrument can show of a quantity: its ranges, the steps between two readings, and how far a reading may be off.

import Fraction from 'fraction.js';

import type { Instrument, Measures } from '../model/tests.js';
import type { Amount } from '../model/written.js';
import { isShareOf, withUnitOf } from '../quantities/bands.js';
import { decimalToFraction } from '../quantities/decimal.js';
import type { Dimension } from '../quantities/dimensions.js';
import { compareExactly, nearestFloat } from '../quantities/exact-order.js';
import { contains, type Interval, intersection } from '../quantities/intervals.js';
import { coherentValue, parseQuantity, type Quantity } from '../quantities/quantity.js';
import { type QuantityKind, unitFits } from '../quantities/quantity-kinds.js';
import type { Unit } from '../quantities/unit.js';
import { convertible, toCoherent } from '../quantities/unit-conversion.js';

/** One `measures` clause of an instrument. All values are in the coherent SI unit. */
export interface MeasuringRange {
    readonly clause: Measures;
    /** Without ends where none are written, or where they cannot be read. */
    readonly interval: Interval;
    readonly unit: Unit | undefined;
    readonly dimension: Dimension | undefined;
    readonly asDifference: boolean;
    /** The smallest step that it shows: readings are `zero` and whole steps from there. */
    readonly step: Step | undefined;
}

export interface Step {
    readonly size: Fraction;
    readonly zero: Fraction;
}

/** The clauses of an instrument that serve for a quantity meant in this way. Without `peak`, an AC value is an effective one. */
export function servingRanges(
    instrument: Instrument,
    kind: QuantityKind,
    modes: readonly string[],
): readonly MeasuringRange[] {
    const known = servingOf.get(instrument) ?? new Map<string, readonly MeasuringRange[]>();
    const key = [kind.name, ...modes].join(' ');
    const ranges = known.get(key) ?? findServing(instrument, kind, modes);
    servingOf.set(instrument, known.set(key, ranges));
    return ranges;
}

/** Many tests ask one instrument for the same. */
const servingOf = new WeakMap<Instrument, Map<string, readonly MeasuringRange[]>>();

function findServing(instrument: Instrument, kind: QuantityKind, modes: readonly string[]): readonly MeasuringRange[] {
    return instrument.measures
        .filter(({ quantity, modes: own }) => {
            const words = own.map(({ text }) => text);
            return quantity.text === kind.name && sameModes(words, modes);
        })
        .map(clause => measuringRange(clause, kind));
}

/** The range that a clause declares. */
export function measuringRange(clause: Measures, kind: QuantityKind): MeasuringRange {
    const asDifference = clause.modes.some(({ text }) => text === 'difference');
    const [from, to] = [read(clause.from), read(clause.to)];
    const [low, high] = [from && to ? withUnitOf(from, to) : from, to && from ? withUnitOf(to, from) : to];
    const unit = high?.unit ?? low?.unit;
    const fits = [low, high].every(end => end === undefined || unitFits(kind, end.unit));
    const ends = fits ? [low, high].map(end => end && coherentValue(end, asDifference)) : [];
    const [first, last] = ends;
    const isOrdered = !first || !last || first.compare(last) < 0;
    return {
        clause,
        interval: isOrdered
            ? {
                  ...(first ? { low: { value: first, closed: true } } : {}),
                  ...(last ? { high: { value: last, closed: true } } : {}),
              }
            : {},
        unit,
        dimension: fits ? unit?.dimension : undefined,
        asDifference,
        step: fits ? stepOf(clause, unit, asDifference) : undefined,
    };
}

function sameModes(one: readonly string[], other: readonly string[]): boolean {
    const plain = (words: readonly string[]) => [...new Set(words.filter(word => word !== 'rms'))].sort().join(' ');
    return plain(one) === plain(other);
}

function read(amount: Amount | undefined): Quantity | undefined {
    return amount && parseQuantity(amount.written);
}

function stepOf({ resolution }: Measures, unit: Unit | undefined, asDifference: boolean): Step | undefined {
    const written = read(resolution);
    const size = written && coherentValue(written, true);
    if (!written || !size || size.compare(0) <= 0) return undefined;
    if (written.unit !== unit && !(written.unit && unit && convertible(written.unit, unit))) return undefined;
    const zero = new Fraction(0n);
    return { size, zero: unit && !asDifference ? toCoherent(zero, unit) : zero };
}

/** A reading of the stretch that the range shows, or undefined where it shows none: the stretch lies outside or between two steps. */
export function shownWithin(range: MeasuringRange, stretch: Interval): Interval | undefined {
    const shown = intersection(range.interval, stretch);
    if (!shown || !range.step) return shown;
    const value = stepWithin(range.step, shown);
    return value && { low: { value, closed: true }, high: { value, closed: true } };
}

/** Whether the instrument shows a reading in a stretch that lies within the range, which must not be empty. */
export function mayBeShown({ step }: MeasuringRange, stretch: Interval): boolean {
    return !step || (holdsStepForCertain(step, stretch) ?? stepWithin(step, stretch) !== undefined);
}

/** Whether a step lies in a stretch, where floating point numbers tell it with much to spare; else undefined. */
function holdsStepForCertain({ size, zero }: Step, { low, high }: Interval): boolean | undefined {
    if (!low || !high) return undefined;
    const [from, to] = [nearestFloat(low.value), nearestFloat(high.value)];
    const [origin, width] = [nearestFloat(zero), nearestFloat(size)];
    const [first, last] = [(from - origin) / width, (to - origin) / width];
    const spare = 1e-12 * ((Math.abs(from) + Math.abs(to) + Math.abs(origin)) / width + 1);
    if (Math.ceil(first + spare) <= last - spare) return true;
    return Math.ceil(first - spare) > last + spare ? false : undefined;
}

/** One of the steps in the stretch, the one nearest to its low end. */
export function stepWithin({ size, zero }: Step, { low, high }: Interval): Fraction | undefined {
    const end = low ?? high;
    if (!end) return zero;
    const steps = end.value.sub(zero).div(size);
    let whole = low ? steps.ceil() : steps.floor();
    if (whole.equals(steps) && !end.closed) whole = low ? whole.add(1n) : whole.sub(1n);
    const value = zero.add(whole.mul(size));
    return contains({ ...(low ? { low } : {}), ...(high ? { high } : {}) }, value) ? value : undefined;
}

/**
 * How far the reading may be from the true value, to either side: the share of the reading and the steps that `accuracy` names.
 * The share is taken of the number as it stands in the unit of the range; where the range is itself in that unit
 * (a ratio in percent), it is an amount. Undefined where no accuracy is written, or it counts steps and there is no resolution.
 */
function uncertaintyAt(range: MeasuringRange, value: Fraction): Fraction | undefined {
    const accuracy = accuracyOf(range);
    if (!accuracy) return undefined;
    const { fixed, share, zero } = accuracy;
    return share ? value.sub(zero).abs().mul(share).add(fixed) : fixed;
}

/** What `uncertaintyAt` gives, as a floating point number near to it. */
export function uncertaintyNear(range: MeasuringRange, value: number): number | undefined {
    const near = accuracyOf(range)?.near;
    return near && near.fixed + near.share * Math.abs(value - near.zero);
}

/** The uncertainty of a range: a fixed part, and a share of how far a reading is from the zero of the unit. */
interface Accuracy {
    readonly fixed: Fraction;
    readonly share: Fraction | undefined;
    readonly zero: Fraction;
    /** The same as floating point numbers. */
    readonly near: { readonly fixed: number; readonly share: number; readonly zero: number };
}

const accuracies = new WeakMap<MeasuringRange, { readonly accuracy: Accuracy | undefined }>();

function accuracyOf(range: MeasuringRange): Accuracy | undefined {
    let known = accuracies.get(range);
    if (!known) {
        known = { accuracy: readAccuracy(range) };
        accuracies.set(range, known);
    }
    return known.accuracy;
}

function readAccuracy(range: MeasuringRange): Accuracy | undefined {
    const { clause, unit, asDifference } = range;
    const written = [clause.accuracy, clause.accuracyPlus].filter(part => part !== undefined).map(read);
    if (!clause.accuracy) return undefined;
    const zero = unit && !asDifference ? toCoherent(nothing, unit) : nothing;
    let fixed = nothing;
    let share: Fraction | undefined;
    for (const part of written) {
        const size = part && partOf(range, part);
        if (!size) return undefined;
        if (size.isShare) share = share ? share.add(size.value) : size.value;
        else fixed = fixed.add(size.value);
    }
    const near = { fixed: nearestFloat(fixed), share: share ? nearestFloat(share) : 0, zero: nearestFloat(zero) };
    return { fixed, share, zero, near };
}

const nothing = new Fraction(0n);

interface AccuracyPart {
    readonly value: Fraction;
    readonly isShare: boolean;
}

function partOf({ unit, step }: MeasuringRange, part: Quantity): AccuracyPart | undefined {
    const number = decimalToFraction(part.number);
    if (part.unit?.symbol === 'digits') return step && { value: number.mul(step.size), isShare: false };
    const inUnit = unit ? { number: part.number, unit, unitText: unit.symbol } : undefined;
    const value = coherentValue(part, true);
    if (inUnit && isShareOf(part, inUnit)) return value && { value, isShare: true };
    if (part.unit && unit && !convertible(part.unit, unit)) return undefined;
    return value && { value, isShare: false };
}

/** The smallest uncertainty of the ranges that hold the value: the finest of them is the one to measure with. */
export function smallestUncertainty(ranges: readonly MeasuringRange[], value: Fraction): Fraction | undefined {
    return ranges
        .filter(({ interval }) => contains(interval, value))
        .map(range => uncertaintyAt(range, value))
        .filter(size => size !== undefined)
        .reduce<Fraction | undefined>(
            (least, size) => (least && compareExactly(least, size) <= 0 ? least : size),
            undefined,
        );
}
