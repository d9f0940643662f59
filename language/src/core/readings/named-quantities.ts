// The quantities that a file names, and which one may be meant where a name is not known.

import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Amount, Word } from '../model/written.js';
import { parseQuantity } from '../quantities/quantity.js';
import { quantityKinds, unitFits } from '../quantities/quantity-kinds.js';
import { ownedTests } from './reading.js';
import { amountsOfBand, amountsOfRange } from './reading-types.js';

/** A quantity as it is named. */
export interface NamedQuantity {
    readonly word: Word;
    /** Quantities that the amounts beside it can be of, the more usual first. */
    readonly suggestions: readonly string[];
}

/** The quantities of tests, instruments and tables, in the order of the text; that of a current loop is told with its curve. */
export function quantitiesNamed(file: FileModel, model: Model): readonly NamedQuantity[] {
    const places: readonly (FileModel | Equipment)[] = [file, ...file.equipment];
    const inTests = ownedTests(file, model).flatMap(({ test }) =>
        test.methods.flatMap(method => {
            if (method.sort !== 'measure' && method.sort !== 'calculate') return [];
            // Nearly all are known, and of these nothing is suggested.
            if (quantityKinds.has(method.quantity.text)) return [{ word: method.quantity, suggestions: [] }];
            return [
                named(
                    method.quantity,
                    test.outcomes.flatMap(({ bands }) => bands.flatMap(amountsOfBand)),
                ),
            ];
        }),
    );
    const inInstruments = places.flatMap(({ instruments }) =>
        instruments.flatMap(({ measures }) => measures.map(clause => named(clause.quantity, amountsOfRange(clause)))),
    );
    const inTables = places.flatMap(({ tables }) =>
        tables.flatMap(({ input, output, rows }) => [
            named(
                input.quantity,
                rows.map(row => row.input),
            ),
            named(
                output.quantity,
                rows.map(row => row.output),
            ),
        ]),
    );
    return [...inTests, ...inInstruments, ...inTables].sort((one, other) => one.word.start - other.word.start);
}

function named(word: Word, amounts: readonly Amount[]): NamedQuantity {
    if (quantityKinds.has(word.text)) return { word, suggestions: [] };
    const units = amounts.flatMap(({ written }) => parseQuantity(written)?.unit ?? []);
    const [unit] = units;
    const fitting = unit ? [...quantityKinds.values()].filter(kind => unitFits(kind, unit)) : [];
    return { word, suggestions: fitting.map(({ name }) => name) };
}
