// A unit of an equipment with every name looked up and every kind filled in: what the walk and the plain replay look at.
//
// Everything has a number, its place in the list that holds it. Guards are kept as written, so that the walk can read them
// as sets of builds and the replay one build at a time; neither sees a syntax tree or a reference.

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { BuildSpace } from '../builds/find-build.js';
import type {
    Condition,
    Effect,
    Equipment,
    Fault,
    Flow,
    Hazard,
    Option,
    Part,
    Place,
    Rate,
    Repair,
    Supply,
    Zone,
} from '../model/equipment.js';
import type { Gate, GateElement } from '../model/gates.js';
import type { Test } from '../model/tests.js';
import type { Amount, Span } from '../model/written.js';

/** In which builds something exists; undefined for all of them. */
export type InBuilds = ChoiceCondition | undefined;

/** A length of time in whole milliseconds, so that sums are exact. */
export type Milliseconds = number;

export interface Limited {
    readonly guard: InBuilds;
}

/** One unit of an equipment, whatever its build. */
export interface Unit {
    readonly equipment: Equipment;
    readonly space: BuildSpace;
    readonly conditions: readonly UnitCondition[];
    readonly hazards: readonly UnitHazard[];
    readonly zones: readonly UnitZone[];
    readonly gates: readonly UnitGate[];
    readonly parts: readonly UnitPart[];
    readonly faults: readonly UnitFault[];
    readonly flows: readonly UnitFlow[];
    readonly tests: readonly UnitTest[];
}

/** A set-up that the technician can change; it is found at value 0. */
export interface UnitCondition extends Limited {
    readonly number: number;
    readonly declaration: Condition;
    /** Parts that each value bypasses, by the value's number. */
    readonly bypasses: readonly (readonly number[])[];
}

export interface UnitHazard extends Limited {
    readonly number: number;
    readonly declaration: Hazard;
    /** How long it takes to be gone, by build. */
    readonly runDowns: readonly (Limited & { readonly amount: Amount })[];
}

export interface UnitZone extends Limited {
    readonly number: number;
    readonly declaration: Zone;
    readonly exposures: readonly (Limited & { readonly hazard: number; readonly while: StateCondition | undefined })[];
}

export interface UnitGate extends Limited {
    readonly number: number;
    readonly declaration: Gate;
    /** The hazards that it holds while it is closed. A gate with none only permits, and is never closed. */
    readonly controls: readonly (Limited & { readonly hazard: number })[];
    readonly permits: readonly (Limited & { readonly hazard: number; readonly activity: string })[];
    /** What is done when it is closed, and when it is restored; in the order written. */
    readonly closing: readonly UnitElement[];
    readonly restoring: readonly UnitElement[];
    readonly takes: readonly GuardedTime[];
}

export interface UnitElement extends Limited {
    readonly declaration: GateElement;
    /** The hazards that it names; where it names none and the gate controls only one, that one. */
    readonly hazards: readonly number[];
    readonly settings: readonly UnitSetting[];
    readonly time: Milliseconds;
}

export interface UnitSetting {
    readonly condition: number;
    readonly value: number;
}

export interface GuardedTime extends Limited {
    readonly time: Milliseconds;
}

/** A part or a supply. */
export interface UnitPart extends Limited {
    readonly number: number;
    readonly name: string;
    readonly declaration: Part | Supply;
    readonly faults: readonly number[];
    readonly tests: readonly number[];
    readonly zones: readonly (Limited & { readonly zone: number })[];
    /** The hazard that a supply brings. */
    readonly carries: number | undefined;
    /** Flows that it protects. */
    readonly protects: readonly (Limited & { readonly flow: number })[];
    /** Its own repairs, then those of its kind that it does not replace. */
    readonly repairs: readonly UnitRepair[];
}

export interface UnitRepair extends Limited {
    readonly declaration: Repair;
    readonly gates: readonly number[];
    readonly time: Milliseconds;
}

/** One fault of one part; a fault of a kind stands here once for each part of the kind. */
export interface UnitFault extends Limited {
    readonly number: number;
    /** `part.fault`, as ends name it. */
    readonly name: string;
    readonly part: number;
    /** The part's own declaration where there is one, else the kind's. */
    readonly declaration: Fault;
    /** The effects that are written; in a build where none of them holds the fault stops its part. */
    readonly effects: readonly (Limited & { readonly effect: Effect })[];
    readonly onlyWhenCaused: readonly Limited[];
    readonly rates: readonly (Limited & { readonly rate: Rate })[];
    readonly intermittent: readonly (Limited & { readonly unless: StateCondition | undefined })[];
    readonly makes: readonly UnitMakes[];
    readonly causes: readonly (Limited & { readonly fault: number; readonly after: Milliseconds })[];
    readonly repairs: readonly UnitRepair[];
}

