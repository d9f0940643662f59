// What one walk over the small clauses of a file finds, for all rules that ask about them.

import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { ChoiceExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Picture } from '../model/remarks.js';
import type { TestReference } from '../model/tests.js';
import { amountProblem, type AmountProblem } from './amounts.js';
import { oncePerFile } from './remember.js';
import { type Around, visitClauses } from './visit-clauses.js';

/** A guard (`for CHOICES`), and those around it, from the outside in. */
export interface PlacedGuard {
    readonly guard: ChoiceExpression;
    readonly around: Around;
    readonly equipment: Equipment;
}

export interface Clauses {
    /** Every guard whose equipment is known. */
    readonly guards: readonly PlacedGuard[];
    /** Amounts that cannot stand where they stand. */
    readonly amounts: readonly AmountProblem[];
    readonly pictures: readonly Picture[];
    /** The tests whose readings other tests need. */
    readonly readings: readonly TestReference[];
}

/** The clauses of a file; walked once. */
export const clausesOf = oncePerFile(findClauses);

function findClauses(file: FileModel, model: Model): Clauses {
    const guards: PlacedGuard[] = [];
    const amounts: AmountProblem[] = [];
    const pictures: Picture[] = [];
    const readings: TestReference[] = [];
    visitClauses(file, model, {
        guard: (guard, around, equipment) => {
            guards.push({ guard, around, equipment });
        },
        amount: (amount, purpose) => {
            const problem = amountProblem(amount, purpose);
            if (problem) amounts.push(problem);
        },
        picture: picture => {
            pictures.push(picture);
        },
        reading: test => {
            readings.push(test);
        },
    });
    return { guards, amounts, pictures, readings };
}
