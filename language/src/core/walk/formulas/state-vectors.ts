// What the state of worlds is, as formulas over what never changes of them: one formula for each bit of the state.

import type { Literal } from './formulas.js';

/** A bit of which nothing is said. */
export const free: Literal = -1;

/** Lists of formulas, each kept once under a number; number 0 says nothing of any bit. */
export class StateVectors {
    private readonly numbers = new Map<string, number>();
    private readonly lists: (readonly Literal[])[] = [];
    private readonly changed = new Map<number, Map<number, number>>();

    constructor(private readonly bits: number) {
        this.of(Array.from({ length: bits }, () => free));
    }

    of(list: readonly Literal[]): number {
        const key = list.join();
        let number = this.numbers.get(key);
        if (number === undefined) {
            number = this.lists.push(list) - 1;
            this.numbers.set(key, number);
        }
        return number;
    }

    at(vector: number): readonly Literal[] {
        return this.lists[vector] ?? [];
    }

    /** The vector with another formula for one bit. */
    with(vector: number, bit: number, value: Literal): number {
        const before = this.at(vector);
        if (before[bit] === value) return vector;
        const known = this.changed.get(vector) ?? new Map<number, number>();
        this.changed.set(vector, known);
        const key = value * this.bits + bit;
        let number = known.get(key);
        if (number === undefined) {
            number = this.of(before.map((literal, index) => (index === bit ? value : literal)));
            known.set(key, number);
        }
        return number;
    }
}
