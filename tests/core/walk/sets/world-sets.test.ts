/** Sets of worlds: what they answer in small cases, known values, and what happens when the budget is spent. */
import { describe, expect, test } from 'vitest';
import { orderVariables } from '../../../../language/src/core/walk/sets/order.js';
import {
    allWorlds,
    noWorlds,
    TooManyNodes,
    type WorldSet,
    WorldSets,
} from '../../../../language/src/core/walk/sets/world-sets.js';

describe('a set of worlds', () => {
    test('lists its worlds in the order of variables and values', () => {
        const sets = new WorldSets([2, 3]);
        const set = sets.or(sets.is(1, 2), sets.is(0, 1));
        expect([...sets.worlds(set)]).toEqual([
            [0, 2],
            [1, 0],
            [1, 1],
            [1, 2],
        ]);
        expect(sets.count(set)).toBe(4n);
        expect(sets.pick(set)).toEqual([0, 2]);
        expect(sets.has(set, [1, 0])).toBe(true);
        expect(sets.has(set, [0, 0])).toBe(false);
    });

    test('has one number, however it was made', () => {
        const sets = new WorldSets([3, 4, 2]);
        const set = sets.and(sets.oneOf(0, [0, 2]), sets.not(sets.is(1, 3)));
        expect(sets.without(sets.not(sets.is(0, 1)), sets.is(1, 3))).toBe(set);
        expect(sets.not(sets.or(sets.is(1, 3), sets.is(0, 1)))).toBe(set);
        expect(sets.or(sets.and(set, sets.is(2, 0)), sets.and(set, sets.is(2, 1)))).toBe(set);
    });

    test('that is empty has no world, and one of all worlds asks about nothing', () => {
        const sets = new WorldSets([2, 3]);
        expect(sets.pick(noWorlds)).toBeUndefined();
        expect([...sets.worlds(noWorlds)]).toEqual([]);
        expect(sets.count(noWorlds)).toBe(0n);
        expect(sets.variablesOf(allWorlds)).toEqual([]);
        expect(sets.count(allWorlds)).toBe(6n);
        expect(sets.oneOf(1, [])).toBe(noWorlds);
        expect(sets.oneOf(1, [2, 0, 1])).toBe(allWorlds);
    });

    test('can be over no variables, or over variables of one value', () => {
        const none = new WorldSets([]);
        expect([...none.worlds(allWorlds)]).toEqual([[]]);
        expect(none.count(allWorlds)).toBe(1n);
        expect(none.pickInAll([])).toEqual([]);
        const single = new WorldSets([1, 2]);
        expect(single.is(0, 0)).toBe(allWorlds);
        expect(single.assign(single.is(1, 1), 0, 0)).toBe(single.is(1, 1));
        expect(single.forget(single.is(1, 1), [0])).toBe(single.is(1, 1));
        expect([...single.worlds(single.is(1, 1))]).toEqual([[0, 1]]);
    });

    test('knows what is left when a variable is forgotten, set or taken for a value', () => {
        const sets = new WorldSets([2, 3]);
        const set = sets.or(sets.and(sets.is(0, 0), sets.is(1, 1)), sets.and(sets.is(0, 1), sets.oneOf(1, [1, 2])));
        expect(sets.forget(set, [0])).toBe(sets.oneOf(1, [1, 2]));
        expect(sets.forget(set, [1, 0, 1])).toBe(allWorlds);
        expect(sets.given(set, 0, 0)).toBe(sets.is(1, 1));
        expect(sets.assign(set, 1, 0)).toBe(sets.is(1, 0));
        expect(sets.assign(set, 0, 1)).toBe(sets.and(sets.is(0, 1), sets.oneOf(1, [1, 2])));
        expect(sets.variablesOf(sets.assign(set, 0, 1))).toEqual([0, 1]);
    });

    test('refuses a variable or value that there is not', () => {
        const sets = new WorldSets([2, 3]);
        expect(() => sets.is(2, 0)).toThrow(RangeError);
        expect(() => sets.is(0, 2)).toThrow(RangeError);
        expect(() => sets.oneOf(1, [0, -1])).toThrow(RangeError);
        expect(() => sets.forget(allWorlds, [5])).toThrow(RangeError);
        expect(() => sets.assign(allWorlds, 0, 0.5)).toThrow(RangeError);
        expect(() => sets.has(allWorlds, [0])).toThrow(RangeError);
        expect(() => sets.weigh(allWorlds, [[1, 1]])).toThrow(RangeError);
        expect(() => new WorldSets([2, 0])).toThrow(RangeError);
    });
});

