// Formulas with something else in the place of variables.

import { type Formulas, type Literal, never } from './formulas.js';
import { free, type StateVectors } from './state-vectors.js';
import { kindBits, type Variable } from './variables.js';

/** What was replaced once is remembered, node by node: later formulas are made of earlier ones. */
export class FormulaChanges {
    private readonly substituted = new Map<number, Map<number, Literal>>();
    private readonly fixed = new Map<Literal, Map<number, Literal>>();

    constructor(
        private readonly formulas: Formulas,
        private readonly vectors: StateVectors,
        /** The variable of each bit of the state. */
        private readonly stateBits: readonly Literal[],
    ) {}

    /** Where a formula holds for some value of each of these variables. */
    exists(care: Literal, variables: readonly Variable[]): Literal {
        const { formulas } = this;
        const kinds = variables.reduce((any, { kind }) => any | kindBits[kind], 0);
        if (!formulas.asks(care, kinds)) return care;
        const asked = new Set(formulas.nodes.below([care], undefined, kinds));
        let found = care;
        for (const variable of variables) {
            if (!variable.bits.some(bit => asked.has(bit >> 1))) continue;
            let any: Literal = never;
            for (let value = 0; value < variable.size; value += 1) {
                any = formulas.or(any, this.fix(found, variable, value));
            }
            found = any;
        }
        return found;
    }

    /** A formula about the state as one about what never changes, for worlds whose state is known. */
    substitute(literal: Literal, vector: number): Literal {
        if (vector === 0 || !this.formulas.asks(literal, kindBits.state)) return literal;
        const known = this.substituted.get(vector) ?? new Map<number, Literal>();
        this.substituted.set(vector, known);
        if (known.size === 0) {
            this.vectors.at(vector).forEach((value, bit) => {
                if (value !== free) known.set((this.stateBits[bit] as Literal) >> 1, value);
            });
        }
        return this.replace(literal, known, kindBits.state);
    }

    /** The formula with a value in the place of a variable. */
    fix(literal: Literal, { kind, bits }: Variable, value: number): Literal {
        return bits.reduce((rest, bit, index) => {
            if (!this.formulas.asks(rest, kindBits[kind])) return rest;
            const digit = (value >> index) & 1;
            const known = this.fixed.get(2 * bit + digit) ?? new Map<number, Literal>([[bit >> 1, digit]]);
            this.fixed.set(2 * bit + digit, known);
            return this.replace(rest, known, kindBits[kind]);
        }, literal);
    }

    /** The formula with others in the place of some variables of a kind; `known` is by node, and what is found is added. */
    private replace(literal: Literal, known: Map<number, Literal>, kinds: number): Literal {
        const { formulas } = this;
        const { nodes } = formulas;
        const after = (one: Literal) => (known.get(one >> 1) ?? one & ~1) ^ (one & 1);
        if (!known.has(literal >> 1)) {
            for (const node of nodes.below([literal], undefined, kinds)) {
                if (known.has(node) || nodes.isVariable(node)) continue;
                known.set(node, formulas.and(after(nodes.left[node] as number), after(nodes.right[node] as number)));
            }
        }
        return after(literal);
    }
}
