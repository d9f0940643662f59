// Lowers the smallest pieces: names, titles, texts, words, amounts and references, each with its place.

import type { CstNode, Reference as SyntaxReference } from 'langium';
import type { Amount, Name, Prose, Reference, ReferenceRole, Word } from '../core/model/written.js';
import { textValue } from '../core/text/prose.js';
import type { Lowering } from './context.js';
import { endOf, findPlace, findPlaces, firstWord, keywordAt, type Place, startOf } from './spans.js';

// Each of these pieces is one token, so it ends where its text ends: one way down the tree is enough.

/** The name that a declaration gives; empty, behind its keyword, where none is written yet. */
export function lowerName(context: Lowering, place: Place, name: string | undefined): Name {
    const { file } = context;
    const text = name ?? '';
    const written = text === '' ? undefined : findPlace(place, 'name');
    if (written) {
        const start = startOf(written);
        return { file, start, end: start + text.length, text };
    }
    const first = firstWord(place);
    const at = first && keywordAt(first) !== undefined ? first.end : startOf(place);
    return { file, start: at, end: at, text };
}

/** A text that may be left out; `written` is the token with its quotes. */
export function lowerProse(
    context: Lowering,
    place: Place,
    property: string,
    written: string | undefined,
): Prose | undefined {
    return written === undefined ? undefined : proseAt(context, place, findPlace(place, property), written);
}

/** A text that must be there; empty, at the end of its clause, where it is not written yet. */
export function lowerText(context: Lowering, place: Place, property: string, written: string | undefined): Prose {
    return (
        lowerProse(context, place, property, written) ?? {
            file: context.file,
            start: endOf(place),
            end: endOf(place),
            value: '',
        }
    );
}

/** A word of the language or of the trade; empty, at the end of its clause, where it is not written yet. */
export function lowerWord(context: Lowering, place: Place, property: string, written: string | undefined): Word {
    const token = written === undefined ? undefined : findPlace(place, property);
    const start = token ? startOf(token) : endOf(place);
    return { file: context.file, start, end: token ? start + (written ?? '').length : start, text: written ?? '' };
}

/** A word that may be left out. */
export function lowerOptionalWord(
    context: Lowering,
    place: Place,
    property: string,
    written: string | undefined,
): Word | undefined {
    return written === undefined ? undefined : lowerWord(context, place, property, written);
}

/** Words of which there may be several, such as `AC rms`. */
export function lowerWords(
    context: Lowering,
    place: Place,
    property: string,
    written: readonly string[] | undefined,
): readonly Word[] {
    if (!written || written.length === 0) return none;
    const places = findPlaces(place, property);
    return written.map((text, index) => {
        const token = places[index];
        const start = token ? startOf(token) : endOf(place);
        return { file: context.file, start, end: token ? start + text.length : start, text };
    });
}

/** An amount that may be left out, as it is written. */
export function lowerOptionalAmount(
    context: Lowering,
    place: Place,
    property: string,
    written: string | undefined,
): Amount | undefined {
    return written === undefined ? undefined : lowerAmount(context, place, property, written);
}

/** An amount that must be there; empty, at the end of its clause, where it is not written yet. */
export function lowerAmount(context: Lowering, place: Place, property: string, written: string | undefined): Amount {
    const token = written === undefined ? undefined : findPlace(place, property);
    const start = token ? startOf(token) : endOf(place);
    return { file: context.file, start, end: token ? start + (written ?? '').length : start, written: written ?? '' };
}

/** What a rate or duty is counted by: `1e6 h`, or a unit alone, which stands for one of it. The place is as written. */
export function lowerPer(context: Lowering, place: Place, written: string | undefined): Amount | undefined {
    const amount = lowerOptionalAmount(context, place, 'per', written);
    return amount && /^[^0-9+\-−]/.test(amount.written) ? { ...amount, written: `1 ${amount.written}` } : amount;
}

/** The amounts of a clause that the grammar lets stand several times. */
export function lowerAmounts(
    context: Lowering,
    place: Place,
    property: string,
    written: readonly string[] | undefined,
): readonly Amount[] {
    return lowerWords(context, place, property, written).map(({ file, start, end, text }) => ({
        file,
        start,
        end,
        written: text,
    }));
}

/** A reference that must be there; with an empty text, at the end of `owner`, where it is not written yet. */
export function lowerReference(
    context: Lowering,
    reference: SyntaxReference | undefined,
    role: ReferenceRole,
    owner: Place,
): Reference {
    const token = reference?.$refNode;
    const start = token ? startOf(token) : endOf(owner);
    const text = token ? reference.$refText : '';
    return { file: context.file, start, end: start + text.length, role, text, number: context.references++ };
}

/** A reference that may be left out. */
export function lowerOptionalReference(
    context: Lowering,
    reference: SyntaxReference | undefined,
    role: ReferenceRole,
    owner: Place,
): Reference | undefined {
    return reference ? lowerReference(context, reference, role, owner) : undefined;
}

/** A list of references of one role. */
export function lowerReferences(
    context: Lowering,
    references: readonly SyntaxReference[] | undefined,
    role: ReferenceRole,
    owner: Place,
): readonly Reference[] {
    if (!references || references.length === 0) return none;
    return references.map(reference => lowerReference(context, reference, role, owner));
}

/** All of a list that a broken syntax tree may lack. */
export function all<T>(list: readonly T[] | undefined): readonly T[] {
    return list ?? none;
}

/** A list without the room that it kept for growing, which in a big workspace is much. */
export function packed<T>(list: readonly T[]): readonly T[] {
    return list.length === 0 ? none : list.slice();
}

/** The empty list that all nodes without such a clause share. */
export const none: readonly never[] = Object.freeze([]);

function proseAt(context: Lowering, place: Place, token: CstNode | undefined, written: string): Prose {
    const start = token ? startOf(token) : endOf(place);
    return { file: context.file, start, end: token ? start + written.length : start, value: textValue(written) };
}