describe('sets that are asked whether they meet', () => {
    test('make no nodes', () => {
        const sets = new WorldSets([2, 2, 2, 3]);
        const different = [0, 1].map(variable =>
            sets.not(
                sets.or(
                    sets.and(sets.is(variable, 0), sets.is(variable + 1, 0)),
                    sets.and(sets.is(variable, 1), sets.is(variable + 1, 1)),
                ),
            ),
        );
        const last = sets.is(3, 2);
        const before = sets.nodeCount;
        expect(sets.pickInAll([...different, last])).toEqual([0, 1, 0, 2]);
        expect(sets.allMeet([...different, last, allWorlds])).toBe(true);
        expect(sets.allMeet([...different, noWorlds])).toBe(false);
        expect(sets.meets(last, different[0] ?? noWorlds)).toBe(true);
        expect(sets.nodeCount).toBe(before);
    });

    test('can meet in pairs and yet not all together', () => {
        const sets = new WorldSets([3]);
        const pairs = [
            [0, 1],
            [1, 2],
            [0, 2],
        ].map(values => sets.oneOf(0, values));
        for (const one of pairs) for (const other of pairs) expect(sets.meets(one, other)).toBe(true);
        expect(sets.allMeet(pairs)).toBe(false);
        expect(sets.pickInAll(pairs)).toBeUndefined();
    });

    test('end a search that fails at too many places, and a smaller one goes on', () => {
        const size = 7;
        const sets = new WorldSets(new Array<number>(size).fill(size - 1), { mostFailures: 20 });
        // One value fewer than variables: they cannot all be different, which shows late.
        const clashes = pairsBelow(size).map(([one, other]) => differ(sets, one, other));
        expect(() => sets.allMeet(clashes)).toThrow(TooManyNodes);
        expect(() => sets.pickInAll(clashes)).toThrow(TooManyNodes);
        expect(sets.pickInAll(clashes.slice(0, 6))).toEqual([0, 1, 1, 1, 1, 1, 1]);
        const patient = new WorldSets(sets.sizes);
        expect(patient.allMeet(pairsBelow(size).map(([one, other]) => differ(patient, one, other)))).toBe(false);
    });
});

describe('known values', () => {
    // The numbers of solutions are OEIS A000170, from memory.
    test.each([
        [1, 1n],
        [2, 0n],
        [3, 0n],
        [4, 2n],
        [5, 10n],
        [6, 4n],
        [7, 40n],
        [8, 92n],
    ])('%i queens stand on their board in %i ways', (size, solutions) => {
        const sets = new WorldSets(new Array<number>(size).fill(size));
        const rules = pairsBelow(size).map(([one, other]) => peace(sets, one, other));
        const all = rules.reduce((set, rule) => sets.and(set, rule), allWorlds);
        expect(sets.count(all)).toBe(solutions);
        expect([...sets.worlds(all)]).toHaveLength(Number(solutions));
        expect(sets.pickInAll(rules)).toEqual(sets.pick(all));
        expect(sets.allMeet(rules)).toBe(solutions > 0n);
    });

    // Bryant, IEEE Transactions on Computers C-35, 1986, from memory.
    test.each([1, 2, 3, 10, 64])('odd parity of %i variables takes 2n - 1 nodes', count => {
        const sets = new WorldSets(new Array<number>(count).fill(2));
        let odd: WorldSet = noWorlds;
        for (let variable = 0; variable < count; variable++) {
            const one = sets.is(variable, 1);
            odd = sets.or(sets.without(odd, one), sets.without(one, odd));
        }
        expect(sets.nodeCountOf(odd)).toBe(2 * count - 1);
        expect(sets.count(odd)).toBe(2n ** BigInt(count - 1));
    });

    // The same, from memory: a1 b1 + a2 b2 + ... takes 2n nodes with each pair together. With all a before all b it takes
    // 2 to the power of n + 1 with its two ends.
    test('pairs take few nodes where they stand together and very many where they do not', () => {
        const pairCount = 8;
        const apart = Array.from({ length: pairCount }, (_, index) => [index, index + pairCount]);
        expect(nodesOfPairs(apart)).toBe(2 ** (pairCount + 1) - 2);
        const order = orderVariables(2 * pairCount, apart);
        const together = apart.map(pair => pair.map(variable => order.indexOf(variable)));
        expect(nodesOfPairs(together)).toBe(2 * pairCount);
    });

    // Two out of three independent parts work with the probability 3p² - 2p³: any handbook of reliability, from memory.
    test('a set weighs as much as it is probable', () => {
        const sets = new WorldSets([2, 2, 2]);
        const works = [0, 1, 2].map(variable => sets.is(variable, 1));
        const pairs = pairsBelow(3).map(([one, other]) => sets.and(works[one] ?? noWorlds, works[other] ?? noWorlds));
        const system = pairs.reduce((set, pair) => sets.or(set, pair), noWorlds);
        const weights = new Array<number[]>(3).fill([0.1, 0.9]);
        expect(sets.weigh(system, weights)).toBeCloseTo(3 * 0.9 ** 2 - 2 * 0.9 ** 3, 12);
        expect(sets.weigh(allWorlds, new Array<number[]>(3).fill([2, 3]))).toBeCloseTo(125, 9);
        expect(sets.weigh(system, [...weights.slice(1), [0, 0]])).toBe(0);
    });
});

