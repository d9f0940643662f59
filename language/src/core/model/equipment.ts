// Equipment: its options, hazards, zones, conditions, parts, faults and flows, as immutable values.

import type { ChoiceExpression, Guarded, StateExpression } from './guards.js';
import type { Gate } from './gates.js';
import type { Declared, Remarks } from './remarks.js';
import type { Curve, Instrument, Table, Test, TestReference } from './tests.js';
import type { Amount, Prose, Reference, Span, Word } from './written.js';

export interface Equipment extends Declared, Remarks {
    readonly sort: 'equipment';
    readonly options: readonly Option[];
    readonly exclusions: readonly Exclusion[];
    readonly hazards: readonly Hazard[];
    readonly zones: readonly Zone[];
    readonly conditions: readonly Condition[];
    readonly supplies: readonly Supply[];
    readonly parts: readonly Part[];
    readonly kinds: readonly Kind[];
    readonly flows: readonly Flow[];
    readonly tests: readonly Test[];
    readonly gates: readonly Gate[];
    readonly instruments: readonly Instrument[];
    readonly tables: readonly Table[];
    readonly curves: readonly Curve[];
}

/** A way in which units differ; with a guard it is asked only in those builds. */
export interface Option extends Declared, Guarded {
    readonly sort: 'option';
    readonly choices: readonly Choice[];
}

export interface Choice extends Declared {
    readonly sort: 'choice-declared';
    /** The share of the fleet, a ratio such as `70 %`. */
    readonly share: Amount | undefined;
    /** How often units of this choice run or start, for rates per start: `12 starts per h`. */
    readonly duty: { readonly amount: Amount; readonly per: Amount } | undefined;
}

/** Builds that are never made: those in which all the terms hold. */
export interface Exclusion extends Span {
    readonly sort: 'exclusion';
    readonly terms: readonly ChoiceExpression[];
    readonly reason: Prose | undefined;
}

export interface Hazard extends Declared, Guarded, Remarks {
    readonly sort: 'hazard';
    readonly energies: readonly Energy[];
    readonly runDowns: readonly RunDown[];
    readonly stored: readonly StoredCharge[];
    /** The machine may start by itself. */
    readonly startsByItself: readonly (Span & Guarded)[];
}

/** `electrical 230 V AC for single-phase 400 V AC for three-phase`. */
export interface Energy extends Span {
    readonly kind: Word;
    readonly levels: readonly (Span & Guarded & { readonly amount: Amount; readonly modes: readonly Word[] })[];
}

/** How long the energy takes to go once it is switched off. */
export interface RunDown extends Span, Guarded {
    readonly manner: 'runs down' | 'cools' | 'discharges' | 'settles';
    readonly amount: Amount;
}

/** A stored charge: a capacitance, and the resistance that empties it. */
export interface StoredCharge extends Span, Guarded {
    readonly amount: Amount;
    readonly through: Amount | undefined;
}

export interface Zone extends Declared, Guarded, Remarks {
    readonly sort: 'zone';
    readonly exposures: readonly Exposure[];
    readonly categories: readonly MeasurementCategory[];
    readonly locations: readonly Location[];
}

/** A hazard (or a supply that carries one) that this zone exposes, always or while a state holds. */
export interface Exposure extends Span, Guarded {
    readonly hazard: Reference;
    readonly while: StateExpression | undefined;
}

/** A measurement category (IEC 61010): I to IV, with the voltage where it is given. */
export interface MeasurementCategory extends Span, Guarded {
    readonly category: Word;
    readonly voltage: Amount | undefined;
}

/** A set-up that the technician can change; the first value is how the unit is found. */
export interface Condition extends Declared, Guarded {
    readonly sort: 'condition';
    readonly values: readonly ConditionValue[];
}

export interface ConditionValue extends Declared {
    readonly sort: 'value';
    /** Parts that do nothing while this value is set: a fitted bridge. */
    readonly bypasses: readonly Reference[];
}

