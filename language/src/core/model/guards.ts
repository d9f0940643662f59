// Guards (`for CHOICES`) and states (`when`, `needs`): small expression trees over choices and conditions.

import type { Reference, Span } from './written.js';

/** `three-phase`, or `filter.bag` where two options have a choice of that name. */
export interface ChoiceReference extends Span {
    readonly sort: 'choice';
    /** A choice, or the option where `member` is given. */
    readonly choice: Reference;
    readonly member: Reference | undefined;
}

export type ChoiceExpression =
    | ChoiceReference
    | (Span & { readonly sort: 'not'; readonly operand: ChoiceExpression })
    | (Span & { readonly sort: 'all' | 'any'; readonly operands: readonly ChoiceExpression[] });

/**
 * One state that can hold: `command on`, `mains isolated`, `power flowing`.
 * Without a subject, `isolated` means every energy that the zone exposes.
 */
export interface State extends Span {
    readonly sort: 'state';
    readonly subject: Reference | undefined;
    readonly is: 'isolated' | 'flowing' | 'value';
    /** The condition's value, only where `is` is 'value'. */
    readonly value: Reference | undefined;
}

export type StateExpression =
    | State
    | (Span & { readonly sort: 'not'; readonly operand: StateExpression })
    | (Span & { readonly sort: 'all' | 'any'; readonly operands: readonly StateExpression[] });

/** Whatever may be limited to some builds; without a guard it holds for all. */
export interface Guarded {
    readonly guard: ChoiceExpression | undefined;
}
