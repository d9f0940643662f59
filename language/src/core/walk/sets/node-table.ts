// Holds the nodes of decision diagrams: each node there can be is made at most once, so that equal sets have equal numbers.
//
// All nodes lie in one growing array. The number of a node is the place where it begins: first its variable, then a child
// for each value of the variable. Children are made before their parents, so a child's number is always the lower one.
// Nodes are never changed: who holds the array from before it grew may go on reading older nodes in it.

import { ResultCache } from './result-cache.js';

/** Thrown when the budget is spent; what the operation under way had made is gone again. */
export class TooManyNodes extends Error {
    override readonly name = 'TooManyNodes';
}

/** Two words at the beginning stand for the two ends of every diagram, 0 for no and 1 for yes; both lie below all variables. */
const endCount = 2;

const fewestWords = 1 << 12;

/** 256 million bytes, whatever the budget of nodes is: a variable of many values has large nodes. */
const mostWords = 1 << 26;

const fewestSlots = 1 << 11;

/** An operation can take many steps and make few nodes; it ends after so many for each node of the budget. */
const stepsPerNode = 8;

/** So many steps are allowed whatever the budget of nodes is; they take a fraction of a second. */
const fewestSteps = 1_000_000;

export class NodeTable {
    readonly sizes: Int32Array;
    words = new Int32Array(fewestWords);
    /** Results about nodes of this table; they go when nodes go. */
    readonly results = new ResultCache();
    private stepsLeft = 0;
    nodeCount = 0;

    /** Children of nodes that are not made yet. Each operation takes room for one node of each variable at most. */
    readonly pending: Int32Array;
    pendingCount = 0;

    /** Nodes by their content: open addressing, 0 where there is none, at most three quarters full. */
    private slots = new Int32Array(fewestSlots);
    private used = endCount;
    /** What was used when the operation under way began. */
    private usedBefore = endCount;

    constructor(
        sizes: readonly number[],
        readonly mostNodes: number,
    ) {
        const wrong = sizes.find(size => !Number.isInteger(size) || size < 1);
        if (wrong !== undefined) throw new RangeError(`A variable cannot have ${wrong} values.`);
        this.sizes = Int32Array.from(sizes);
        this.words.fill(sizes.length, 0, endCount);
        this.pending = new Int32Array(sizes.reduce((sum, size) => sum + size, 0));
    }

    /** To be called before each operation. */
    begin(): void {
        this.stepsLeft = Math.max(fewestSteps, this.mostNodes * stepsPerNode);
        this.usedBefore = this.used;
        this.pendingCount = 0;
    }

    /** Ends a step of the operation under way by remembering its result. */
    remember(operation: number, a: number, b: number, result: number): void {
        if (--this.stepsLeft < 0) throw this.giveUp();
        this.results.remember(operation, a, b, result);
    }

    /** The node of a variable whose children lie from `base` on in `pending`. */
    make(variable: number, base: number): number {
        const { pending } = this;
        const size = this.sizes[variable] as number;
        const first = pending[base] as number;
        if (size === 2) return this.makeOfTwo(variable, first, pending[base + 1] as number);
        let value = 1;
        while (value < size && pending[base + value] === first) value++;
        if (value === size) return first;

        const { slots, words } = this;
        const mask = slots.length - 1;
        let slot = hashOf(variable, pending, base, size) & mask;
        for (;;) {
            const node = slots[slot] as number;
            if (node === 0) break;
            if (words[node] === variable && hasChildren(words, node, pending, base, size)) return node;
            slot = (slot + 1) & mask;
        }
        const node = this.reserve(size + 1);
        this.words[node] = variable;
        for (let index = 0; index < size; index++) this.words[node + 1 + index] = pending[base + index] as number;
        return this.enter(node, slot);
    }

    /** The node of a variable of two values. */
    makeOfTwo(variable: number, first: number, second: number): number {
        if (first === second) return first;
        const { slots, words } = this;
        const mask = slots.length - 1;
        let slot = hashOfTwo(variable, first, second) & mask;
        for (;;) {
            const node = slots[slot] as number;
            if (node === 0) break;
            if (words[node + 1] === first && words[node + 2] === second && words[node] === variable) return node;
            slot = (slot + 1) & mask;
        }
        const node = this.reserve(3);
        this.words[node] = variable;
        this.words[node + 1] = first;
        this.words[node + 2] = second;
        return this.enter(node, slot);
    }

    /** Room for a node at the end of the words. */
    private reserve(wordCount: number): number {
        const node = this.used;
        const needed = node + wordCount;
        if (this.nodeCount >= this.mostNodes || needed > mostWords) throw this.giveUp();
        if (needed > this.words.length) {
            const before = this.words;
            // What is not filled yet takes no memory, but what is copied takes it twice.
            this.words = new Int32Array(Math.min(mostWords, Math.max(before.length * 4, needed)));
            this.words.set(before);
        }
        this.used = needed;
        return node;
    }

    private enter(node: number, slot: number): number {
        this.slots[slot] = node;
        this.nodeCount++;
        if (this.nodeCount * 4 > this.slots.length * 3) this.growSlots();
        return node;
    }

    private growSlots(): void {
        const slots = new Int32Array(this.slots.length * 2);
        const mask = slots.length - 1;
        for (let node = endCount; node < this.used; node += this.lengthOf(node)) {
            let slot = this.hashOfNode(node) & mask;
            while (slots[slot] !== 0) slot = (slot + 1) & mask;
            slots[slot] = node;
        }
        this.slots = slots;
        this.results.fit(this.nodeCount);
    }

    /** Takes back what the operation under way has made: nobody else knows of it yet, and it would fill the table for good. */
    private giveUp(): TooManyNodes {
        const { slots } = this;
        const mask = slots.length - 1;
        // No older node was pushed aside by a newer one, so that their slots can simply be emptied.
        for (let node = this.usedBefore; node < this.used; node += this.lengthOf(node)) {
            let slot = this.hashOfNode(node) & mask;
            while (slots[slot] !== node) slot = (slot + 1) & mask;
            slots[slot] = 0;
            this.nodeCount--;
        }
        this.used = this.usedBefore;
        this.results.clear();
        return new TooManyNodes(`The budget of ${this.mostNodes} nodes is spent.`);
    }

    private lengthOf(node: number): number {
        return 1 + (this.sizes[this.words[node] as number] as number);
    }

    private hashOfNode(node: number): number {
        const { words } = this;
        const variable = words[node] as number;
        const size = this.sizes[variable] as number;
        if (size === 2) return hashOfTwo(variable, words[node + 1] as number, words[node + 2] as number);
        return hashOf(variable, words, node + 1, size);
    }
}

function hasChildren(words: Int32Array, node: number, pending: Int32Array, base: number, size: number): boolean {
    for (let index = 0; index < size; index++) {
        if (words[node + 1 + index] !== pending[base + index]) return false;
    }
    return true;
}

// Odd multipliers without a pattern in their bits; the high bits of the products, the best mixed ones, are brought down.
function hashOfTwo(variable: number, first: number, second: number): number {
    const mixed = Math.imul(first, 0x9e3779b1) ^ Math.imul(second + variable, 0x85ebca77);
    return mixed ^ (mixed >>> 15);
}

function hashOf(variable: number, words: Int32Array, from: number, size: number): number {
    let mixed = variable;
    for (let index = from; index < from + size; index++) {
        mixed = Math.imul(mixed ^ (words[index] as number), 0x9e3779b1);
        mixed ^= mixed >>> 15;
    }
    return mixed;
}
