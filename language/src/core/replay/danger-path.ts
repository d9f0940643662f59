// What a danger is, and how a way to it is told: station by station, with what happened there that somebody has to hear.

import type { Action, AskAction, DoAction, ReadAction } from '../meaning/route.js';

/** `told`: on a way that the tree tells. `detour`: where something did not go as said before. */
export type Lane = 'told' | 'detour';

/** What is no danger by itself, but what rules ask about; the words are those of the walk. */
export type OccasionSort = 'permitted' | 'proved' | 'waited' | 'driven' | 'started' | 'restored' | 'reset';

/** A hazard that is met while it is not under control, something that a referral leaves closed or changed, or an occasion. */
export interface Danger {
    readonly sort: 'hazard' | 'left' | 'occasion';
    readonly occasion?: OccasionSort;
    readonly lane: Lane;
    /** Where somebody meets the hazard: an action of a station, or the repair of a part at an end. */
    readonly station?: number;
    readonly action?: Action;
    readonly end?: number;
    readonly part?: number;
    readonly hazard?: number;
    readonly zone?: number;
    /** What is left: a closed gate, or a condition with the value that it has. */
    readonly gate?: number;
    readonly condition?: number;
    readonly value?: number;
    /** A shortest way there. What is told of the last station is what comes before the danger. */
    readonly path: readonly PathVisit[];
    /** For a hazard: whether a gate or a wait on the path had it under control before. */
    readonly wasControlled: boolean;
}

/** One station of a path. */
export interface PathVisit {
    readonly station: number;
    readonly happenings: readonly PathHappening[];
}

/** What a counterexample has to tell, also in words. Actions that make no difference to a hazard are left out. */
export type PathHappening = Occurrence & { readonly words: string };

/** The same without words. */
export type Occurrence =
    | { readonly sort: 'asked'; readonly action: AskAction; readonly outcome: number }
    | { readonly sort: 'cannot be read'; readonly action: AskAction | ReadAction }
    /** An answer that need not be the one of this world: whatever leads to this exit. */
    | { readonly sort: 'any answer'; readonly action: AskAction; readonly exit: number }
    | { readonly sort: 'cannot be done'; readonly action: DoAction }
    /** A gate is closed, or something is waited for until a hazard is safe. */
    | { readonly sort: 'closed'; readonly action: Extract<Action, { sort: 'gate' }> }
    | { readonly sort: 'waited'; readonly action: Extract<Action, { sort: 'wait' }> }
    /** A gate is restored or conditions are set; `lost` are the hazards that were under control until then. */
    | {
          readonly sort: 'restored';
          readonly action: Extract<Action, { sort: 'restore' }>;
          readonly lost: readonly number[];
      }
    | { readonly sort: 'set'; readonly action: DoAction; readonly lost: readonly number[] };

/** The visits of a path, the last one first; paths that begin alike share their beginning. */
export interface Trail {
    readonly last: PathVisit;
    readonly before: Trail | undefined;
    readonly length: number;
}

/** A trail with one visit more. */
export function longerTrail(before: Trail | undefined, last: PathVisit): Trail {
    return { last, before, length: (before?.length ?? 0) + 1 };
}

/** The visits of a trail in their order. */
export function pathOf(trail: Trail | undefined): readonly PathVisit[] {
    const visits: PathVisit[] = [];
    for (let at = trail; at; at = at.before) visits.push(at.last);
    return visits.reverse();
}
