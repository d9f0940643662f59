// Parts that a conclusion replaces although nobody who comes to it has a fault of them.

import type { Model } from '../model/model.js';
import type { Conclusion, GuardedFault } from '../model/trees.js';
import type { FileId } from '../model/written.js';
import type { Crowd } from '../walk/changes.js';
import { partsNamed } from '../walk/groups.js';
import { noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { isPossible } from '../walk/space.js';
import { type Example, pickExample, type WalkedTree, walkedTrees } from './walks.js';
import { hasWrongWays } from './wrong-ends.js';

/** Parts that are good in everybody who comes to an end which names them. */
export interface GoodParts {
    readonly end: Conclusion;
    readonly number: number;
    readonly parts: readonly string[];
    /** Where the end names the first of them. */
    readonly clause: GuardedFault;
    /** Somebody for whom the first is replaced. */
    readonly example: Example;
    readonly walked: WalkedTree;
}

interface Signal {
    readonly aborted: boolean;
}

/** Good parts that the conclusions of a file's trees replace. Trees in which somebody goes a wrong way are left out. */
export function goodPartsIn(model: Model, file: FileId, signal: Signal): GoodParts[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    return walkedTrees(fileModel, model, signal).flatMap(walked => {
        if (hasWrongWays(walked)) return [];
        return walked.route.ends.flatMap(({ number }) => goodPartsAt(number, walked));
    });
}

function goodPartsAt(number: number, walked: WalkedTree): GoodParts[] {
    const { route, walk } = walked;
    const { space, presences } = walk.around;
    const { sets, unit } = space;
    const end = route.ends[number];
    if (end?.written.sort !== 'conclusion') return [];
    const { written } = end;
    const coming: Crowd[] = [...(walk.ends[number] ?? [])].map(([presence, set]) => ({
        presence: presences.at(presence),
        set,
    }));
    const parts: string[] = [];
    let first: Pick<GoodParts, 'clause' | 'example'> | undefined;
    for (const [part, builds] of partsNamed(end, space)) {
        const isOfPart = (fault: number) => unit.faults[fault]?.part === part;
        const faulty = coming
            .filter(({ presence }) => [...presence.arrival, ...presence.present].some(isOfPart))
            .reduce<WorldSet>((any, { set }) => sets.or(any, set), noWorlds);
        if (isPossible(sets.and(faulty, builds), space)) continue;
        const clause = end.names.find(({ fault }) => isOfPart(fault))?.clause;
        const crowds = coming.map(({ presence, set }) => ({ presence, set: sets.and(set, builds) }));
        const example = pickExample(crowds, walk);
        if (!clause || !example) continue;
        parts.push(unit.parts[part]?.name ?? '');
        first ??= { clause, example };
    }
    return first ? [{ end: written, number, parts, walked, ...first }] : [];
}
