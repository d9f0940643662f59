// One walk through a tree: where it is, what is known, and how it came there. A session is never changed; each answer makes a new one.

import type { Conclusion, Follow, Procedure, Referral, Step, Tree as TreeOfDocument } from '../document/types.js';
import type { Choices } from './builds.js';
import type { SessionEvent } from './record.js';
import type { State } from './state.js';
import type { Tree } from './tree.js';

export interface Session {
    readonly tree: Tree;
    readonly choices: Choices;
    readonly state: State;
    readonly position: Position;
    /** The option that has to be said first, because something hangs on it. */
    readonly openOption: string | undefined;
    /** What was answered before it turned out that an option has to be said; it counts once that is said. */
    readonly waiting: Waiting | undefined;
    /** The answers so far, the last one first. */
    readonly trail: Chain<TrailEntry>;
    /** The session before the last answer. */
    readonly before: Session | undefined;
    /** All that has happened, also what was taken back, the last first. */
    readonly events: Chain<SessionEvent>;
}

export type Waiting =
    { readonly sort: 'answer'; readonly answer: Answer } | { readonly sort: 'finish'; readonly finish: Finish };

/** A list that grows at its head and shares its tail. */
export type Chain<T> = { readonly head: T; readonly tail: Chain<T> } | undefined;

/** The entries in the order in which they came. */
export function listOf<T>(chain: Chain<T>): readonly T[] {
    const list: T[] = [];
    for (let at = chain; at; at = at.tail) list.push(at.head);
    return list.reverse();
}

/** Where a session is. */
export type Position =
    /** Before the first step: it hangs on an option. */
    | { readonly sort: 'start' }
    | AtStep
    | { readonly sort: 'end'; readonly kind: 'conclusion'; readonly end: Conclusion }
    | { readonly sort: 'end'; readonly kind: 'referral'; readonly end: Referral }
    /** Another tree goes on from here. */
    | { readonly sort: 'hand-over'; readonly tree: string }
    /** Nothing leads on. A verified tree never comes here. */
    | { readonly sort: 'stuck'; readonly why: string }
    | { readonly sort: 'finished'; readonly end: Conclusion | Referral; readonly complaint: Finish['complaint'] };

export interface AtStep {
    readonly sort: 'step';
    readonly frame: Frame;
    readonly step: Step;
    /** The statement that comes next, and which of its readings. */
    readonly statement: number;
    readonly reading: number;
    /** Whether somebody has stopped at this step, so that what it shows has been seen. */
    readonly seen: boolean;
}

/** The tree, or a procedure that is being followed. */
export interface Frame {
    readonly owner: TreeOfDocument | Procedure;
    /** What `it` stands for. */
    readonly subject: string | undefined;
    readonly follow: Follow | undefined;
    readonly caller: Frame | undefined;
}

/** What can be answered; which of these count is said by the screen. */
export type Answer =
    /** An outcome of the test that is asked, a choice of the option that is asked, or a word. */
    | string
    /** A reading, with the UCUM code of its unit. */
    | { readonly reading: number; readonly unit: string };

/** How a walk ends. */
export interface Finish {
    /** Whether the repair was done; left out where there was none. */
    readonly repaired?: boolean | undefined;
    readonly complaint: 'gone' | 'still there' | 'not tested';
}

/** An answer, and what it led to. */
export interface TrailEntry {
    /** The procedure, if it was in one, and the step. */
    readonly procedure: string | undefined;
    readonly step: string;
    /** The test that was answered or the option that was said; undefined for work that was done. */
    readonly test: string | undefined;
    readonly option: string | undefined;
    readonly answer: Answer;
    /** The outcome that the answer counts as; a calculated test has one without being asked. */
    readonly outcome: string | undefined;
    /** The step or end that it led to; undefined where the step went on. */
    readonly to: string | undefined;
}

/** Everything that a function gives which can go wrong. */
export type Result<T> =
    | { readonly session: T; readonly problem?: undefined }
    /** One sentence; the session stays as it was. */
    | { readonly problem: string; readonly session?: undefined };

/** The name that a document means: where `it` stands for something, that. */
export function meantIn(frame: Frame, id: string): string {
    if (frame.subject === undefined) return id;
    if (id === 'it') return frame.subject;
    return id.startsWith('it.') ? `${frame.subject}.${id.slice('it.'.length)}` : id;
}
