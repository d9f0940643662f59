// Guards (`for CHOICES`) that hold in no build.

import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import { conditionsOf, searchBuilds } from './builds.js';
import { clausesOf, type PlacedGuard } from './clauses.js';
import { oncePerFile } from './remember.js';

export interface GuardFacts {
    /** Guards that hold in no build that is made, although the guards around them do. */
    readonly impossible: readonly PlacedGuard[];
    /** Guards for which the search gave up. */
    readonly undecided: readonly PlacedGuard[];
}

/** What can be said of the guards of a file. Those with unknown names are left out: the linker has reported them. */
export const guardFactsOf = oncePerFile(findGuardFacts);

function findGuardFacts(file: FileModel, model: Model): GuardFacts {
    const impossible: PlacedGuard[] = [];
    const undecided: PlacedGuard[] = [];
    for (const placed of clausesOf(file, model).guards) {
        const { guard, around, equipment } = placed;
        const outer = conditionsOf(around, model, equipment);
        const own = conditionsOf([guard], model, equipment);
        if (!outer || !own) continue;
        const search = searchBuilds(equipment, model, [...outer, ...own]);
        if (search.sort === 'found') continue;
        // Where nothing can come here at all, the guard around it is the finding.
        if (searchBuilds(equipment, model, outer).sort !== 'found') continue;
        (search.sort === 'none' ? impossible : undecided).push(placed);
    }
    return { impossible, undecided };
}
