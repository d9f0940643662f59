// Which places of a graph lie on a circle together: strongly connected components.

/**
 * For each place the number of its component; places from which ways lead there and back have the same.
 * `next` lists by place where ways lead. (Tarjan, SIAM Journal on Computing 1, 1972; without recursion.)
 */
export function componentsOf(next: readonly (readonly number[])[]): Int32Array {
    const component = new Int32Array(next.length).fill(-1);
    // When each place was found, and the earliest place found that a way leads back to; 0 where not found yet.
    const found = new Int32Array(next.length);
    const lowest = new Int32Array(next.length);
    const done = new Int32Array(next.length);
    const open: number[] = [];
    const stack: number[] = [];
    let count = 0;
    let components = 0;
    const enter = (place: number) => {
        count += 1;
        found[place] = lowest[place] = count;
        stack.push(place);
        open.push(place);
    };
    for (let root = 0; root < next.length; root += 1) {
        if (found[root] === 0) enter(root);
        for (let place = open.at(-1); place !== undefined; place = open.at(-1)) {
            const index = done[place] as number;
            const to = next[place]?.[index];
            if (to !== undefined) {
                done[place] = index + 1;
                if (found[to] === 0) enter(to);
                else if (component[to] === -1) lower(lowest, place, found[to] as number);
                continue;
            }
            open.pop();
            const above = open.at(-1);
            if (above !== undefined) lower(lowest, above, lowest[place] as number);
            if (lowest[place] !== found[place]) continue;
            for (let member = stack.pop(); member !== undefined; member = stack.pop()) {
                component[member] = components;
                if (member === place) break;
            }
            components += 1;
        }
    }
    return component;
}

function lower(lowest: Int32Array, place: number, value: number): void {
    if (value < (lowest[place] as number)) lowest[place] = value;
}
