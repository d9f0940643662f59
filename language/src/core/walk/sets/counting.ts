// Counts and weighs the worlds of a set.
//
// Each node is worked out as if it were asked of all variables. What a node adds up over the values of its variable is
// then a size, or a sum of weights, too large; dividing by it is simpler than counting the variables skipped on each edge.

import type { NodeTable } from './node-table.js';

/** How many worlds a set has. */
export function countWorlds({ words, sizes }: NodeTable, set: number): bigint {
    const all = sizes.reduce((product, size) => product * BigInt(size), 1n);
    const counts = new Map<number, bigint>([
        [0, 0n],
        [1, all],
    ]);
    const countOf = (node: number): bigint => {
        const known = counts.get(node);
        if (known !== undefined) return known;
        const size = sizes[words[node] as number] as number;
        let sum = 0n;
        for (let value = 1; value <= size; value++) sum += countOf(words[node + value] as number);
        const count = sum / BigInt(size);
        counts.set(node, count);
        return count;
    };
    return countOf(set);
}

/**
 * The sum of the weights of a set's worlds; a world weighs the product of `weights[variable][value]` over all variables.
 * Weights are 0 or more. With probabilities of independent variables this is the probability of the set.
 *
 * @throws RangeError where a weight is missing, negative or not a number.
 */
export function weighWorlds({ words, sizes }: NodeTable, set: number, weights: readonly (readonly number[])[]): number {
    // A share is what a value adds to the whole weight of its variable, which is set to 1.
    const shares: Float64Array[] = [];
    let all = 1;
    for (const [variable, size] of sizes.entries()) {
        const ofVariable = Float64Array.from({ length: size }, (_, value) => weightOf(weights, variable, value));
        const sum = ofVariable.reduce((total, weight) => total + weight, 0);
        shares[variable] = ofVariable.map(weight => weight / sum);
        all *= sum;
    }
    if (all === 0) return 0;

    const known = new Map<number, number>([
        [0, 0],
        [1, 1],
    ]);
    const shareOf = (node: number): number => {
        const before = known.get(node);
        if (before !== undefined) return before;
        const ofVariable = shares[words[node] as number] as Float64Array;
        let sum = 0;
        for (let value = 0; value < ofVariable.length; value++) {
            const weight = ofVariable[value] as number;
            if (weight > 0) sum += weight * shareOf(words[node + 1 + value] as number);
        }
        known.set(node, sum);
        return sum;
    };
    return all * shareOf(set);
}

function weightOf(weights: readonly (readonly number[])[], variable: number, value: number): number {
    const weight = weights[variable]?.[value];
    if (weight !== undefined && weight >= 0 && weight < Infinity) return weight;
    throw new RangeError(`Value ${value} of variable ${variable} has no finite weight of 0 or more.`);
}
