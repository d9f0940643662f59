// Trees and procedures: steps, branches and ends, as immutable values.

import type { FaultReference, Repair } from './equipment.js';
import type { Setting } from './gates.js';
import type { Guarded, StateExpression } from './guards.js';
import type { Declared, Note, Picture, Pointer, Remarks, SafetyStatement } from './remarks.js';
import type { TestReference } from './tests.js';
import type { Amount, Prose, Reference, Span } from './written.js';

export interface Tree extends Declared, Guarded, Remarks {
    readonly sort: 'tree';
    readonly equipment: Reference;
    readonly complaints: readonly Complaint[];
    /** In the order written; the first is where the technician starts. */
    readonly steps: readonly Step[];
    readonly conclusions: readonly Conclusion[];
    readonly referrals: readonly Referral[];
    readonly stillWrong: readonly Handover[];
    readonly disagree: readonly Handover[];
    readonly cannot: readonly Cannot[];
}

export interface Complaint extends Span, Guarded {
    readonly test: TestReference;
    readonly outcomes: readonly Reference[];
    readonly when: StateExpression | undefined;
    /** The share of complaints that are mistaken. */
    readonly mistaken: Amount | undefined;
}

/** Where the technician goes when something does not go as said. */
export interface Handover extends Span, Guarded {
    readonly target: Reference;
}

export interface Cannot extends Handover {
    readonly what: 'read' | 'done';
}

export interface Procedure extends Declared, Guarded, Remarks {
    readonly sort: 'procedure';
    readonly equipment: Reference | undefined;
    readonly subject: Subject | undefined;
    readonly steps: readonly Step[];
    readonly results: readonly Result[];
    readonly cannot: readonly Cannot[];
}

/** What a procedure is about; inside it is called `it`. */
export interface Subject extends Span {
    readonly sort: 'subject';
    readonly of: 'part' | 'test' | 'kind';
    readonly kind: Reference | undefined;
}

export interface Result extends Declared {
    readonly sort: 'result';
}

export interface Step extends Declared, Guarded {
    readonly sort: 'step';
    readonly statements: readonly Statement[];
    readonly acceptances: Remarks['acceptances'];
}

export type Statement =
    | Do
    | Wait
    | UseGate
    | Restore
    | Read
    | Ask
    | Confirm
    | Follow
    | Go
    | ContinueWith
    | Note
    | Picture
    | Pointer
    | SafetyStatement;

export interface Do extends Span, Guarded {
    readonly sort: 'do';
    readonly text: Prose;
    readonly settings: readonly Setting[];
    readonly clears: readonly FaultReference[];
    readonly replaces: readonly Reference[];
    readonly uses: readonly Reference[];
    readonly at: Reference | undefined;
    readonly in: Reference | undefined;
    readonly takes: Amount | undefined;
    readonly costs: Amount | undefined;
    /** Where to go if it cannot be done. */
    readonly cannot: Reference | undefined;
}

export interface Wait extends Span, Guarded {
    readonly sort: 'wait';
    readonly amount: Amount;
    /** The hazard that must have gone: `until hot-motor safe`. */
    readonly hazard: Reference | undefined;
    readonly text: Prose | undefined;
}

export interface UseGate extends Span, Guarded {
    readonly sort: 'gate-used';
    readonly gate: Reference;
}

export interface Restore extends Span, Guarded {
    readonly sort: 'restore';
    readonly gate: Reference;
}

/** Readings that are taken and noted for later; nothing branches on them. */
export interface Read extends Span, Guarded {
    readonly sort: 'read';
    readonly tests: readonly TestReference[];
}

/** A test with its branches. */
export interface Ask extends Span, Guarded {
    readonly sort: 'ask';
    readonly test: TestReference;
    readonly branches: readonly Branch[];
    /** The braces of the branches, where they are written: the place for missing branches. */
    readonly block: Span | undefined;
}

/** A test that is expected to say what is known already, before a costly repair. */
export interface Confirm extends Span, Guarded {
    readonly sort: 'confirm';
    readonly test: TestReference;
    readonly branches: readonly Branch[];
    /** True for the short form, where the outcomes not named go to the tree's `disagree`. */
    readonly short: boolean;
    readonly block: Span | undefined;
}

/** Where outcomes (or a procedure's results) lead. Without outcomes it is `otherwise` or `cannot be read`. */
export interface Branch extends Span, Guarded {
    readonly outcomes: readonly Reference[];
    /** All outcomes that no other branch names. */
    readonly otherwise: boolean;
    readonly cannotBeRead: boolean;
    readonly target: Reference;
}

export interface Follow extends Span, Guarded {
    readonly sort: 'follow';
    readonly procedure: Reference;
    readonly subject: TestReference | undefined;
    readonly branches: readonly Branch[];
    readonly block: Span | undefined;
}

export interface Go extends Span, Guarded {
    readonly sort: 'go';
    readonly target: Reference;
}

export interface ContinueWith extends Span, Guarded {
    readonly sort: 'continue';
    readonly tree: Reference;
}

/** What conclusions and referrals have in common. */
export interface End extends Declared, Guarded, Remarks {
    readonly faults: readonly GuardedFault[];
    readonly repairs: readonly Repair[];
    /** Why the complaint is not tested again after the repair. */
    readonly unconfirmed: readonly (Span & Guarded & { readonly reason: Prose })[];
    /** Gates that stay closed and conditions that stay changed, on purpose. */
    readonly leaves: readonly Leaves[];
    readonly stillWrong: readonly Handover[];
}

export interface GuardedFault extends Span, Guarded {
    readonly fault: FaultReference;
}

export interface Leaves extends Span, Guarded {
    readonly gate: Reference | undefined;
    readonly condition: Reference | undefined;
    readonly value: Reference | undefined;
}

export interface Conclusion extends End {
    readonly sort: 'conclusion';
    /** The parts are tried in the order written. */
    readonly inOrder: boolean;
}

export interface Referral extends End {
    readonly sort: 'referral';
    readonly reason: Prose | undefined;
}
