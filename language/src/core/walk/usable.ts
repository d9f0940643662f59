// Which builds have what an action is about: its parts, its zone, the conditions that it sets, the faults that it clears.

import type { DoAction } from '../meaning/route.js';
import { allWorlds, noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** Every crowd that comes to an action asks. */
const usableWhere = new WeakMap<DoAction, { readonly space: WalkSpace; readonly builds: WorldSet }>();

/** The builds that have all that an action is about. */
export function whereUsable(action: DoAction, space: WalkSpace): WorldSet {
    if (isAboutNothing(action)) return allWorlds;
    const before = usableWhere.get(action);
    if (before?.space === space) return before.builds;
    const { unit, sets } = space;
    const needed = [
        ...[...action.replaces, ...action.uses, action.at].map(part =>
            part === undefined ? undefined : unit.parts[part]?.guard,
        ),
        action.zone === undefined ? undefined : unit.zones[action.zone]?.guard,
        ...action.settings.map(({ condition }) => unit.conditions[condition]?.guard),
        ...action.clearsTests.map(test => unit.tests[test]?.guard),
    ];
    let builds = needed.reduce<WorldSet>((all, guard) => sets.and(all, buildsWhere(guard, space)), allWorlds);
    if (action.clearsFaults.length > 0) {
        // Of the faults that are cleared together, some may be of other builds.
        const known = action.clearsFaults.map(fault => buildsWhere(unit.faults[fault]?.guard, space));
        builds = sets.and(
            builds,
            known.reduce<WorldSet>((any, one) => sets.or(any, one), noWorlds),
        );
    }
    usableWhere.set(action, { space, builds });
    return builds;
}

/** Whether an action only says what to do, as most do. */
export function isAboutNothing({ at, zone, settings, ...lists }: DoAction): boolean {
    const { replaces, uses, clearsTests, clearsFaults } = lists;
    if (at !== undefined || zone !== undefined || settings.length > 0) return false;
    return replaces.length + uses.length + clearsTests.length + clearsFaults.length === 0;
}
