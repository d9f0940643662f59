// Looks for a world that lies in all of several sets, without making the set of all such worlds.
//
// A search down the variables, all sets at once; where it fails it remembers the nodes it stood on, so that it does not
// fail there again. A set that the variables so far say nothing about waits and costs nothing until its turn comes. Two
// nodes without a common world end a line at once: whether two meet is remembered for good, and asking costs little.

import { FailedPlaces } from './failed-places.js';
import type { NodeTable } from './node-table.js';
import type { SetOperations } from './set-operations.js';

/** What a search works on, and at how many places it may fail. */
export interface SearchGround {
    readonly operations: SetOperations;
    readonly nodes: NodeTable;
    readonly mostFailures: number;
}

/** Whether some world lies in all of the sets. Makes no nodes; throws TooManyNodes when it fails at too many places. */
export function haveCommonWorld(ground: SearchGround, sets: readonly number[]): boolean {
    return search(ground, sets, undefined);
}

/** The first world that lies in all of the sets, as a value for each variable. Like `haveCommonWorld` otherwise. */
export function findCommonWorld(ground: SearchGround, sets: readonly number[]): number[] | undefined {
    const world = new Array<number>(ground.nodes.sizes.length).fill(0);
    return search(ground, sets, world) ? world : undefined;
}

/** Fills in the first world of a set that is not empty. */
export function descend({ words }: NodeTable, set: number, world: number[]): void {
    let node = set;
    while (node > 1) {
        let value = 0;
        while (words[node + 1 + value] === 0) value++;
        world[words[node] as number] = value;
        node = words[node + 1 + value] as number;
    }
}

interface Search extends SearchGround {
    /** The sets by their highest variable. */
    readonly waiting: readonly number[];
    /** One stretch of nodes for each place on the way down: different ones in the order of their numbers; any two meet. */
    readonly stack: number[];
    readonly failed: FailedPlaces;
    /** Filled from below once a world is found; undefined when nobody wants to know it. */
    readonly world: number[] | undefined;
}

/** How far a search has come: the nodes from `start` to `end` in its stack, and the sets from `next` on that still wait. */
interface Place {
    readonly start: number;
    readonly end: number;
    readonly next: number;
}

function search(ground: SearchGround, sets: readonly number[], world: number[] | undefined): boolean {
    const { operations, nodes, mostFailures } = ground;
    if (sets.includes(0)) return false;
    const different = [...new Set(sets)].filter(set => set !== 1).sort((a, b) => a - b);
    const [first, second] = different;
    nodes.begin();
    // Two need not wait for each other: whether they meet is known, and then the rest is a matter of following it down.
    if (different.length === 2 && !operations.meet(first ?? 0, second ?? 0)) return false;
    if (different.length <= 2 && !world) return true;
    const failed = new FailedPlaces(mostFailures);
    if (different.length <= 2) {
        const place = { start: 0, end: different.length, next: 0 };
        return searchFrom({ ...ground, waiting: [], stack: different, failed, world }, place);
    }
    const { words } = nodes;
    const waiting = different.sort((a, b) => (words[a] as number) - (words[b] as number) || a - b);
    return searchFrom({ ...ground, waiting, stack: [], failed, world }, { start: 0, end: 0, next: 0 });
}

function searchFrom(search: Search, place: Place): boolean {
    const { nodes, waiting, stack, failed, world } = search;
    const { start, end, next } = place;
    if (next === waiting.length && end - start <= 2) {
        if (!world || end === start) return true;
        if (end - start === 1) {
            descend(nodes, stack[start] as number, world);
            return true;
        }
    }
    const variable = highestVariable(search, place);
    let nextBelow = next;
    while (nextBelow < waiting.length && nodes.words[waiting[nextBelow] as number] === variable) nextBelow++;

    const size = nodes.sizes[variable] as number;
    for (let value = 0; value < size; value++) {
        stack.length = end;
        if (!enterValue(search, place, nextBelow, variable, value)) continue;
        if (failed.has(stack, end)) continue;
        const endBelow = stack.length;
        if (searchFrom(search, { start: end, end: endBelow, next: nextBelow })) {
            if (world) world[variable] = value;
            return true;
        }
        stack.length = endBelow;
        failed.add(stack, end);
    }
    return false;
}

function highestVariable({ nodes, stack, waiting }: Search, { start, end, next }: Place): number {
    const { words } = nodes;
    let variable = words[waiting[next] ?? 1] as number;
    for (let index = start; index < end; index++) {
        const other = words[stack[index] as number] as number;
        if (other < variable) variable = other;
    }
    return variable;
}

/** Puts the nodes below a value on the stack; false where one is the empty set or two do not meet. */
function enterValue(search: Search, place: Place, nextBelow: number, variable: number, value: number): boolean {
    const { nodes, stack, waiting } = search;
    const { start, end, next } = place;
    const { words } = nodes;
    for (let index = start; index < end; index++) {
        const node = stack[index] as number;
        if (words[node] !== variable) stack.push(node);
    }
    for (let index = start; index < end; index++) {
        const node = stack[index] as number;
        if (words[node] === variable && !enterNode(search, end, words[node + 1 + value] as number)) return false;
    }
    for (let index = next; index < nextBelow; index++) {
        const node = waiting[index] as number;
        if (!enterNode(search, end, words[node + 1 + value] as number)) return false;
    }
    return true;
}

/** Puts a node into the last stretch of the stack, which begins at `start`. */
function enterNode({ operations, stack }: Search, start: number, node: number): boolean {
    if (node <= 1) return node === 1;
    for (let index = start; index < stack.length; index++) {
        const other = stack[index] as number;
        if (other === node) return true;
        if (!operations.meet(node, other)) return false;
    }
    let index = stack.length;
    stack.push(node);
    for (; index > start && (stack[index - 1] as number) > node; index--) stack[index] = stack[index - 1] as number;
    stack[index] = node;
    return true;
}
