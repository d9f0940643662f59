// What does not fit among readings: the shape that all findings about it share, and the words and mends that they have in common.

import type { Edit, Mend, RelatedPlace } from '../findings/finding.js';
import type { Span, Word } from '../model/written.js';
import { dimensionInWords, sameDimensions } from '../quantities/dimensions.js';
import { quoteName } from '../text/words.js';
import { type Distinction, distinctionOf, modesFor, type Nature, type ValueType } from './natures.js';

/** Something that does not fit. */
export interface Mismatch {
    /** Which rule tells it: the one for units, or the one for a distinction. */
    readonly about: 'unit' | Distinction;
    readonly sort: MismatchSort;
    readonly place: Span;
    /** The words of the message, by their names there. */
    readonly words: Readonly<Record<string, string>>;
    readonly advice: string;
    readonly mends: readonly Mend[];
    readonly related: readonly RelatedPlace[];
}

export type MismatchSort =
    /** A word that the quantity does not take, two that exclude each other, one that is missing. */
    | 'not-for'
    | 'clash'
    | 'missing'
    /** A unit of something else; a unit that cannot be compared with the others there. */
    | 'unit'
    | 'apart'
    /** What a test asks of its instrument. */
    | 'instrument'
    /** In a calculation: two sides, a factor, a test without readings, what a table is given, what comes out. */
    | 'sides'
    | 'factor'
    | 'no-reading'
    | 'argument'
    | 'result'
    /** What a table or a curve gives for a band. */
    | 'band'
    /** A band of temperatures that can only be one of differences. */
    | 'plainly';

/** Which rule tells of two types that do not fit. */
export function aboutTypes(one: ValueType, other: ValueType): Mismatch['about'] {
    return sameDimensions(one.dimension, other.dimension) ? (distinctionOf(one.dimension) ?? 'unit') : 'unit';
}

/** What a unit is of, in words: `pressure`. */
export function ofWhat(dimension: ValueType['dimension']): string {
    return (dimensionInWords(dimension) ?? 'something else').replace(/^an? /, '');
}

/** A quantity with the words beside it, as a place for edits. */
export interface SaidQuantity {
    readonly quantity: Word;
    readonly modes: readonly Word[];
}

/** A mend that writes a quantity with these words beside it. */
export function modeMend(
    { quantity, modes }: SaidQuantity,
    nature: Nature,
    safety: Mend['safety'] = 'suggestion',
): Mend {
    const words = modesFor(nature);
    const text = words === '' ? quantity.text : `${quantity.text} ${words}`;
    const edits: Edit[] = [
        { file: quantity.file, start: quantity.start, end: modes.at(-1)?.end ?? quantity.end, text },
    ];
    return { title: `Write ${quoteName(text)}`, safety, edits };
}

/** A place for a finding, without what else the model keeps there. */
export function placeOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
