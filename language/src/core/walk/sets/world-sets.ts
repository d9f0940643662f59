// Sets of worlds as reduced ordered decision diagrams over variables of several values.
//
// A world gives each variable one of its values. A set is a node: its diagram asks one variable after another and ends at
// yes or no. Diagrams share their nodes and each node is made once, so that equal sets are equal numbers and an operation
// costs time by the size of the diagrams, not by the number of worlds (Bryant, IEEE Transactions on Computers C-35, 1986;
// for several values: Kam, Villa, Brayton and Sangiovanni-Vincentelli, Multiple-Valued Logic 4, 1998).

import { descend, findCommonWorld, haveCommonWorld, type SearchGround } from './common-world.js';
import { countWorlds, weighWorlds } from './counting.js';
import { NodeTable } from './node-table.js';
import {
    anyOf,
    assigning,
    bothOf,
    firstWithoutSecond,
    forgetting,
    SetOperations,
    taking,
    type VariableOperation,
} from './set-operations.js';

export { TooManyNodes } from './node-table.js';

/** A set of worlds: a node of the diagrams that made it. */
export type WorldSet = number;

/** The empty set. */
export const noWorlds: WorldSet = 0;

/** Every world. */
export const allWorlds: WorldSet = 1;

/** The two parts of a set. */
export interface Division {
    readonly inside: WorldSet;
    readonly outside: WorldSet;
}

export interface WorldSetsOptions {
    /** The budget: how many nodes there may be, of all diagrams together. */
    readonly mostNodes?: number;
    /** At how many places the searches of `allMeet` and `pickInAll` may fail. */
    readonly mostFailures?: number;
}

/** Some 110 million bytes with variables of two values. */
const usualBudget = 4_000_000;

/** A search that fails at so many places takes a second or so, and hardly ends with some more. */
const usualFailures = 50_000;

/**
 * Diagrams over the same variables. Nodes are never thrown away, except those of an operation that breaks the budget:
 * it throws TooManyNodes and leaves everything as it was before.
 */
export class WorldSets {
    /** How many values each variable has; variable 0 is on top. */
    readonly sizes: readonly number[];
    private readonly nodes: NodeTable;
    private readonly operations: SetOperations;
    private readonly ground: SearchGround;

    constructor(sizes: readonly number[], options: WorldSetsOptions = {}) {
        this.sizes = [...sizes];
        const mostNodes = options.mostNodes ?? usualBudget;
        this.nodes = new NodeTable(sizes, mostNodes);
        this.operations = new SetOperations(this.nodes);
        const mostFailures = options.mostFailures ?? usualFailures;
        this.ground = { operations: this.operations, nodes: this.nodes, mostFailures };
    }

    /** How many nodes there are, of all diagrams together. */
    get nodeCount(): number {
        return this.nodes.nodeCount;
    }

    /** The worlds in which a variable has a value. */
    is(variable: number, value: number): WorldSet {
        return this.oneOf(variable, [value]);
    }

    /** The worlds in which a variable has one of the values. */
    oneOf(variable: number, values: readonly number[]): WorldSet {
        const size = this.sizeOf(variable);
        for (const value of values) checkValue(variable, value, size);
        const { nodes } = this;
        nodes.begin();
        nodes.pending.fill(0, 0, size);
        for (const value of values) nodes.pending[value] = 1;
        return nodes.make(variable, 0);
    }

    /** The worlds of both sets. */
    and(a: WorldSet, b: WorldSet): WorldSet {
        this.nodes.begin();
        return this.operations.combine(bothOf, a, b);
    }

    /** The worlds of either set. */
    or(a: WorldSet, b: WorldSet): WorldSet {
        this.nodes.begin();
        return this.operations.combine(anyOf, a, b);
    }

    /** The worlds of the first set that are not in the second. */
    without(a: WorldSet, b: WorldSet): WorldSet {
        this.nodes.begin();
        return this.operations.combine(firstWithoutSecond, a, b);
    }

    /** The worlds of a set that lie within another, and those outside it. */
    divide(a: WorldSet, within: WorldSet): Division {
        const inside = this.and(a, within);
        if (inside === a) return { inside, outside: noWorlds };
        if (inside === noWorlds) return { inside, outside: a };
        const outside = this.without(a, within);
        // Ways that part mostly come together again.
        this.operations.know(anyOf, inside, outside, a);
        return { inside, outside };
    }

    /** The worlds that are not in the set. */
    not(a: WorldSet): WorldSet {
        return this.without(allWorlds, a);
    }

    /** Whether the two have a world in common; makes no nodes and stops at the first. */
    meets(a: WorldSet, b: WorldSet): boolean {
        this.nodes.begin();
        return this.operations.meet(a, b);
    }

    /**
     * Whether some world lies in all of the sets; makes no nodes.
     *
     * @throws TooManyNodes when the search fails at too many places.
     */
    allMeet(sets: readonly WorldSet[]): boolean {
        return haveCommonWorld(this.ground, sets);
    }

