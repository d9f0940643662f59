// Words beside a quantity that it does not take, that exclude each other, or that are missing.

import type { Mend } from '../findings/finding.js';
import type { Model } from '../model/model.js';
import type { Calculate, Follows, Measure, Measures, Table } from '../model/tests.js';
import type { Word } from '../model/written.js';
import {
    modifierProblems,
    type ModifierProblem,
    type QuantityKind,
    quantityKinds,
} from '../quantities/quantity-kinds.js';
import { listOf, quoteName } from '../text/words.js';
import { calculationOf } from './calculation.js';
import { type Mismatch, placeOf, type SaidQuantity } from './mismatch.js';
import { type Distinction, meantBy, type Nature } from './natures.js';
import { instrumentOf } from './reading-types.js';

/** Where a quantity is named. */
export type Naming =
    | { readonly sort: 'method'; readonly said: Measure | Calculate }
    | { readonly sort: 'range'; readonly said: Measures }
    | { readonly sort: 'side'; readonly said: SaidQuantity }
    | { readonly sort: 'loop'; readonly said: SaidQuantity };

/** The quantities that a table names. */
export function namedByTable({ input, output }: Table): Naming[] {
    return [input, output].map(said => ({ sort: 'side', said }));
}

/** The quantity that a current loop names; of other laws nothing is to be said. */
export function namedByCurve({ shape, word, modes }: Follows): Naming[] {
    return word && shape.text === 'loop' ? [{ sort: 'loop', said: { quantity: word, modes } }] : [];
}

/** What is wrong with the words beside a quantity. */
export function mismatchedWords(naming: Naming, model: Model): Mismatch[] {
    const { quantity, modes } = naming.said;
    const kind = quantityKinds.get(quantity.text);
    if (!kind) return [];
    return modifierProblems(
        kind,
        modes.map(({ text }) => text),
    ).map(problem => mismatchFor(problem, naming, kind, model));
}

function mismatchFor(problem: ModifierProblem, naming: Naming, kind: QuantityKind, model: Model): Mismatch {
    const { quantity, modes } = naming.said;
    const at = (word: string): Word => modes.find(({ text }) => text === word) ?? quantity;
    const none = { related: [], mends: [] };
    switch (problem.kind) {
        case 'unknown': {
            const place = at(problem.word);
            const words = { quantity: quoteName(kind.name), word: quoteName(problem.word) };
            const advice = `Write ${quoteName(kind.name)} without it.`;
            return {
                ...none,
                about: aboutWord(problem.word),
                sort: 'not-for',
                place: placeOf(place),
                words,
                advice,
                mends: [without(quantity, modes, place)],
            };
        }
        case 'clash': {
            const [first = '', second = ''] = problem.words;
            const words = { quantity: quoteName(kind.name), first: quoteName(first), second: quoteName(second) };
            const last = [...modes].reverse().find(({ text }) => problem.words.includes(text)) ?? quantity;
            return {
                ...none,
                about: aboutWord(first),
                sort: 'clash',
                place: placeOf(last),
                words,
                advice: 'Leave one of them.',
            };
        }
        case 'missing': {
            const choices = listOf(problem.oneOf.map(quoteName), 'or');
            const words = { quantity: quoteName(kind.name), choices };
            const about = aboutWord(problem.oneOf[0] ?? '');
            const mends = missingMends(problem.oneOf, naming, model);
            const advice = `Write ${choices} behind it.`;
            return { ...none, about, sort: 'missing', place: placeOf(quantity), words, advice, mends };
        }
    }
}

function aboutWord(word: string): Distinction {
    if (word === 'gauge' || word === 'absolute') return 'reference';
    return word === 'difference' ? 'difference' : 'form';
}

function without(quantity: Word, modes: readonly Word[], word: Word): Mend {
    const before = modes[modes.indexOf(word) - 1] ?? quantity;
    const edits = [{ file: word.file, start: before.end, end: word.end, text: '' }];
    return { title: `Take \`${word.text}\` out`, safety: 'suggestion', edits };
}

/** Each word that may be meant; that which the instrument, or the calculation, leaves alone is meant. */
function missingMends(oneOf: readonly string[], naming: Naming, model: Model): readonly Mend[] {
    const { quantity } = naming.said;
    const fitting = naming.sort === 'method' ? fittingWords(naming.said, oneOf, model) : oneOf;
    const isSure = naming.sort === 'method' && naming.said.sort === 'calculate' && fitting.length === 1;
    return fitting.map(word => {
        const edits = [{ file: quantity.file, start: quantity.end, end: quantity.end, text: ` ${word}` }];
        return { title: `Write \`${quantity.text} ${word}\``, safety: isSure ? 'safe' : 'suggestion', edits };
    });
}

function fittingWords(method: Measure | Calculate, oneOf: readonly string[], model: Model): readonly string[] {
    const natures =
        method.sort === 'calculate' ? calculationOf(method, model).type?.natures : naturesShown(method, model);
    const fitting = oneOf.filter(word => natures?.some(nature => nature.split(' ').includes(word)));
    return fitting.length > 0 ? fitting : oneOf;
}

function naturesShown(method: Measure, model: Model): readonly Nature[] {
    const clauses = instrumentOf(method, model)?.measures ?? [];
    const kind = quantityKinds.get(method.quantity.text);
    const dimension = kind?.dimensions[0];
    const own = clauses.filter(({ quantity }) => quantity.text === method.quantity.text);
    return dimension
        ? own.flatMap(({ modes }) =>
              meantBy(
                  dimension,
                  modes.map(({ text }) => text),
              ),
          )
        : [];
}
