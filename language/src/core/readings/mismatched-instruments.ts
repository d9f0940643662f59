// Tests that ask their instrument for what it does not measure, and bands of temperatures that can only be differences.

import type { Model } from '../model/model.js';
import type { Band, Measures, Test } from '../model/tests.js';
import { dimensions, sameDimensions } from '../quantities/dimensions.js';
import { coherentValue, parseQuantity } from '../quantities/quantity.js';
import type { QuantityKind } from '../quantities/quantity-kinds.js';
import { listOf, quoteName } from '../text/words.js';
import { rangesFor } from './calculated-ranges.js';
import { type Mismatch, modeMend, placeOf } from './mismatch.js';
import { common, distinctionOf, meantBy, type Nature, quantityWords } from './natures.js';
import { amountsOfBand, instrumentOf, isAlike, isServed, type MeasuredAs, measuredAs } from './reading-types.js';

/** What a test asks of its instruments that they do not measure. */
export function mismatchedInstruments(test: Test, model: Model): Mismatch[] {
    return measuredAs(test, model).flatMap(read => mismatchedInstrument(read, model));
}

function mismatchedInstrument({ method, kind, modes }: MeasuredAs, model: Model): Mismatch[] {
    const instrument = method.sort === 'measure' ? instrumentOf(method, model) : undefined;
    const clauses = instrument?.measures ?? [];
    if (!instrument || method.sort !== 'measure') return [];
    const serving = clauses.filter(clause => isAlike(clause, kind));
    const related = [{ ...placeOf(instrument.name), text: 'this is the instrument' }];
    const name = quoteName(instrument.name.text);
    const asked = quoteName(quantityWords(kind, modes));
    const place = placeOf(method.quantity);
    if (!isServed(method, kind, model)) {
        const shown = listOf([...new Set(clauses.map(wordsOf))].map(quoteName), 'and', 4);
        const advice = `Name an instrument that measures ${quoteName(kind.name)}, or write what ${name} measures.`;
        return [
            {
                about: 'unit',
                sort: 'instrument',
                place,
                words: { instrument: name, shown, asked },
                advice,
                mends: [],
                related,
            },
        ];
    }
    if (serving.length === 0) return [];
    const [dimension] = kind.dimensions;
    const about = dimension && distinctionOf(dimension);
    const wanted = dimension ? meantBy(dimension, modes) : [];
    const shown = dimension ? serving.flatMap(clause => meantBy(dimension, modesOf(clause))) : [];
    if (!about || common(wanted, shown).length > 0) return [];
    const natures = [...new Set(shown)];
    const words = { instrument: name, shown: listOf([...new Set(serving.map(wordsOf))].map(quoteName), 'and'), asked };
    const advice = adviceFor(about, kind);
    return [{ about, sort: 'instrument', place, words, advice, mends: mendsFor(method, natures), related }];
}

function modesOf({ modes }: Measures): readonly string[] {
    return modes.map(({ text }) => text);
}

function wordsOf(clause: Measures): string {
    return [clause.quantity.text, ...modesOf(clause)].join(' ');
}

function mendsFor(method: Extract<MeasuredAs['method'], { readonly sort: 'measure' }>, natures: readonly Nature[]) {
    return natures.map(nature => modeMend(method, nature));
}

function adviceFor(about: 'form' | 'reference' | 'difference', { name }: QuantityKind): string {
    if (about === 'difference') return `Measure two of them, and \`calculate ${name} difference\` from the readings.`;
    return 'Write what the instrument shows, name another instrument, or add what it measures to its declaration.';
}

/** Only the trade of liquefied gases measures temperatures below this, in kelvins: nitrogen boils at 77 K (from memory). */
const coldest = 60;

/** Bands of a temperature that can only be meant as differences: `normal 4 K .. 8 K`, where no instrument goes so low. */
export function plainDifferences(test: Test, model: Model): Mismatch[] {
    const [read, second] = measuredAs(test, model);
    // What a calculation gives is told by itself.
    if (!read || second || read.method.sort !== 'measure') return [];
    if (read.kind.name !== 'temperature' || read.modes.includes('difference')) return [];
    // Where an instrument is named with its range, the band is out of it, which is told by itself.
    if (rangesFor(read, model).some(({ interval }) => interval.low ?? interval.high)) return [];
    const bands = test.outcomes.flatMap(outcome => outcome.bands).filter(isPlainly);
    const [first] = bands;
    if (!first) return [];
    const amounts = amountsOfBand(first);
    const words = { written: quoteName(amounts.map(({ written }) => written).join(' .. ')) };
    const mend = [modeMend(read.method, 'difference')];
    const advice =
        'Write `temperature difference` where a difference is meant; a temperature in °C or °F where one is.';
    return [{ about: 'difference', sort: 'plainly', place: placeOf(first), words, advice, mends: mend, related: [] }];
}

function isPlainly(band: Band): boolean {
    const amounts = amountsOfBand(band);
    if (band.sort === 'limit' && band.comparison.startsWith('<')) return false;
    return (
        amounts.length > 0 &&
        amounts.every(({ written }) => {
            const quantity = parseQuantity(written);
            const unit = quantity?.unit;
            if (!unit || unit.offset !== undefined || !sameDimensions(unit.dimension, dimensions.temperature)) {
                return false;
            }
            const value = coherentValue(quantity);
            return value !== undefined && value.compare(0) >= 0 && value.compare(coldest) < 0;
        })
    );
}