export interface UnitMakes extends Limited, Span {
    readonly test: number;
    /** Numbers of outcomes of the test; several where the fault may show either. */
    readonly outcomes: readonly number[];
    readonly when: StateCondition | undefined;
    readonly unless: StateCondition | undefined;
}

export interface UnitFlow extends Limited {
    readonly number: number;
    readonly declaration: Flow;
    readonly when: StateCondition | undefined;
    readonly chain: UnitChain;
    /** Flows whose end drives a place of a part in this flow. */
    readonly fedBy: readonly (Limited & { readonly from: number; readonly part: number })[];
}

export type UnitChain = readonly UnitElementOfFlow[];

export type UnitElementOfFlow =
    | UnitPlace
    | (Limited & { readonly sort: 'point'; readonly tests: readonly number[] })
    | (Limited & {
          readonly sort: 'group';
          readonly join: 'or' | 'with' | 'and';
          readonly chains: readonly UnitChain[];
      });

export interface UnitPlace extends Limited {
    readonly sort: 'place';
    readonly declaration: Place;
    readonly when: StateCondition | undefined;
    /** What stands there: exactly one of these, or none where the name is unknown. */
    readonly part: number | undefined;
    readonly hazard: number | undefined;
    readonly flow: number | undefined;
    /** The faults of the part that belong to this place. */
    readonly faults: readonly (Limited & { readonly fault: number })[];
    /** Builds in which a load or short behind this place shows no further back; `never` where none. */
    readonly barrier: readonly Limited[];
}

/** One test; a test of a kind stands here once for each part of the kind. */
export interface UnitTest extends Limited {
    readonly number: number;
    /** `part.test` for a test of a part, else its own name. */
    readonly name: string;
    readonly declaration: Test;
    /** The part that has the test or that it looks at. */
    readonly part: number | undefined;
    readonly zones: readonly (Limited & { readonly zone: number })[];
    /** The names of the outcomes, each once, in the order written; the choices of the option for a test that identifies. */
    readonly outcomes: readonly string[];
    /** The number of `normal`, -1 where there is none. */
    readonly normal: number;
    readonly entries: readonly UnitOutcome[];
    readonly identifies: Option | undefined;
    readonly needs: readonly (Limited & { readonly state: StateCondition })[];
    readonly checks: readonly (Limited & { readonly fault: number; readonly outcome: number | undefined })[];
    readonly across: readonly (Limited & { readonly from: Place[]; readonly to: Place[] })[];
    readonly through: readonly (Limited & { readonly flow: number })[];
    /** The flows that have a point of this test. */
    readonly flows: readonly number[];
    readonly remembers: boolean;
    readonly takes: readonly GuardedTime[];
    /** The tests whose readings it is worked out from, or on which its bands depend: they are taken before it is asked. */
    readonly readings: readonly number[];
    /** What becomes of its reading once it is noted; undefined where no other test needs it. */
    readonly noted: Noted | undefined;
    readonly measures: boolean;
}

/** A reading that other tests are worked out from. */
export interface Noted {
    /** Conditions that change what is read; after one of them changes the reading is one of before. */
    readonly dependsOn: readonly number[];
    /**
     * Readings that are used together with it, and whether something changes both: those of before are worth nothing
     * beside it once it is taken.
     */
    readonly beside: readonly { readonly test: number; readonly shares: boolean }[];
}

/** What is written of one outcome; a name may have several entries, for builds or states. */
export interface UnitOutcome extends Limited {
    readonly outcome: number;
    readonly when: StateCondition | undefined;
    readonly shows: readonly ShownEffect[];
}

export type ShownEffect = 'stopped' | 'weakened' | 'raised' | 'loaded' | 'shorted';

/** A state that can hold, with its names looked up. */
export type StateCondition =
    | { readonly sort: 'value'; readonly condition: number; readonly value: number }
    | { readonly sort: 'isolated'; readonly hazard: number }
    /** Every hazard that the zones expose. */
    | { readonly sort: 'zones isolated'; readonly zones: readonly (Limited & { readonly zone: number })[] }
    | { readonly sort: 'flowing'; readonly flow: number }
    /** The reading of a test has been taken, in the same state as those that it is used with. */
    | { readonly sort: 'taken'; readonly test: number }
    | { readonly sort: 'not'; readonly operand: StateCondition }
    | { readonly sort: 'all' | 'any'; readonly operands: readonly StateCondition[] };
