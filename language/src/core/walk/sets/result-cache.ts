// Remembers results of operations on sets, so that shared parts of diagrams are worked out once.
//
// A later result may take the place of an earlier one. That costs time only: what is forgotten is worked out anew.

/** Words of an entry: the operation, its two operands, the result. Four lie in one line of a processor's cache. */
const wordsPerEntry = 4;

const fewestEntries = 1 << 10;

/** Eight million bytes. Measured: with fewer, large diagrams take longer; more no longer fit in the cache of a processor. */
const mostEntries = 1 << 19;

/** Measured: with an entry for every node, filling fresh memory costs more than what is worked out twice. */
const nodesPerEntry = 4;

/** Results by operation and operands. Operations are numbers from 1 on, operands and results are from 0 on. */
export class ResultCache {
    private entries = new Int32Array(fewestEntries * wordsPerEntry);
    private mask = fewestEntries - 1;

    /** The remembered result, or -1. */
    find(operation: number, a: number, b: number): number {
        const { entries } = this;
        const entry = (hash(operation, a, b) & this.mask) * wordsPerEntry;
        if (entries[entry + 1] !== a || entries[entry + 2] !== b || entries[entry] !== operation) return -1;
        return entries[entry + 3] as number;
    }

    remember(operation: number, a: number, b: number, result: number): void {
        const { entries } = this;
        const entry = (hash(operation, a, b) & this.mask) * wordsPerEntry;
        entries[entry] = operation;
        entries[entry + 1] = a;
        entries[entry + 2] = b;
        entries[entry + 3] = result;
    }

    /** Grows until it has an entry for every few nodes, or is as large as it gets; keeps what it remembers. */
    fit(nodeCount: number): void {
        if (nodeCount <= this.mask * nodesPerEntry || this.mask + 1 >= mostEntries) return;
        const before = this.entries;
        this.entries = new Int32Array(before.length * 2);
        this.mask = this.mask * 2 + 1;
        for (let entry = 0; entry < before.length; entry += wordsPerEntry) {
            const operation = before[entry] as number;
            if (operation === 0) continue;
            const [a, b, result] = [before[entry + 1], before[entry + 2], before[entry + 3]] as [
                number,
                number,
                number,
            ];
            this.remember(operation, a, b, result);
        }
    }

    clear(): void {
        this.entries.fill(0);
    }
}

// Odd multipliers without a pattern in their bits; the high bits of the products, the best mixed ones, are brought down.
function hash(operation: number, a: number, b: number): number {
    const mixed = Math.imul(a, 0x9e3779b1) ^ Math.imul(b + operation, 0x85ebca77);
    return mixed ^ (mixed >>> 15);
}