describe('the budget', () => {
    test('is never exceeded, and what was there before still serves', () => {
        const sets = new WorldSets(new Array<number>(24).fill(2), { mostNodes: 120 });
        const same = pairsOfHalves(12).map(([one, other]) => equal(sets, one, other));
        const before = sets.nodeCount;
        const conjoin = () => same.reduce((set, pair) => sets.and(set, pair), allWorlds);
        expect(conjoin).toThrow(TooManyNodes);
        expect(sets.nodeCount).toBeLessThanOrEqual(120);
        expect(sets.allMeet(same)).toBe(true);

        // What the operation had made is gone again, so that there is room for small things.
        const [first = noWorlds, second = noWorlds] = same;
        expect(sets.nodeCount).toBeGreaterThanOrEqual(before);
        const both = sets.and(first, second);
        expect(sets.count(both)).toBe(2n ** 22n);
        expect(sets.has(both, new Array<number>(24).fill(1))).toBe(true);
        expect(sets.and(sets.not(first), both)).toBe(noWorlds);
        expect(conjoin).toThrow(TooManyNodes);
        expect(sets.and(first, second)).toBe(both);
        expect(sets.count(both)).toBe(2n ** 22n);
    });

    test('once broken leaves no trace: the next set gets the number that it would have got', () => {
        const make = () => {
            const sets = new WorldSets(new Array<number>(24).fill(2), { mostNodes: 3000 });
            const halves = [0, 6].map(from =>
                pairsOfHalves(12)
                    .slice(from, from + 6)
                    .reduce((set, [one, other]) => sets.and(set, equal(sets, one, other)), allWorlds),
            );
            return { sets, halves };
        };
        const [broken, whole] = [make(), make()];
        const [one = noWorlds, other = noWorlds] = broken.halves;
        for (let times = 0; times < 3; times++) expect(() => broken.sets.and(one, other)).toThrow(TooManyNodes);
        expect(broken.sets.nodeCount).toBe(whole.sets.nodeCount);
        expect(broken.sets.and(one, broken.sets.is(8, 1))).toBe(whole.sets.and(one, whole.sets.is(8, 1)));
    });

    test('holds for variables of many values too', () => {
        const sets = new WorldSets(new Array<number>(10).fill(10), { mostNodes: 300 });
        const rules = pairsBelow(10).map(
            ([one, other]) =>
                () =>
                    peace(sets, one, other),
        );
        expect(() => rules.reduce((set, rule) => sets.and(set, rule()), allWorlds)).toThrow(TooManyNodes);
        expect(sets.nodeCount).toBeLessThanOrEqual(300);
        const sum = sets.or(sets.is(0, 9), sets.is(1, 9));
        expect(sets.count(sum)).toBe(19n * 10n ** 8n);
    });

    test('ends an operation that makes no nodes but takes far too many steps', () => {
        const sets = new WorldSets(new Array<number>(60).fill(2), { mostNodes: 120_000 });
        // Each diagram is small, and they differ in the last variable only; until then every pair of remainders comes up.
        const one = sets.and(divisible(sets, 311, 59), sets.is(59, 0));
        const other = sets.and(divisible(sets, 313, 59), sets.is(59, 1));
        const count = sets.count(one);
        const before = sets.nodeCount;
        expect(() => sets.meets(one, other)).toThrow(TooManyNodes);
        expect(() => sets.and(one, other)).toThrow(TooManyNodes);
        expect(() => sets.allMeet([one, other, sets.is(0, 1)])).toThrow(TooManyNodes);
        expect(sets.nodeCount).toBe(before);
        expect(sets.count(one)).toBe(count);
        expect(sets.meets(one, sets.is(59, 1))).toBe(false);
    });
});

