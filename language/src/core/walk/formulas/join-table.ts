// Remembers for two numbers a third one.

const fewestSlots = 1 << 11;

/** A table of open addressing, at most half full. The first number is never 0. */
export class JoinTable {
    private slots = new Int32Array(3 * fewestSlots);
    private count = 0;

    /** What was entered for two numbers, or -1. */
    find(one: number, other: number): number {
        const slot = this.slotOf(one, other);
        return this.slots[slot] === 0 ? -1 : (this.slots[slot + 2] as number);
    }

    enter(one: number, other: number, result: number): void {
        const slot = this.slotOf(one, other);
        if (this.slots[slot] === 0) this.count += 1;
        this.slots[slot] = one;
        this.slots[slot + 1] = other;
        this.slots[slot + 2] = result;
        if (this.count * 6 > this.slots.length) this.grow();
    }

    clear(): void {
        this.slots.fill(0);
        this.count = 0;
    }

    private slotOf(one: number, other: number): number {
        const { slots } = this;
        const most = slots.length / 3 - 1;
        const mixed = Math.imul(one, 0x9e3779b1) ^ Math.imul(other, 0x85ebca77);
        let place = (mixed ^ (mixed >>> 15)) & most;
        for (;;) {
            const slot = 3 * place;
            if (slots[slot] === 0 || (slots[slot] === one && slots[slot + 1] === other)) return slot;
            place = (place + 1) & most;
        }
    }

    private grow(): void {
        const before = this.slots;
        this.slots = new Int32Array(2 * before.length);
        for (let slot = 0; slot < before.length; slot += 3) {
            if (before[slot] === 0) continue;
            const place = this.slotOf(before[slot] as number, before[slot + 1] as number);
            this.slots.set(before.subarray(slot, slot + 3), place);
        }
    }
}
