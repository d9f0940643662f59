// What is met on the ways of a tree: hazards that are not under control, and what is left behind.

import type { Repair } from '../model/equipment.js';
import type { Action } from '../meaning/route.js';
import type { OccasionMet } from './occasions.js';
import type { WorldSet } from './sets/world-sets.js';

/** `told`: on the ways that the tree tells. `detour`: where something did not go as said before. */
export type Lane = 'told' | 'detour';

/** Somebody at a hazard that is not under control. */
export interface HazardMet {
    readonly sort: 'hazard';
    readonly lane: Lane;
    readonly station: number | undefined;
    readonly action: Action | undefined;
    /** The end whose repair meets the hazard. */
    readonly end: number | undefined;
    readonly hazard: number;
    readonly zone: number;
    /** The part at which the hand is, for a repair, and the repair. */
    readonly part: number | undefined;
    readonly repair: Repair | undefined;
    /** The builds and states in which it is so. */
    readonly set: WorldSet;
}

/** Something that is left closed or changed at an end. */
export interface LeftBehind {
    readonly sort: 'left';
    readonly lane: Lane;
    readonly end: number;
    readonly gate: number | undefined;
    readonly condition: number | undefined;
    readonly value: number | undefined;
    readonly set: WorldSet;
}

export interface HazardWalk {
    readonly met: readonly HazardMet[];
    readonly left: readonly LeftBehind[];
    readonly occasions: readonly OccasionMet[];
    /** By end: the gates that somebody comes there with closed; undefined where nobody comes. */
    readonly closedAt: readonly (ReadonlySet<number> | undefined)[];
    /** Variables that make no difference to a hazard: a set holds each of their values, whoever has come. */
    readonly forgotten: readonly number[];
}

/** On which way, and at what, a hazard is met. */
export type WhereMet = Pick<HazardMet, 'lane'> &
    Partial<Pick<HazardMet, 'station' | 'action' | 'end' | 'part' | 'repair'>>;
