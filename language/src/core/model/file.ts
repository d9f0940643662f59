// One source file as a model, and the set of all declarations.

import type {
    Choice,
    Condition,
    ConditionValue,
    Equipment,
    Fault,
    FaultReference,
    Flow,
    Hazard,
    Kind,
    Option,
    Part,
    Place,
    Supply,
    Zone,
} from './equipment.js';
import type { ChoiceReference } from './guards.js';
import type { Gate } from './gates.js';
import type { Acceptance, Note, Pointer } from './remarks.js';
import type { Curve, Instrument, Outcome, Table, Test, TestReference } from './tests.js';
import type { Conclusion, Procedure, Referral, Result, Step, Subject, Tree } from './trees.js';
import type { Amount, FileId, Prose, Reference, Span } from './written.js';

/** Everything that a reference can lead to. */
export type Declaration =
    | Equipment
    | Option
    | Choice
    | Hazard
    | Zone
    | Condition
    | ConditionValue
    | Supply
    | Part
    | Kind
    | Fault
    | Flow
    | Place
    | Test
    | Outcome
    | Instrument
    | Table
    | Curve
    | Gate
    | Tree
    | Procedure
    | Subject
    | Result
    | Step
    | Conclusion
    | Referral;

/** `uses "other.fault"`: the path as written, relative to the file that says it. */
export interface Uses extends Span {
    readonly path: Prose;
}

/** A worked case with the end that it must reach: the author's own test. */
export interface Scenario extends Span {
    readonly sort: 'scenario';
    readonly title: Prose;
    readonly tree: Reference;
    readonly build: readonly ChoiceReference[];
    /** Empty for a healthy unit. */
    readonly faults: readonly FaultReference[];
    readonly healthy: boolean;
    /** What a test shows in this case, where the model leaves a choice. */
    readonly reads: readonly (Span & { readonly test: TestReference; readonly outcome: Reference })[];
    readonly expects: readonly (Span & { readonly target: Reference; readonly within: Amount | undefined })[];
    readonly remarks: readonly (Note | Pointer)[];
    readonly acceptances: readonly Acceptance[];
}

/** A file as read: declarations with unresolved references. It never changes. */
export interface FileModel {
    readonly file: FileId;
    /** The length of the text, in UTF-16 units. */
    readonly length: number;
    readonly uses: readonly Uses[];
    readonly equipment: readonly Equipment[];
    readonly kinds: readonly Kind[];
    readonly instruments: readonly Instrument[];
    readonly tables: readonly Table[];
    readonly curves: readonly Curve[];
    readonly trees: readonly Tree[];
    readonly procedures: readonly Procedure[];
    readonly scenarios: readonly Scenario[];
    readonly acceptances: readonly Acceptance[];
    /** How many references the file has; their numbers run from 0. */
    readonly referenceCount: number;
}
