// The two sides of a curve or a table: what it takes and what it gives; and what can be wrong with one.

import type Fraction from 'fraction.js';

import type { Curve as LawCurve } from '../curves/curve-shape.js';
import type { Amount, Span, Word } from '../model/written.js';
import { type Dimension, sameDimensions } from '../quantities/dimensions.js';
import { coherentValue, parseQuantity, type Quantity } from '../quantities/quantity.js';
import { type QuantityKind, quantityKinds, unitFits } from '../quantities/quantity-kinds.js';
import { meantBy, type ValueType } from './natures.js';

/** What a curve or a table takes, or what it gives. */
export interface CurveSide {
    readonly kind: QuantityKind;
    readonly modes: readonly string[];
    readonly type: ValueType;
}

/** The two sides of a curve or a table. */
export interface CurveSides {
    readonly input: CurveSide;
    readonly output: CurveSide;
}

/** A curve or a table as it is understood. */
export interface ReadCurve {
    /** Undefined where a quantity, or the shape, is not known. */
    readonly sides: CurveSides | undefined;
    /** Undefined where something stands in the way: a fault of its own, or amounts that other findings tell of. */
    readonly law: LawCurve | undefined;
    readonly faults: readonly CurveFault[];
}

/** What is wrong with a curve or a table, at its place. */
export interface CurveFault {
    readonly place: Span;
    readonly sort: CurveFaultSort;
    /** The words of the message, by their names there. */
    readonly words: Readonly<Record<string, string>>;
    /** How to mend it, in words. */
    readonly advice: string;
    /** Names like an unknown word, for a mend. */
    readonly near?: readonly string[];
}

export type CurveFaultSort =
    /** It follows nothing, or several laws; it is limited twice. */
    | 'nothing'
    | 'several'
    | 'limited-twice'
    /** A word for a law, a thermocouple, a property or a quantity that is not known. */
    | 'unknown'
    /** Something that the law needs and that is not there, or something that it does not take. */
    | 'lacking'
    | 'unexpected'
    /** An amount of the wrong dimension, or one that must be above zero. */
    | 'wrong-amount'
    | 'not-positive'
    /** Constants that give no thermistor; values that nothing can be computed with; a loop whose ends are alike. */
    | 'not-falling'
    | 'out-of-reach'
    | 'same-ends'
    /** Limits beyond the law. */
    | 'beyond-law'
    /** Rows of a table. */
    | 'too-few-rows'
    | 'row-order'
    | 'repeated-input'
    | 'output-not-positive';

/** An amount of a side in the coherent SI unit; undefined where it does not fit. */
export function valueOn(side: CurveSide, amount: Amount): Fraction | undefined {
    const quantity = parseQuantity(amount.written);
    if (!quantity || !fitsSide(side, quantity)) return undefined;
    return coherentValue(quantity, side.modes.includes('difference'));
}

function fitsSide({ kind, type }: CurveSide, { unit, unitText }: Quantity): boolean {
    if (!unit) return unitText === '' && kind.plainNumber;
    return unitFits(kind, unit) && sameDimensions(unit.dimension, type.dimension);
}

/** A side by its words; of a quantity with several dimensions, the amounts say which it is. */
export function sideOf(
    { quantity, modes }: { readonly quantity: Word; readonly modes: readonly Word[] },
    amounts: readonly Amount[],
): CurveSide | undefined {
    const kind = quantityKinds.get(quantity.text);
    return (
        kind &&
        makeSide(
            kind,
            modes.map(({ text }) => text),
            amounts,
        )
    );
}

/** A side of a known quantity. */
export function makeSide(kind: QuantityKind, modes: readonly string[], amounts: readonly Amount[]): CurveSide {
    const dimension = dimensionAmong(kind, amounts);
    return { kind, modes, type: { dimension, natures: meantBy(dimension, modes) } };
}

/** The dimension of a quantity, by the first amount that fits it. */
export function dimensionAmong(kind: QuantityKind, amounts: readonly Amount[]): Dimension {
    for (const { written } of amounts) {
        const unit = parseQuantity(written)?.unit;
        if (unit && unitFits(kind, unit)) return unit.dimension;
    }
    return kind.dimensions[0] ?? {};
}