    /** The worlds that agree with one of the set on all other variables: what is left when nothing is known of these. */
    forget(a: WorldSet, variables: readonly number[]): WorldSet {
        const { nodes } = this;
        nodes.begin();
        let chain = allWorlds;
        for (const variable of [...variables].sort((one, other) => other - one)) {
            const size = this.sizeOf(variable);
            if (size === 1 || nodes.words[chain] === variable) continue;
            nodes.pending.fill(0, 0, size);
            nodes.pending[0] = chain;
            chain = nodes.make(variable, 0);
        }
        return this.operations.change(forgetting, a, chain);
    }

    /** The worlds of the set after the variable has been set to the value, whatever it was. */
    assign(a: WorldSet, variable: number, value: number): WorldSet {
        return this.change(assigning, a, variable, value);
    }

    /** The worlds that lie in the set once the variable is taken for this value, whatever it is in them. */
    given(a: WorldSet, variable: number, value: number): WorldSet {
        return this.change(taking, a, variable, value);
    }

    private change(operation: VariableOperation, a: WorldSet, variable: number, value: number): WorldSet {
        const fixed = this.is(variable, value);
        return fixed === allWorlds ? a : this.operations.change(operation, a, fixed);
    }

    /** How many worlds the set has. */
    count(a: WorldSet): bigint {
        return countWorlds(this.nodes, a);
    }

    /**
     * The sum of the weights of the worlds; a world weighs the product of `weights[variable][value]` over all variables.
     * Weights are 0 or more.
     */
    weigh(a: WorldSet, weights: readonly (readonly number[])[]): number {
        return weighWorlds(this.nodes, a, weights);
    }

    /** The first world in the order of variables and values, as a value for each variable; undefined if there is none. */
    pick(a: WorldSet): number[] | undefined {
        if (a === noWorlds) return undefined;
        const world = new Array<number>(this.sizes.length).fill(0);
        descend(this.nodes, a, world);
        return world;
    }

    /**
     * The first world that lies in all of the sets; makes no nodes.
     *
     * @throws TooManyNodes when the search fails at too many places.
     */
    pickInAll(sets: readonly WorldSet[]): number[] | undefined {
        return findCommonWorld(this.ground, sets);
    }

    /** Whether a world, a value for each variable, lies in the set. */
    has(a: WorldSet, world: readonly number[]): boolean {
        for (const [variable, size] of this.sizes.entries()) checkValue(variable, world[variable], size);
        const { words } = this.nodes;
        let node = a;
        while (node > allWorlds) {
            const variable = words[node] as number;
            node = words[node + 1 + (world[variable] as number)] as number;
        }
        return node === allWorlds;
    }

    /** Every world of the set with all variables spelled out, in the order of variables and values. */
    *worlds(a: WorldSet): IterableIterator<number[]> {
        const { sizes } = this;
        const { words } = this.nodes;
        const world: number[] = [];
        // The set that is left once the variables so far are fixed, for each of them and at the beginning.
        const left = [a];
        let value = 0;
        for (;;) {
            const variable = world.length;
            const node = left[variable] as number;
            if (node !== noWorlds && variable === sizes.length) yield [...world];
            if (node === noWorlds || variable === sizes.length || value === sizes[variable]) {
                const last = world.pop();
                if (last === undefined) return;
                left.pop();
                value = last + 1;
                continue;
            }
            left.push(words[node] === variable ? (words[node + 1 + value] as number) : node);
            world.push(value);
            value = 0;
        }
    }

    /** The variables that the set asks about, in their order. */
    variablesOf(a: WorldSet): number[] {
        const { words } = this.nodes;
        const variables = new Set<number>();
        for (const node of this.nodesOf(a)) variables.add(words[node] as number);
        return [...variables].sort((one, other) => one - other);
    }

    /** How many nodes the diagram of the set has, not counting its two ends. */
    nodeCountOf(a: WorldSet): number {
        return this.nodesOf(a).size;
    }

    private nodesOf(a: WorldSet): Set<number> {
        const { words } = this.nodes;
        const found = new Set<number>(a > allWorlds ? [a] : []);
        // The loop also visits what it adds.
        for (const node of found) {
            const size = this.sizes[words[node] as number] as number;
            for (let value = 1; value <= size; value++) {
                const child = words[node + value] as number;
                if (child > allWorlds) found.add(child);
            }
        }
        return found;
    }

    private sizeOf(variable: number): number {
        const size = this.sizes[variable];
        if (size === undefined) throw new RangeError(`There is no variable ${variable}.`);
        return size;
    }
}

function checkValue(variable: number, value: number | undefined, size: number): void {
    if (value !== undefined && Number.isInteger(value) && value >= 0 && value < size) return;
    throw new RangeError(`Variable ${variable} has no value ${value}; it has ${size}.`);
}
