// What is told of a position: plain words and numbers, ready to be read aloud or written as JSON.

import type { SignalWord } from '../../model/remarks.js';

/** Something with a name; the title is empty where the author gave none. */
export interface ToldName {
    readonly name: string;
    readonly title: string;
}

/** Something that may hold in some of the remaining builds only; `only` says in which, undefined where it holds in all. */
interface ToldLimited {
    readonly only: string | undefined;
}

/** One thing that is done, or that helps to do it. */
export interface ToldLine extends ToldLimited {
    /** What it is: `do`, `wait`, `gate`, an element of a gate such as `isolate`, `where`, `note`. */
    readonly sort: string;
    /** What it is about, where that has a name. */
    readonly name: string | undefined;
    readonly text: string;
}

export interface ToldSafety extends ToldLimited {
    readonly level: SignalWord;
    /** The title of the hazard. */
    readonly about: string | undefined;
    readonly text: string;
}

/** A hazard of a zone where hands come, whatever is written about it. */
export interface ToldHazard extends ToldName, ToldLimited {
    readonly zone: ToldName;
    /** The state that it is exposed in, in words; undefined where it always is. */
    readonly when: string | undefined;
    /** What holds it on this way; empty where nothing does. */
    readonly controls: readonly ToldControl[];
}

/** A closed gate; a gate that permits work beside the hazard, which stays as it is; or a wait that has made it safe. */
export interface ToldControl extends ToldLimited {
    readonly sort: 'gate' | 'permit' | 'wait';
    /** Undefined for a wait. */
    readonly gate: ToldName | undefined;
    /** The sort of work that is permitted. */
    readonly activity: string | undefined;
}

/** An equipment, tree or procedure that begins here. */
export interface ToldOwner extends ToldName {
    readonly sort: 'equipment' | 'tree' | 'procedure';
    readonly safety: readonly ToldSafety[];
    readonly lines: readonly ToldLine[];
}

/** A step that is passed or stood at. */
export interface ToldVisit {
    /** What begins with it. */
    readonly begins: readonly ToldOwner[];
    readonly step: ToldName;
    /** The name of the tree or procedure that has the step. */
    readonly of: string;
    /** All that has to be known before anything is done in the step. */
    readonly safety: readonly ToldSafety[];
    readonly hazards: readonly ToldHazard[];
    /** In the order in which it is done. */
    readonly lines: readonly ToldLine[];
}

export interface ToldPlace extends ToldName {
    readonly sort: 'step' | 'conclusion' | 'referral' | 'tree' | 'nowhere';
}

/** A reading or the words of an answer. */
export interface ToldReading extends ToldLimited {
    readonly text: string;
}

export interface ToldAnswer {
    /** As it is given. */
    readonly name: string;
    readonly readings: readonly ToldReading[];
    /** Whether anybody who is still possible may answer so. */
    readonly isShown: boolean;
    /** Several where it depends on the build. */
    readonly leadsTo: readonly ToldPlace[];
}

export interface ToldTest extends ToldName {
    readonly sort: 'test';
    /** Whether it only confirms what is known. */
    readonly confirms: boolean;
    readonly lines: readonly ToldLine[];
    readonly answers: readonly ToldAnswer[];
}

export interface ToldRepair extends ToldLimited {
    /** `replace`, `reset` or `repair`. */
    readonly action: string;
    readonly text: string;
    readonly takes: string | undefined;
    readonly costs: string | undefined;
    /** The titles of the gates that it is done under. */
    readonly under: readonly string[];
}

export interface ToldEnd extends ToldName {
    readonly sort: 'conclusion' | 'referral';
    readonly reason: string | undefined;
    readonly inOrder: boolean;
    /** The faults that it names, and whether each is still possible. */
    readonly faults: readonly (ToldName & { readonly isPossible: boolean })[];
    /** Faults that are still possible and that it does not name. */
    readonly unnamed: readonly ToldName[];
    readonly safety: readonly ToldSafety[];
    /** Those that the repairs meet. */
    readonly hazards: readonly ToldHazard[];
    readonly repairs: readonly ToldRepair[];
    readonly lines: readonly ToldLine[];
    /** Where to go when the complaint is still there. */
    readonly stillWrong: readonly ToldPlace[];
}

/** What comes next. */
export type ToldNext =
    | ToldTest
    | { readonly sort: 'doing'; readonly answers: readonly ToldAnswer[] }
    /** `step` is the one that depends on the build; undefined where the last answer leads on in several ways. */
    | {
          readonly sort: 'build';
          readonly option: ToldName;
          readonly step: ToldName | undefined;
          readonly answers: readonly ToldAnswer[];
      }
    | ToldEnd
    /** A tree without steps; nothing leads on; the same steps come round again; no such unit comes; too much to work out. */
    | ({ readonly sort: 'tree' } & ToldName)
    | { readonly sort: 'nowhere' | 'circle' | 'nobody' | 'undecided' };

export interface ToldSuspect extends ToldName {
    /** How likely it is among those who are still possible, from 0 to 1. */
    readonly chance: number;
}

export interface ToldRuledOut extends ToldName {
    /** What it would have been answered with; empty where the build rules it out. */
    readonly wouldBe: readonly string[];
}

export interface ToldPosition {
    /** The answer that led here; undefined at the start. */
    readonly answer: string | undefined;
    /** Those whom the last answer has ruled out; at the start those whom the build rules out. */
    readonly ruledOut: readonly ToldRuledOut[];
    /** The steps since the last answer. */
    readonly visits: readonly ToldVisit[];
    /** Whether the technician was here before, and nobody has been ruled out since. */
    readonly isAgain: boolean;
    readonly next: ToldNext;
    /** The likeliest first; empty where an answer was given that nobody shows. */
    readonly suspects: readonly ToldSuspect[];
}
