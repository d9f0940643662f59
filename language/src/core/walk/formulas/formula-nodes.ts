// The nodes of formulas: each is a variable or the joint of two literals, and has a number higher than those of its parts.

import { TooManyNodes } from '../sets/world-sets.js';
import type { Literal } from './clause-solver.js';

const fewestNodes = 1 << 10;

/** Node 0 is the formula that never holds. A literal is twice a node, plus one for its opposite. */
export class FormulaNodes {
    /** The two literals that a node joins; -1 for a variable. */
    left = new Int32Array(fewestNodes).fill(-1);
    right = new Int32Array(fewestNodes).fill(-1);
    /** The kinds of variables that a node asks about, as bits. */
    kinds = new Uint8Array(fewestNodes);
    count = 1;
    private marks = new Int32Array(fewestNodes);
    private mark = 0;

    constructor(private readonly mostNodes: number) {}

    /** @throws TooManyNodes when there are too many. */
    add(left: Literal, right: Literal, kinds: number): number {
        if (this.count >= this.mostNodes) throw new TooManyNodes(`There are more than ${this.mostNodes} formulas.`);
        const node = this.count;
        this.count += 1;
        if (node >= this.left.length) this.grow();
        this.left[node] = left;
        this.right[node] = right;
        this.kinds[node] = kinds;
        return node;
    }

    /** Takes back the node that was added last. */
    dropLast(): void {
        this.count -= 1;
    }

    isVariable(node: number): boolean {
        return (this.left[node] as number) < 0;
    }

    /**
     * The nodes that decide whether some literals hold, parts before wholes; with what `beside` gives for each variable.
     * Nodes without any of the kinds are left out, where some are given.
     */
    below(literals: readonly Literal[], beside?: (variable: number) => readonly Literal[], kinds = 0): number[] {
        this.mark += 1;
        const { marks, mark, left, right } = this;
        const found: number[] = [];
        const open = literals.map(literal => literal >> 1);
        for (let node = open.pop(); node !== undefined; node = open.pop()) {
            if (marks[node] === mark || (kinds !== 0 && ((this.kinds[node] as number) & kinds) === 0)) continue;
            marks[node] = mark;
            found.push(node);
            if ((left[node] as number) >= 0) open.push((left[node] as number) >> 1, (right[node] as number) >> 1);
            else if (beside) for (const literal of beside(node)) open.push(literal >> 1);
        }
        return found.sort((one, other) => one - other);
    }

    private grow(): void {
        const size = 2 * this.left.length;
        const more = (before: Int32Array) => {
            const words = new Int32Array(size);
            words.set(before);
            return words;
        };
        this.left = more(this.left);
        this.right = more(this.right);
        this.marks = more(this.marks);
        const kinds = new Uint8Array(size);
        kinds.set(this.kinds);
        this.kinds = kinds;
    }
}