describe('large sets', () => {
    test('can be over a variable with hundreds of values', () => {
        const sets = new WorldSets([300, ...new Array<number>(20).fill(2)]);
        let suspects: WorldSet = noWorlds;
        for (let fault = 0; fault < 300; fault++) {
            suspects = sets.or(suspects, sets.and(sets.is(0, fault), sets.is(1 + (fault % 20), fault % 2)));
        }
        expect(sets.count(suspects)).toBe(300n * 2n ** 19n);
        expect(sets.count(sets.forget(suspects, [0]))).toBe(300n * (2n ** 20n - 1n));
        expect(sets.variablesOf(sets.given(suspects, 0, 42))).toEqual([3]);
    });

    test('over thousands of variables need no deep stack', () => {
        const count = 3000;
        const sets = new WorldSets(new Array<number>(count).fill(2));
        let chain: WorldSet = allWorlds;
        for (let variable = count - 2; variable >= 0; variable--) {
            chain = sets.and(chain, sets.or(sets.is(variable, 0), sets.is(variable + 1, 1)));
        }
        expect(sets.count(chain)).toBe(BigInt(count + 1));
        expect(sets.pick(sets.given(chain, 0, 1))?.slice(1)).toEqual(new Array<number>(count - 1).fill(1));
        expect(sets.weigh(chain, new Array<number[]>(count).fill([0, 1]))).toBe(1);
    });
});

/** Every pair of numbers below another, the lower one first. */
function pairsBelow(count: number): [number, number][] {
    const numbers = Array.from({ length: count }, (_, index) => index);
    return numbers.flatMap(one => numbers.slice(one + 1).map((other): [number, number] => [one, other]));
}

/** A variable of the first half with one of the second, for each. */
function pairsOfHalves(half: number): [number, number][] {
    return Array.from({ length: half }, (_, index) => [index, index + half]);
}

/** The worlds in which two variables have a pair of values that is wanted. */
function relate(
    sets: WorldSets,
    one: number,
    other: number,
    wanted: (valueOfOne: number, valueOfOther: number) => boolean,
): WorldSet {
    const values = Array.from({ length: sets.sizes[other] ?? 0 }, (_, value) => value);
    return Array.from({ length: sets.sizes[one] ?? 0 }, (_, value) =>
        sets.and(
            sets.is(one, value),
            sets.oneOf(
                other,
                values.filter(of => wanted(value, of)),
            ),
        ),
    ).reduce((set, part) => sets.or(set, part), noWorlds);
}

function equal(sets: WorldSets, one: number, other: number): WorldSet {
    return relate(sets, one, other, (a, b) => a === b);
}

function differ(sets: WorldSets, one: number, other: number): WorldSet {
    return relate(sets, one, other, (a, b) => a !== b);
}

/** A variable is a row, its value the column of the queen in it: neither stands in the other's way. */
function peace(sets: WorldSets, one: number, other: number): WorldSet {
    return relate(sets, one, other, (a, b) => a !== b && Math.abs(a - b) !== other - one);
}

/** The worlds in which the numbers of those of the first variables that have value 1, squared, add up to a multiple. */
function divisible(sets: WorldSets, divisor: number, count: number): WorldSet {
    let byRemainder = Array.from({ length: divisor }, (_, remainder) => (remainder === 0 ? allWorlds : noWorlds));
    for (let variable = count - 1; variable >= 0; variable--) {
        const [off, on] = [sets.is(variable, 0), sets.is(variable, 1)];
        const below = byRemainder;
        byRemainder = below.map((without, remainder) => {
            const withIt = below[(remainder + (variable + 1) ** 2) % divisor] ?? noWorlds;
            return sets.or(sets.and(off, without), sets.and(on, withIt));
        });
    }
    return byRemainder[0] ?? noWorlds;
}

function nodesOfPairs(pairs: readonly (readonly number[])[]): number {
    const sets = new WorldSets(new Array<number>(2 * pairs.length).fill(2));
    const both = pairs.map(pair => pair.reduce((set, variable) => sets.and(set, sets.is(variable, 1)), allWorlds));
    return sets.nodeCountOf(both.reduce((set, pair) => sets.or(set, pair), noWorlds));
}
