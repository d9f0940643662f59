// The tests that are read together: one that is asked, and those whose readings it is worked out from.

import type { UnitTest } from '../meaning/unit.js';
import { allWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** A test that is read, and the builds in which it is. */
export interface Reading extends Pick<UnitTest, 'needs' | 'takes'> {
    readonly where: WorldSet;
}

const known = new WeakMap<UnitTest, { readonly space: WalkSpace; readonly readings: readonly Reading[] }>();

/** A test, which is asked where it exists, and the tests whose readings it takes, as far as a build has them. */
export function readingsOf(test: UnitTest, space: WalkSpace): readonly Reading[] {
    const before = known.get(test);
    if (before?.space === space) return before.readings;
    const others = test.readings.flatMap(number => space.unit.tests[number] ?? []);
    const readings = [
        { needs: test.needs, takes: test.takes, where: allWorlds },
        ...others.map(({ needs, takes, guard }) => ({ needs, takes, where: buildsWhere(guard, space) })),
    ];
    known.set(test, { space, readings });
    return readings;
}