/** What parts, supplies and kinds have in common. */
export interface PartLike extends Declared, Guarded, Remarks {
    readonly faults: readonly Fault[];
    readonly repairs: readonly Repair[];
    readonly protects: readonly (Span & Guarded & { readonly flows: readonly Reference[] })[];
    readonly locations: readonly Location[];
    readonly zones: readonly InZone[];
    readonly tests: readonly Test[];
}

export interface Part extends PartLike {
    readonly sort: 'part';
    readonly kind: Reference | undefined;
}

/** A family of parts with the same faults, tests and repairs. */
export interface Kind extends PartLike {
    readonly sort: 'kind';
}

/** What comes from outside the product and can fail: mains, gas, fuel. */
export interface Supply extends PartLike {
    readonly sort: 'supply';
    readonly carries: Reference | undefined;
}

export interface Location extends Span, Guarded {
    readonly text: Prose;
}

export interface InZone extends Span, Guarded {
    readonly zone: Reference;
}

export interface Repair extends Span, Guarded {
    readonly sort: 'repair';
    readonly action: 'replace' | 'reset' | 'repair';
    readonly text: Prose;
    readonly takes: Amount | undefined;
    readonly costs: Amount | undefined;
    readonly gates: readonly Reference[];
}

export type Effect = 'stops' | 'weakens' | 'raises' | 'loads' | 'shorts';

/** One way in which a part fails: a failure mode (IEC 60812). */
export interface Fault extends Declared, Guarded, Remarks {
    readonly sort: 'fault';
    /** What the fault does to what its part passes on; none written means that it stops it. */
    readonly effects: readonly (Span & Guarded & { readonly effect: Effect })[];
    readonly rates: readonly Rate[];
    /** The places or flows that it belongs to; none means every place of its part. */
    readonly places: readonly (Span & Guarded & { readonly places: readonly Reference[] })[];
    readonly intermittent: readonly (Span & Guarded & { readonly unless: StateExpression | undefined })[];
    readonly makes: readonly Makes[];
    readonly causes: readonly Causes[];
    readonly repairs: readonly Repair[];
}

/** `rate 0.9 per 1e6 h`, or `only when caused`, where both amounts are absent. */
export interface Rate extends Span, Guarded {
    readonly onlyWhenCaused: boolean;
    readonly amount: Amount | undefined;
    readonly per: Amount | undefined;
}

/** `makes TEST low or absent unless outlet removed`: replaces the default for this fault and test. */
export interface Makes extends Span, Guarded {
    readonly test: TestReference;
    readonly outcomes: readonly Reference[];
    readonly when: StateExpression | undefined;
    readonly unless: StateExpression | undefined;
}

export interface Causes extends Span {
    readonly faults: readonly (Span & Guarded & { readonly fault: FaultReference })[];
    readonly after: Amount | undefined;
}

/** `contactor.coil-open`; without `fault`, the whole part: every fault of it. */
export interface FaultReference extends Span {
    readonly owner: Reference;
    readonly fault: Reference | undefined;
}

/** The order in which parts pass something on. */
export interface Flow extends Declared, Guarded {
    readonly sort: 'flow';
    /** The flow exists only while this state holds. */
    readonly when: StateExpression | undefined;
    readonly chain: Chain;
    readonly feeds: readonly (Span & Guarded & { readonly part: Reference; readonly flow: Reference })[];
}

export interface Chain extends Span {
    readonly elements: readonly ChainElement[];
}

export type ChainElement = Place | TestPoint | Group;

/** One place of a part, a supply or an energy in a flow. */
export interface Place extends Declared, Guarded {
    readonly sort: 'place';
    readonly member: Reference;
    readonly when: StateExpression | undefined;
}

export interface TestPoint extends Span, Guarded {
    readonly sort: 'test-point';
    readonly tests: readonly TestReference[];
}

/** Branches side by side: `or` either is enough, `with` losing one weakens, `and` all are needed. */
export interface Group extends Span, Guarded {
    readonly sort: 'group';
    readonly joins: readonly Word[];
    readonly chains: readonly Chain[];
}
