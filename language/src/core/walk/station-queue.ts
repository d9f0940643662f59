// Stations to go to, the one of the lowest rank first: what leads to a station has mostly come before it.

/** A binary heap. A station that is added twice is taken twice. */
export class StationQueue {
    private readonly heap: number[] = [];

    /** `ranks` are by station, as in `RouteOrder`. */
    constructor(private readonly ranks: readonly number[]) {}

    add(station: number): void {
        const { heap } = this;
        let index = heap.push(station) - 1;
        while (index > 0) {
            const parent = (index - 1) >> 1;
            if (this.rank(heap[parent]) <= this.rank(station)) break;
            heap[index] = heap[parent] ?? station;
            index = parent;
        }
        heap[index] = station;
    }

    /** The station of the lowest rank; undefined where none waits. */
    take(): number | undefined {
        const { heap } = this;
        const first = heap[0];
        const last = heap.pop();
        if (last === undefined || heap.length === 0) return first;
        let index = 0;
        for (let child = 1; child < heap.length; child = 2 * index + 1) {
            if (this.rank(heap[child + 1]) < this.rank(heap[child])) child += 1;
            if (this.rank(heap[child]) >= this.rank(last)) break;
            heap[index] = heap[child] ?? last;
            index = child;
        }
        heap[index] = last;
        return first;
    }

    private rank(station: number | undefined): number {
        return station === undefined ? Number.POSITIVE_INFINITY : (this.ranks[station] ?? station);
    }
}
