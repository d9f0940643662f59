// Who is at each action of a station, where a faulty part keeps some of those who come there from going on.

import type { Station } from '../meaning/route.js';
import type { Crowd } from './changes.js';
import type { WorldSet } from './sets/world-sets.js';
import { travelStation } from './travel.js';
import type { Sink } from './ways.js';
import type { Crowds, RouteWalk } from './walk-route.js';

/** Whether some action of a station cannot be done by some of those who come there, because what it uses is faulty. */
export function keepsSomebody(station: Station, arriving: Crowds, { around, route }: RouteWalk): boolean {
    const used = new Set(station.actions.flatMap(action => (action.sort === 'do' ? action.uses : [])));
    if (used.size === 0) return false;
    const isUsed = (fault: number) => used.has(route.unit.faults[fault]?.part ?? -1);
    return [...arriving.keys()].some(number => {
        const { present, cleared } = around.presences.at(number);
        // What was cleared may come back at this very station.
        return present.some(isUsed) || cleared.some(({ fault }) => isUsed(fault));
    });
}

/** Sets of worlds at one action: of those who come to it, and of those who go on behind it. */
export interface AtAction {
    readonly coming: readonly WorldSet[];
    readonly going: readonly WorldSet[];
}

/** By action of the station, with each fault by itself. */
export function toldActions(station: Station, arriving: Crowds, walk: RouteWalk): readonly AtAction[] {
    const { presences } = walk.around;
    let coming: readonly Crowd[] = [...arriving].map(([number, set]) => ({ presence: presences.at(number), set }));
    return station.actions.map(action => {
        const here = coming;
        const { crowds, sink } = keeper();
        for (const crowd of here) travelStation({ ...station, actions: [action] }, crowd, { ...walk, sink });
        coming = crowds;
        return { coming: here.map(({ set }) => set), going: crowds.map(({ set }) => set) };
    });
}

/** Keeps those who go on behind an action; where the others leave to is known already. */
function keeper(): { readonly crowds: Crowd[]; readonly sink: Sink } {
    const crowds: Crowd[] = [];
    const ignore = () => undefined;
    const meet: Sink['meet'] = ({ sort, action, presence, set }) => {
        if (sort === 'stranded' && action === undefined) crowds.push({ presence, set });
    };
    return {
        crowds,
        sink: { meet, exit: ignore, arrive: ignore, end: ignore, tree: ignore, asked: ignore, detour: ignore },
    };
}
