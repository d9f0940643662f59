// Remembers the places at which a search for a common world has failed.

import { TooManyNodes } from './node-table.js';

const fewestSlots = 1 << 6;
const fewestWords = 1 << 9;

/** 128 million bytes. */
const mostWords = 1 << 25;

/**
 * A place is the nodes that sets have come to. Which sets still wait need not be said: those that did wait at an earlier place
 * with the same nodes have since come to one of these nodes, or hold; so each place has a world only if the other has one.
 */
export class FailedPlaces {
    /** The places one after another: how many words follow, then the words. The first word of all is left out. */
    private words = new Int32Array(fewestWords);
    private used = 1;
    private count = 0;
    /** Where a place begins, by its words: open addressing, 0 where there is none, at most half full. */
    private slots = new Int32Array(fewestSlots);

    constructor(private readonly mostPlaces: number) {}

    /** Whether this place was added; its nodes are the stack from `start` on. */
    has(stack: readonly number[], start: number): boolean {
        return this.slots[this.slotOf(stack, start)] !== 0;
    }

    /** @throws TooManyNodes when there are too many. */
    add(stack: readonly number[], start: number): void {
        const slot = this.slotOf(stack, start);
        if (this.slots[slot] !== 0) return;
        const place = this.used;
        const length = stack.length - start;
        const needed = place + 1 + length;
        if (this.count >= this.mostPlaces || needed > mostWords) {
            throw new TooManyNodes(`A search failed at more than ${this.count} places.`);
        }
        if (needed > this.words.length) {
            const before = this.words;
            this.words = new Int32Array(Math.max(before.length * 2, needed));
            this.words.set(before);
        }
        const { words } = this;
        words[place] = length;
        for (let index = start; index < stack.length; index++) {
            words[place + 1 + index - start] = stack[index] as number;
        }
        this.used = needed;
        this.slots[slot] = place;
        this.count++;
        if (this.count * 2 > this.slots.length) this.growSlots();
    }

    /** Where a place stands, or would stand. */
    private slotOf(stack: readonly number[], start: number): number {
        let mixed = 0;
        for (let index = start; index < stack.length; index++) mixed = mix(mixed, stack[index] as number);
        const mask = this.slots.length - 1;
        let slot = mixed & mask;
        while (this.slots[slot] !== 0 && !this.isAt(this.slots[slot] as number, stack, start)) {
            slot = (slot + 1) & mask;
        }
        return slot;
    }

    private isAt(place: number, stack: readonly number[], start: number): boolean {
        const { words } = this;
        if (words[place] !== stack.length - start) return false;
        for (let index = start; index < stack.length; index++) {
            if (words[place + 1 + index - start] !== stack[index]) return false;
        }
        return true;
    }

    private growSlots(): void {
        const slots = new Int32Array(this.slots.length * 2);
        const mask = slots.length - 1;
        for (let place = 1; place < this.used; place += 1 + (this.words[place] as number)) {
            let mixed = 0;
            const end = place + (this.words[place] as number);
            for (let index = place + 1; index <= end; index++) mixed = mix(mixed, this.words[index] as number);
            let slot = mixed & mask;
            while (slots[slot] !== 0) slot = (slot + 1) & mask;
            slots[slot] = place;
        }
        this.slots = slots;
    }
}

function mix(mixed: number, word: number): number {
    const product = Math.imul(mixed ^ word, 0x9e3779b1);
    return product ^ (product >>> 15);
}
