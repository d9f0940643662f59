// Gates: procedures that put hazards under control, or allow one kind of work beside them.

import type { MeasurementCategory } from './equipment.js';
import type { Guarded } from './guards.js';
import type { Declared, Remarks } from './remarks.js';
import type { GuardedAmount } from './tests.js';
import type { Amount, Prose, Reference, Span, Word } from './written.js';

export interface Gate extends Declared, Guarded, Remarks {
    readonly sort: 'gate';
    readonly controls: readonly ControlledHazard[];
    readonly permits: readonly (Span & { readonly activity: Word; readonly hazards: readonly ControlledHazard[] })[];
    /** The measurement category and voltage that instruments need behind this gate. */
    readonly instruments: readonly MeasurementCategory[];
    readonly wear: readonly (Span & Guarded & { readonly text: Prose })[];
    /** In the order written: the order matters. */
    readonly elements: readonly GateElement[];
    readonly takes: readonly GuardedAmount[];
}

/** A hazard, or a supply that carries one. */
export interface ControlledHazard extends Span, Guarded {
    readonly hazard: Reference;
}

/** The elements follow 29 CFR 1910.147(d) and (e); `earth` and `shield` are those of EN 50110-1. */
export type GateElementSort =
    'prepare' | 'shut-down' | 'isolate' | 'lock' | 'release' | 'earth' | 'shield' | 'block' | 'prove' | 'restore';

export interface GateElement extends Span, Guarded {
    readonly element: GateElementSort;
    /** The hazards it is about; none means all that the gate controls. */
    readonly hazards: readonly Reference[];
    readonly text: Prose;
    readonly duration: Amount | undefined;
    readonly settings: readonly Setting[];
    readonly takes: Amount | undefined;
    readonly instrument: Reference | undefined;
    readonly provedBeforeAndAfter: boolean;
}

export interface Setting extends Span {
    readonly condition: Reference;
    readonly value: Reference;
}
