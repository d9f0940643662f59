// The dangers of one world, found without any diagram: the plain twin of the hazards of the walk.

import type { Route } from '../meaning/route.js';
import type { Tree } from '../model/trees.js';
import type { Danger, PathVisit } from './danger-path.js';
import { waysOf, type WaysOptions } from './danger-ways.js';
import { stateKey } from './state.js';
import type { World } from './world.js';

export type { Danger, PathVisit } from './danger-path.js';
export { waysOf, type WaysOptions } from './danger-ways.js';

/**
 * Every danger on the told runs and the detours of a world, each once with a shortest way to it; none where the world does
 * not arrive. Those on told ways come first. Beyond the limit of visits some may be lacking: `waysOf` says whether it was cut.
 */
export function dangersOf(route: Route, world: World, options: WaysOptions = {}): readonly Danger[] {
    return waysOf(route, world, options).dangers;
}

/** The dangers in a tree of a world that other trees hand over. */
export interface DangersHandedOver {
    readonly dangers: readonly Danger[];
    /** Whether the limit of visits has cut something. */
    readonly isCut: boolean;
    /** The trees that it went through before, with its way in each. */
    readonly through: readonly { readonly tree: Tree; readonly path: readonly PathVisit[] }[];
}

/**
 * The dangers of a world in a tree that other trees hand it over to: once for each state in which it is handed over.
 * `routes` are those of all trees of the equipment.
 */
export function dangersHandedOver(
    route: Route,
    routes: readonly Route[],
    world: World,
    options: WaysOptions = {},
): readonly DangersHandedOver[] {
    const found: DangersHandedOver[] = [];
    const open: Begun[] = routes.map(one => ({ route: one, start: undefined, through: [] }));
    const begun = new Set<string>();
    // The loop also visits what it adds.
    for (const { route: from, start, through } of open) {
        const isHanded = start !== undefined && from === route;
        const ways = waysOf(from, world, { ...options, start, toldOnly: !isHanded || options.toldOnly === true });
        if (isHanded) found.push({ dangers: ways.dangers, isCut: ways.isCut, through });
        for (const { tree, state, path } of ways.handedOver) {
            const to = routes.find(one => one.tree === tree);
            const key = `${to ? routes.indexOf(to) : ''} ${stateKey(state)}`;
            if (!to || begun.has(key)) continue;
            begun.add(key);
            open.push({ route: to, start: state, through: [...through, { tree: from.tree, path }] });
        }
    }
    return found;
}

interface Begun {
    readonly route: Route;
    readonly start: WaysOptions['start'];
    readonly through: DangersHandedOver['through'];
}
