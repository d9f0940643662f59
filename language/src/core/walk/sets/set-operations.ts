// Works out operations on sets of worlds from the top of their diagrams downwards, remembering what was worked out before.
//
// The arguments are told apart by the variable on top. Where it has two values, which is most often, its children are held
// in local variables; a variable of more values collects them in the table's `pending`.

import type { NodeTable } from './node-table.js';

/** The operations on two sets; their numbers tell their results apart in the memory of results. */
export const bothOf = 1;
export const anyOf = 2;
export const firstWithoutSecond = 3;
const meeting = 4;

/** The operations on a set and the node that says which variables or which value they are about. */
export const forgetting = 5;
export const taking = 6;
export const assigning = 7;

export type SetOperation = typeof bothOf | typeof anyOf | typeof firstWithoutSecond;
export type VariableOperation = typeof forgetting | typeof taking | typeof assigning;

export class SetOperations {
    constructor(private readonly nodes: NodeTable) {}

    combine(operation: SetOperation, one: number, other: number): number {
        let a = one;
        let b = other;
        if (operation === firstWithoutSecond) {
            if (a === b || a === 0 || b === 1) return 0;
            if (b === 0) return a;
        } else {
            if (a === b) return a;
            if (a > b) {
                a = other;
                b = one;
            }
            if (a <= 1) return (a === 0) === (operation === bothOf) ? a : b;
        }
        const { nodes } = this;
        const { results, words } = nodes;
        const remembered = results.find(operation, a, b);
        if (remembered >= 0) return remembered;

        const variableOfA = words[a] as number;
        const variableOfB = words[b] as number;
        const variable = variableOfA < variableOfB ? variableOfA : variableOfB;
        let result: number;
        if (nodes.sizes[variable] === 2) {
            const stepA = variableOfA === variable;
            const stepB = variableOfB === variable;
            const first = this.combine(
                operation,
                stepA ? (words[a + 1] as number) : a,
                stepB ? (words[b + 1] as number) : b,
            );
            const second = this.combine(
                operation,
                stepA ? (words[a + 2] as number) : a,
                stepB ? (words[b + 2] as number) : b,
            );
            result = nodes.makeOfTwo(variable, first, second);
        } else {
            result = this.combineMany(operation, variable, a, b);
        }
        nodes.remember(operation, a, b, result);
        return result;
    }

    /** Remembers what is known of two sets that are neither empty nor all worlds, in an operation without an order. */
    know(operation: typeof bothOf | typeof anyOf, a: number, b: number, result: number): void {
        this.nodes.results.remember(operation, a < b ? a : b, a < b ? b : a, result);
    }

    private combineMany(operation: SetOperation, variable: number, a: number, b: number): number {
        const { nodes } = this;
        const { words, pending } = nodes;
        const size = nodes.sizes[variable] as number;
        const base = nodes.pendingCount;
        nodes.pendingCount += size;
        const stepA = words[a] === variable;
        const stepB = words[b] === variable;
        let childA = -1;
        let childB = -1;
        let result = 0;
        for (let value = 0; value < size; value++) {
            const nextA = stepA ? (words[a + 1 + value] as number) : a;
            const nextB = stepB ? (words[b + 1 + value] as number) : b;
            // Neighbors are often alike: of two hundred faults few are told apart.
            if (nextA !== childA || nextB !== childB) result = this.combine(operation, nextA, nextB);
            pending[base + value] = result;
            childA = nextA;
            childB = nextB;
        }
        nodes.pendingCount = base;
        return nodes.make(variable, base);
    }

    /** Whether two sets have a world in common. Makes no nodes. */
    meet(one: number, other: number): boolean {
        const a = one < other ? one : other;
        const b = one < other ? other : one;
        if (a <= 1) return a === 1;
        if (a === b) return true;
        const { nodes } = this;
        const { words } = nodes;
        const remembered = nodes.results.find(meeting, a, b);
        if (remembered >= 0) return remembered === 1;
        const variableOfA = words[a] as number;
        const variableOfB = words[b] as number;
        const variable = variableOfA < variableOfB ? variableOfA : variableOfB;
        const size = nodes.sizes[variable] as number;
        let found = false;
        let childA = 0;
        let childB = 0;
        for (let value = 1; value <= size && !found; value++) {
            const nextA = variableOfA === variable ? (words[a + value] as number) : a;
            const nextB = variableOfB === variable ? (words[b + value] as number) : b;
            if (nextA !== childA || nextB !== childB) found = this.meet(nextA, nextB);
            childA = nextA;
            childB = nextB;
        }
        nodes.remember(meeting, a, b, found ? 1 : 0);
        return found;
    }

    /**
     * Works out what an operation makes of a set. `about` is the node of a value, or, for forgetting, a chain of nodes down
     * the first children, one for each variable to forget.
     */
    change(operation: VariableOperation, set: number, about: number): number {
        const { nodes } = this;
        const { words, results } = nodes;
        const variable = words[set] as number;
        let subject = about;
        if (operation === forgetting) {
            while ((words[subject] as number) < variable) subject = words[subject + 1] as number;
            if (subject === 1) return set;
        } else if (variable > (words[subject] as number)) {
            return operation === assigning ? this.combine(bothOf, set, subject) : set;
        }
        const remembered = results.find(operation, set, subject);
        if (remembered >= 0) return remembered;
        const result =
            words[subject] === variable
                ? this.changeHere(operation, set, subject)
                : this.changeChildren(operation, set, subject);
        nodes.remember(operation, set, subject, result);
        return result;
    }

    private changeHere(operation: VariableOperation, set: number, subject: number): number {
        const { words, sizes } = this.nodes;
        const size = sizes[words[set] as number] as number;
        if (operation === taking) {
            let value = 1;
            while (words[subject + value] === 0) value++;
            return words[set + value] as number;
        }
        let union = 0;
        for (let value = 1; value <= size && union !== 1; value++) {
            const child = words[set + value] as number;
            if (value > 1 && child === words[set + value - 1]) continue;
            const rest = operation === forgetting ? this.change(operation, child, words[subject + 1] as number) : child;
            union = this.combine(anyOf, union, rest);
        }
        return operation === assigning ? this.combine(bothOf, union, subject) : union;
    }

    private changeChildren(operation: VariableOperation, set: number, subject: number): number {
        const { nodes } = this;
        const { words, pending } = nodes;
        const variable = words[set] as number;
        const size = nodes.sizes[variable] as number;
        if (size === 2) {
            const first = this.change(operation, words[set + 1] as number, subject);
            return nodes.makeOfTwo(variable, first, this.change(operation, words[set + 2] as number, subject));
        }
        const base = nodes.pendingCount;
        nodes.pendingCount += size;
        let child = -1;
        let result = 0;
        for (let value = 0; value < size; value++) {
            const next = words[set + 1 + value] as number;
            if (next !== child) result = this.change(operation, next, subject);
            pending[base + value] = result;
            child = next;
        }
        nodes.pendingCount = base;
        return nodes.make(variable, base);
    }
}
