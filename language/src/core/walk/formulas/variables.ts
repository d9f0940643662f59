// The variables of worlds as variables of formulas, which are true or false: the value of each is written in binary.

import { always, type Formulas, type Literal } from './formulas.js';

/** What a variable is: one of those that actions change, or one of those that never change; draws apart from the others. */
export type VariableKind = 'build' | 'state' | 'draw';

export const kindBits: Readonly<Record<VariableKind, number>> = { build: 1, state: 2, draw: 4 };

export interface Variable {
    readonly size: number;
    readonly kind: VariableKind;
    /** Its value in binary, the lowest bit first. */
    readonly bits: readonly Literal[];
    /** The number of the first of these bits among those of the state. */
    readonly first: number;
}

export function bitsFor(size: number): number {
    return size <= 1 ? 0 : 32 - Math.clz32(size - 1);
}

/** Where bits say a number. */
export function codeIs(bits: readonly Literal[], code: number, formulas: Formulas): Literal {
    return bits.reduce((all, bit, index) => formulas.and(all, bit ^ (((code >> index) & 1) ^ 1)), always);
}
