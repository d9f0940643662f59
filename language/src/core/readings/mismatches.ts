// All that does not fit among the readings of a file: found once, told by the rules for units and for how values are meant.

import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import { oncePerFile } from '../questions/remember.js';
import type { Mismatch } from './mismatch.js';
import { mismatchedCalculations, type UnclearUse } from './mismatched-calculations.js';
import { mismatchedInstruments, plainDifferences } from './mismatched-instruments.js';
import { unitsOfRange, unitsOfTable, unitsOfTest } from './mismatched-units.js';
import { mismatchedWords, namedByCurve, namedByTable, type Naming } from './mismatched-words.js';
import { ownedTests } from './reading.js';

/** What does not fit in a file, in the order of the text. */
export interface Mismatches {
    readonly mismatches: readonly Mismatch[];
    /** Tables and curves that are used in a way in which they give nothing certain. */
    readonly uses: readonly UnclearUse[];
}

/** What does not fit among the tests, instruments, tables and curves of a file. */
export const mismatchesOf = oncePerFile(findMismatches);

function findMismatches(file: FileModel, model: Model): Mismatches {
    const tests = ownedTests(file, model).map(({ test }) => test);
    const places: readonly (FileModel | Equipment)[] = [file, ...file.equipment];
    const ranges = places.flatMap(({ instruments }) => instruments.flatMap(({ measures }) => measures));
    const tables = places.flatMap(place => place.tables);
    const curves = places.flatMap(place => place.curves);
    const calculations = tests.map(test => mismatchedCalculations(test, model));
    const naming: Naming[] = [
        ...tests.flatMap(({ methods }) =>
            methods.flatMap(said =>
                said.sort === 'measure' || said.sort === 'calculate' ? [{ sort: 'method', said } as const] : [],
            ),
        ),
        ...ranges.map(said => ({ sort: 'range', said }) as const),
        ...tables.flatMap(namedByTable),
        ...curves.flatMap(({ follows }) => follows.flatMap(namedByCurve)),
    ];
    const mismatches = [
        ...naming.flatMap(one => mismatchedWords(one, model)),
        ...tests.flatMap(test => [
            ...unitsOfTest(test, model),
            ...mismatchedInstruments(test, model),
            ...plainDifferences(test, model),
        ]),
        ...calculations.flatMap(one => one.mismatches),
        ...ranges.flatMap(unitsOfRange),
        ...tables.flatMap(unitsOfTable),
    ];
    return {
        mismatches: mismatches.sort((one, other) => one.place.start - other.place.start),
        uses: calculations.flatMap(({ uses }) => uses),
    };
}
