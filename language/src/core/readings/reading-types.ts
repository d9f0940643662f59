// What the reading of a test is: its quantity, its dimension, and how it is meant.

import type { Model } from '../model/model.js';
import type { Band, Calculate, Instrument, Measure, Measures, Test, TestReference } from '../model/tests.js';
import type { Amount } from '../model/written.js';
import { type Dimension, sameDimensions } from '../quantities/dimensions.js';
import { parseQuantity } from '../quantities/quantity.js';
import { type QuantityKind, quantityKinds, unitFits } from '../quantities/quantity-kinds.js';
import { oncePerModel } from '../questions/remember.js';
import { meantBy, type ValueType } from './natures.js';

/** What one method of a test reads. */
export interface MeasuredAs {
    readonly method: Measure | Calculate;
    readonly kind: QuantityKind;
    readonly modes: readonly string[];
    /**
     * Undefined where the quantity has several dimensions and nothing says which it is here, and where the instrument does not measure it:
     * the quantity is then probably not the one that is meant.
     */
    readonly type: ValueType | undefined;
}

/** The test that a reference names; undefined where it leads nowhere. */
export function testOf({ owner, test }: TestReference, model: Model): Test | undefined {
    const target = model.target(test ?? owner);
    return target?.sort === 'test' ? target : undefined;
}

/** What a test reads, by each of its methods that measures or calculates something known. */
export function measuredAs(test: Test, model: Model): readonly MeasuredAs[] {
    const known = measuredOf(model);
    const read = known.get(test) ?? findMeasured(test, model);
    known.set(test, read);
    return read;
}

const measuredOf = oncePerModel(() => new WeakMap<Test, readonly MeasuredAs[]>());

function findMeasured(test: Test, model: Model): readonly MeasuredAs[] {
    return test.methods.flatMap(method => {
        if (method.sort !== 'measure' && method.sort !== 'calculate') return [];
        const kind = quantityKinds.get(method.quantity.text);
        if (!kind) return [];
        const modes = method.modes.map(({ text }) => text);
        const dimension = isServed(method, kind, model) ? dimensionRead(test, method, kind, model) : undefined;
        return [{ method, kind, modes, type: dimension && { dimension, natures: meantBy(dimension, modes) } }];
    });
}

/**
 * What a reading of the test is, whichever method it is taken by; undefined where that is not known: its quantity is not, or its
 * methods read quantities of different dimensions.
 */
export function readingType(test: Test, model: Model): ValueType | undefined {
    const methods = measuredAs(test, model);
    const [first] = methods;
    if (!first?.type || methods.length < test.methods.length) return undefined;
    const { dimension } = first.type;
    const natures = new Set(methods.flatMap(({ type }) => type?.natures ?? []));
    const isOne = methods.every(({ type }) => type && sameDimensions(type.dimension, dimension));
    return isOne ? { dimension, natures: [...natures] } : undefined;
}

/** Whether a test has readings at all; one that is observed has not. */
export function hasReadings({ methods }: Test): boolean {
    return methods.some(({ sort }) => sort === 'measure' || sort === 'calculate');
}

function dimensionRead(
    test: Test,
    method: Measure | Calculate,
    kind: QuantityKind,
    model: Model,
): Dimension | undefined {
    const [only, second] = kind.dimensions;
    if (!second) return only;
    const instrument = method.sort === 'measure' ? instrumentOf(method, model) : undefined;
    const ranges = instrument?.measures.filter(({ quantity }) => quantity.text === kind.name) ?? [];
    const amounts = [
        ...ranges.flatMap(amountsOfRange),
        ...test.outcomes.flatMap(({ bands }) => bands.flatMap(amountsOfBand)),
    ];
    return amounts.map(({ written }) => parseQuantity(written)?.unit).find(unit => unit && unitFits(kind, unit))
        ?.dimension;
}

/** Whether the instrument of a method measures this quantity, or one of the same sort; true where nothing is said of it. */
export function isServed(method: Measure | Calculate, kind: QuantityKind, model: Model): boolean {
    const instrument = method.sort === 'measure' ? instrumentOf(method, model) : undefined;
    const clauses = instrument?.measures ?? [];
    const isUnclear = clauses.length === 0 || clauses.some(({ quantity }) => !quantityKinds.has(quantity.text));
    return isUnclear || clauses.some(clause => isAlike(clause, kind));
}

/** Whether a clause of an instrument is of the same sort of thing: a caliper that measures lengths measures gaps too. */
export function isAlike({ quantity }: Measures, kind: QuantityKind): boolean {
    const own = quantityKinds.get(quantity.text);
    return own?.dimensions.some(one => kind.dimensions.some(other => sameDimensions(one, other))) ?? false;
}

/** The instrument that a measurement names. */
export function instrumentOf({ instrument }: Measure, model: Model): Instrument | undefined {
    const target = instrument && model.target(instrument);
    return target?.sort === 'instrument' ? target : undefined;
}

/** The ends of a range, and its resolution, which all have its unit. */
export function amountsOfRange({ from, to, resolution }: Measures): readonly Amount[] {
    return [from, to, resolution].filter(amount => amount !== undefined);
}

/** The amounts of a band that are readings themselves. */
export function amountsOfBand(band: Band): readonly Amount[] {
    switch (band.sort) {
        case 'limit':
        case 'around':
            return [band.value];
        case 'range':
            return [band.from, band.to];
        default:
            return [];
    }
}
