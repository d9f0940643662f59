// What may stand beside any declaration or step: notes, pictures, references, safety statements, acceptances.

import type { Guarded } from './guards.js';
import type { Name, Prose, Reference, Span, Word } from './written.js';

export interface Note extends Span, Guarded {
    readonly sort: 'note';
    readonly text: Prose;
}

/** A picture file, named relative to the file that shows it. */
export interface Picture extends Span, Guarded {
    readonly sort: 'picture';
    readonly path: Prose;
    /** What the picture shows, for people who cannot see it. */
    readonly alternative: Prose | undefined;
}

/** A pointer to another document: its words, and a link where there is one. */
export interface Pointer extends Span, Guarded {
    readonly sort: 'see';
    readonly text: Prose;
    readonly link: Prose | undefined;
}

export type SignalWord = 'danger' | 'warning' | 'caution' | 'notice';

/** A safety statement; the signal words are those of ANSI Z535.6. */
export interface SafetyStatement extends Span, Guarded {
    readonly sort: 'safety';
    readonly level: SignalWord;
    readonly hazard: Reference | undefined;
    readonly text: Prose;
}

/** `accept CODE because "…"`: the author's reason why a finding here may stand. */
export interface Acceptance extends Span {
    readonly sort: 'accept';
    readonly code: Word;
    readonly reason: Prose | undefined;
}

/** The remarks of one declaration or step, in the order written. */
export interface Remarks {
    readonly remarks: readonly (Note | Picture | Pointer)[];
    readonly safety: readonly SafetyStatement[];
    readonly acceptances: readonly Acceptance[];
}

/** A declaration: a name, a title for people, the whole stretch, and what is said beside it. */
export interface Declared extends Span {
    readonly name: Name;
    readonly title: Prose | undefined;
}
