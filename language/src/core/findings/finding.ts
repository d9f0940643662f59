// What verification says: a finding with its place, its counterexample and how to mend it.

import type { Span } from '../model/written.js';

export type Severity = 'error' | 'warning' | 'information';

/**
 * Whether a mend may be applied without a person looking: `safe` keeps the meaning,
 * `placeholder` leaves something to fill in, `suggestion` may be wrong.
 */
export type MendSafety = 'safe' | 'placeholder' | 'suggestion';

/** A stretch of a file to replace by `text`; an empty stretch inserts. */
export interface Edit extends Span {
    readonly text: string;
}

/** One way to mend a finding, as edits. */
export interface Mend {
    readonly title: string;
    readonly safety: MendSafety;
    readonly edits: readonly Edit[];
}

/** Another place that belongs to the finding, with what is there. */
export interface RelatedPlace extends Span {
    readonly text: string;
}

/** One world that shows the finding: a build, a fault, and the path that leads there. */
export interface Counterexample {
    /** The choices of the build, as the author names them. */
    readonly build: readonly string[];
    readonly fault: string | undefined;
    readonly path: readonly (RelatedPlace & { readonly step: string })[];
    /** The whole example as one sentence. */
    readonly sentence: string;
}

export interface Finding extends Span {
    readonly code: string;
    readonly severity: Severity;
    /** One sentence in the writer's words; names stand in backticks. */
    readonly message: string;
    readonly related: readonly RelatedPlace[];
    readonly counterexample: Counterexample | undefined;
    /** How to mend it, in words; the first mend's title where there is one. */
    readonly advice: string | undefined;
    readonly mends: readonly Mend[];
    /** True where the part of the file has no effect, so that an editor can show it greyed. */
    readonly unnecessary: boolean;
}
