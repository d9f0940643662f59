// Orders variables so that those that are asked about together stand close together.
//
// The order decides how large diagrams get: a diagram has to carry whatever was asked above and still matters below. For
// the same function over n pairs of variables one order can take 2n nodes and another 2 to the power of n (Bryant 1986).
// The best order is hard to find; a short total span of the groups is a cheap stand-in for it, and the FORCE heuristic
// finds one in a few passes (Aloul, Markov and Sakallah, Great Lakes Symposium on VLSI, 2003).

/**
 * The numbers 0 to `count` - 1 in a good order. `groups` lists the variables of each guard, exclusion or the like.
 * Each pass moves every variable to the mean of the centers of its groups, as if the groups were springs, until the
 * groups no longer get shorter in total. The same input gives the same order; ties go by number.
 */
export function orderVariables(count: number, groups: readonly (readonly number[])[]): number[] {
    // A group of one variable pulls at nothing and would only hold it where it is.
    const springs = groups.map(group => [...new Set(group)]).filter(group => group.length > 1);
    let order = Array.from({ length: count }, (_, variable) => variable);
    let places = order;
    let span = totalSpan(springs, places);
    for (let pass = mostPasses(count); pass > 0 && span > 0; pass--) {
        const targets = pull(count, springs, places);
        const next = [...order].sort((a, b) => at(targets, a) - at(targets, b) || a - b);
        const nextPlaces = placesIn(next);
        const nextSpan = totalSpan(springs, nextPlaces);
        if (nextSpan >= span) break;
        [order, places, span] = [next, nextPlaces, nextSpan];
    }
    return order;
}

/** The authors found that the number of passes grows with the logarithm of the variables. */
function mostPasses(count: number): number {
    return 10 + 5 * Math.ceil(Math.log2(count + 1));
}

/** Where each variable is drawn to. One without a group stays where it is. */
function pull(count: number, groups: readonly (readonly number[])[], places: readonly number[]): number[] {
    const sums = new Array<number>(count).fill(0);
    const counts = new Array<number>(count).fill(0);
    for (const group of groups) {
        const center = group.reduce((sum, variable) => sum + at(places, variable), 0) / group.length;
        for (const variable of group) {
            sums[variable] = at(sums, variable) + center;
            counts[variable] = at(counts, variable) + 1;
        }
    }
    return sums.map((sum, variable) => {
        const groupCount = at(counts, variable);
        return groupCount === 0 ? at(places, variable) : sum / groupCount;
    });
}

function totalSpan(groups: readonly (readonly number[])[], places: readonly number[]): number {
    let span = 0;
    for (const group of groups) {
        let [lowest, highest] = [Infinity, -Infinity];
        for (const variable of group) {
            lowest = Math.min(lowest, at(places, variable));
            highest = Math.max(highest, at(places, variable));
        }
        span += highest - lowest;
    }
    return span;
}

function placesIn(order: readonly number[]): number[] {
    const places = new Array<number>(order.length);
    for (const [place, variable] of order.entries()) places[variable] = place;
    return places;
}

function at(list: readonly number[], index: number): number {
    return list[index] as number;
}
