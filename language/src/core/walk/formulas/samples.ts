// Cases in which formulas are tried out before anything is proved of them: each formula has one bit for each case.
//
// The bits of 32 cases make a word, and the words of all formulas for the same cases lie together, so that more cases can be
// added later. What differs in some case differs; what is alike in all may still differ.

import type { FormulaNodes } from './formula-nodes.js';

/** Words of cases that are drawn; the others are cases that were found. */
const drawnWords = 16;

/** Drawn or found, these are the most; then each case that is found takes the place of one of the last word. */
const mostWords = 64;

const fewestNodes = 1 << 10;

/** The opposite of node 0, which never holds. */
const always = 1;

/** The place of a case. */
export interface Case {
    readonly word: number;
    readonly bit: number;
}

export class Samples {
    /** By word, then by node. */
    private readonly words: Int32Array[] = [];
    /** Bits that are taken in the last word; 32 where it is full. */
    private taken = 32;
    /** The last word is full, and its cases are being replaced. */
    private isReused = false;
    private capacity = fewestNodes;
    /** How many words decide the key of a node. */
    private keyWords = drawnWords;

    constructor() {
        for (let word = 0; word < drawnWords; word += 1) this.words.push(new Int32Array(this.capacity));
    }

    /** Makes room for a node of this number. */
    fit(node: number): void {
        if (node < this.capacity) return;
        this.capacity *= 2;
        for (const [index, before] of this.words.entries()) {
            const more = new Int32Array(this.capacity);
            more.set(before);
            this.words[index] = more;
        }
    }

    /** Fills in the bits of a node that holds where two literals do. */
    join(node: number, one: number, other: number): void {
        const [nodeOfOne, nodeOfOther] = [one >> 1, other >> 1];
        const [signOfOne, signOfOther] = [-(one & 1), -(other & 1)];
        for (const word of this.words) {
            word[node] = ((word[nodeOfOne] as number) ^ signOfOne) & ((word[nodeOfOther] as number) ^ signOfOther);
        }
    }

    /** Whether a node holds in no case. */
    isNever(node: number): boolean {
        const { words } = this;
        for (let index = 0; index < drawnWords; index += 1) if ((words[index] as Int32Array)[node] !== 0) return false;
        return !this.find(2 * node);
    }

    /** Whether two nodes are alike in all cases (0), opposite in all (1), or neither (-1). */
    compare(one: number, other: number): -1 | 0 | 1 {
        const { words } = this;
        const last = words.length - 1;
        const difference = ((words[0] as Int32Array)[one] as number) ^ ((words[0] as Int32Array)[other] as number);
        if (difference !== 0 && difference !== -1) return -1;
        // From the end: what is alike in all drawn cases often differs in one that was found.
        for (let index = last; index > 0; index -= 1) {
            const word = words[index] as Int32Array;
            const here = index === last ? this.mask() : -1;
            if ((((word[one] as number) ^ (word[other] as number) ^ difference) & here) !== 0) return -1;
        }
        return difference === 0 ? 0 : 1;
    }

    /** The bits of the last word that have been taken. */
    private mask(): number {
        return this.taken === 32 || this.isReused ? -1 : (1 << this.taken) - 1;
    }

    /** A number that is the same for nodes that are alike, or opposite, in the cases that were known at the last `takeIn`. */
    keyOf(node: number): number {
        const sign = -(((this.words[0] as Int32Array)[node] as number) & 1);
        let key = 0;
        for (let index = 0; index < this.keyWords; index += 1) {
            key = Math.imul(key ^ ((this.words[index] as Int32Array)[node] as number) ^ sign, 0x9e3779b1);
            key ^= key >>> 15;
        }
        return key;
    }

    holdsIn(node: number, { word, bit }: Case): boolean {
        return ((((this.words[word] as Int32Array)[node] as number) >>> bit) & 1) === 1;
    }

    /** A case in which a literal holds, and another one too if it is given; undefined where there is none. */
    find(literal: number, other: number = always): Case | undefined {
        const [sign, signOfOther] = [-(literal & 1), -(other & 1)];
        for (const [index, word] of this.words.entries()) {
            const isLast = index >= drawnWords && index === this.words.length - 1;
            const both = ((word[literal >> 1] as number) ^ sign) & ((word[other >> 1] as number) ^ signOfOther);
            const bits = both & (isLast ? this.mask() : -1);
            if (bits !== 0) return { word: index, bit: 31 - Math.clz32(bits) };
        }
        return undefined;
    }

    /** The places of the cases that are drawn. */
    drawn(): Case[] {
        return Array.from({ length: 32 * drawnWords }, (_, index) => ({ word: index >> 5, bit: index & 31 }));
    }

    /** Lets the keys depend on the cases found meanwhile too; true where they have doubled, so that it is worth while. */
    takeIn(): boolean {
        const full = this.words.length - 1;
        if (full < drawnWords + Math.max(1, 2 * (this.keyWords - drawnWords))) return false;
        this.keyWords = full;
        return true;
    }

    /** A place for one more case. */
    place(): Case {
        if (this.taken === 32) {
            this.taken = 0;
            this.isReused = this.words.length === mostWords;
            if (!this.isReused) this.words.push(new Int32Array(this.capacity));
        }
        this.taken += 1;
        return { word: this.words.length - 1, bit: this.taken - 1 };
    }

    /** Fills in a case: the values of the variables, and of all formulas what follows from them. */
    fill({ word: index, bit }: Case, { left, right, count }: FormulaNodes, value: (variable: number) => boolean): void {
        const word = this.words[index] as Int32Array;
        const clear = ~(1 << bit);
        for (let node = 1; node < count; node += 1) {
            const [one, other] = [left[node] as number, right[node] as number];
            let holds: number;
            if (one < 0) {
                holds = value(node) ? 1 : 0;
            } else {
                const ofOne = ((word[one >> 1] as number) >>> bit) ^ one;
                const ofOther = ((word[other >> 1] as number) >>> bit) ^ other;
                holds = ofOne & ofOther & 1;
            }
            word[node] = ((word[node] as number) & clear) | (holds << bit);
        }
    }
}
