// Conclusions that leave many parts to choose from.

import type { Model } from '../model/model.js';
import type { Conclusion } from '../model/trees.js';
import type { FileId } from '../model/written.js';
import type { Crowd } from '../walk/changes.js';
import { groupsOf, partsNamed } from '../walk/groups.js';
import { isPossible, type WalkSpace } from '../walk/space.js';
import type { WorldSet } from '../walk/sets/world-sets.js';
import { type Example, pickExample, type WalkedTree, walkedTrees } from './walks.js';

/** A conclusion with more parts than are allowed. */
export interface LargeGroup {
    readonly end: Conclusion;
    readonly number: number;
    /** The names of the parts in the build that has the most. */
    readonly parts: readonly string[];
    /** Somebody who comes there in such a build. */
    readonly example: Example;
    readonly walked: WalkedTree;
}

interface Signal {
    readonly aborted: boolean;
}

/** Conclusions without an order that name more than so many parts in some build that comes there. */
export function largeGroupsIn(model: Model, file: FileId, signal: Signal, most: number): LargeGroup[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    return walkedTrees(fileModel, model, signal).flatMap(walked => {
        const { route, walk } = walked;
        const { space, presences } = walk.around;
        return route.ends.flatMap(end => {
            const { written, number } = end;
            if (written.sort === 'referral' || written.inOrder || end.names.length <= most) return [];
            const coming = [...(walk.ends[number] ?? [])].map(([presence, set]) => ({
                presence: presences.at(presence),
                set,
            }));
            for (const { parts: count, builds } of groupsOf(end, space).reverse()) {
                if (count <= most) break;
                const { crowds, parts } = withParts(limitTo(coming, builds, space), partsNamed(end, space), space);
                const example = pickExample(crowds, walk);
                if (example) return [{ end: written, number, parts, example, walked }];
            }
            return [];
        });
    });
}

function limitTo(crowds: readonly Crowd[], within: WorldSet, space: WalkSpace): Crowd[] {
    return crowds
        .map(({ presence, set }) => ({ presence, set: space.sets.and(set, within) }))
        .filter(({ set }) => isPossible(set, space));
}

/** Some of the crowds, all of whose builds have the same parts named, and the names of these. */
function withParts(
    crowds: readonly Crowd[],
    named: ReadonlyMap<number, WorldSet>,
    space: WalkSpace,
): { crowds: readonly Crowd[]; parts: readonly string[] } {
    let left = crowds;
    const parts: string[] = [];
    for (const [part, builds] of named) {
        const having = limitTo(left, builds, space);
        if (having.length === 0) continue;
        left = having;
        parts.push(space.unit.parts[part]?.name ?? '');
    }
    return { crowds: left, parts };
}
