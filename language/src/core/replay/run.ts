// One way that a world went through a tree, as data.

import type { Action, AskAction, DoAction, ReadAction } from '../meaning/route.js';
import type { Milliseconds, StateCondition } from '../meaning/unit.js';
import type { Tree } from '../model/trees.js';
import type { State } from './state.js';

export interface Run {
    readonly visits: readonly Visit[];
    readonly ending: Ending;
    /** All takes, waits and gate times on the way to the end, without the repair. */
    readonly time: Milliseconds;
    /** Whether an answer on the way rested on a choice that the model leaves. */
    readonly guessed: boolean;
    /** The state at the ending. */
    readonly state: State;
}

/** What happened at one station. */
export interface Visit {
    readonly station: number;
    /** The state on arrival there, as `stateKey` writes it. */
    readonly key: string;
    readonly steps: readonly Happening[];
}

export type Happening =
    | {
          readonly sort: 'asked';
          readonly action: AskAction;
          readonly test: number;
          readonly outcome: number;
          /** Where the answer leads; undefined where it leads nowhere. */
          readonly exit: number | undefined;
          readonly opts: readonly number[];
          readonly guessed: boolean;
      }
    | { readonly sort: 'read'; readonly action: ReadAction; readonly test: number }
    | { readonly sort: 'did' | 'waited' | 'gate' | 'restored' | 'followed'; readonly action: Action }
    /** The build lacks the gate or the test that is read, or a part, the zone or a condition that is to be used; it goes on all the same. */
    | { readonly sort: 'missing'; readonly action: Action }
    | { readonly sort: 'cannot be done'; readonly action: DoAction; readonly exit: number | undefined }
    | {
          readonly sort: 'needs' | 'no energy' | 'nothing said';
          readonly action: AskAction | ReadAction;
          readonly test: number;
          /** The need that is not met. */
          readonly need?: StateCondition;
      }
    /** By a `go`, a `continue with`, or a branch for the result of a procedure. */
    | { readonly sort: 'left'; readonly exit: number };

export type Ending =
    | {
          readonly sort: 'end';
          readonly end: number;
          /** Whether the end is right for this world. */
          readonly right: boolean;
          /** Whether every fault of the arrival is named there; false for a healthy unit. */
          readonly named: boolean;
          /** The faults that are present there. */
          readonly present: readonly number[];
      }
    /** The other tree goes on from this state. */
    | { readonly sort: 'handed over'; readonly tree: Tree; readonly state: State }
    /** Nothing leads on. */
    | { readonly sort: 'stranded'; readonly station: number; readonly action: Action | undefined }
    /**
     * Something is missing in this build: the end, else what the action at the station asks for, follows or continues
     * with, else the station itself, else the whole tree.
     */
    | {
          readonly sort: 'missing';
          readonly station: number | undefined;
          readonly end: number | undefined;
          readonly action: Action | undefined;
      }
    /** It has come to a station in the same state as before. */
    | { readonly sort: 'loop'; readonly station: number }
    /** More runs or visits than the limit. */
    | { readonly sort: 'cut' };
