// Tells what does not fit, for the rules that share this: one for units, one for each way in which values can be meant.

import type { Report } from '../findings/rule.js';
import type { Model } from '../model/model.js';
import type { FileId } from '../model/written.js';
import type { Mismatch, MismatchSort } from './mismatch.js';
import { mismatchesOf } from './mismatches.js';

/** The sentences, which are the same whatever does not fit. */
export const mismatchMessages: Readonly<Record<MismatchSort, string>> = {
    'not-for': '{quantity} is not measured as {word}.',
    clash: '{quantity} cannot be {first} and {second} at once.',
    missing: '{quantity} does not say whether it is {choices}.',
    unit: '{quantity} cannot be in {unit}, which is a unit of {of}.',
    apart: '{unit} is a unit of {of}, and the others here are units of {other}: they cannot be compared.',
    instrument: '{instrument} measures {shown}, not {asked}.',
    sides: '{left} and {right} cannot be {done}.',
    factor: '{factor} cannot be {done}.',
    'no-reading': '{test} has no reading: it is not measured.',
    argument: '{curve} turns {input} into {output}, and this is {argument}.',
    result: 'This works out {result}, not {quantity}.',
    band: '{curve} gives {output} here, and {test} reads {wanted}.',
    plainly: '{written} is a difference of temperatures: nothing here is so cold.',
};

/** Reports what of a file one of these rules tells. */
export function reportMismatches(
    about: Mismatch['about'],
    model: Model,
    file: FileId,
    report: Report<MismatchSort>,
): void {
    const fileModel = model.files.get(file);
    if (!fileModel) return;
    for (const { about: of, sort, place, words, advice, mends, related } of mismatchesOf(fileModel, model).mismatches) {
        // What is half written is told by the reading of the file.
        if (of === about && place.start < place.end) report(sort, place, words, { advice, mends, related });
    }
}
