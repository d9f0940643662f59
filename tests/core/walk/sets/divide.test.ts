/** A set divided by another: the parts are those of the single operations, and together they are the set again. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { WorldSets } from '../../../../language/src/core/walk/sets/world-sets.js';

const sizes = [2, 3, 2, 4, 2];
const values = sizes.map(size => fc.nat(size - 1));
const worlds = fc.array(fc.tuple(...values), { maxLength: 12 });

function setOf(list: readonly (readonly number[])[], sets: WorldSets): number {
    return list.reduce(
        (any, world) =>
            sets.or(
                any,
                world.reduce((all, value, variable) => sets.and(all, sets.is(variable, value)), 1),
            ),
        0,
    );
}

test('gives what lies inside and outside, and knows what both make together', () => {
    fc.assert(
        fc.property(fc.array(fc.tuple(worlds, worlds), { minLength: 1, maxLength: 6 }), pairs => {
            const sets = new WorldSets(sizes);
            // Another table, in which nothing was divided.
            const plain = new WorldSets(sizes);
            for (const [one, other] of pairs) {
                const [a, b] = [setOf(one, sets), setOf(other, sets)];
                const { inside, outside } = sets.divide(a, b);
                expect([...sets.worlds(inside)]).toEqual([
                    ...plain.worlds(plain.and(setOf(one, plain), setOf(other, plain))),
                ]);
                expect([...sets.worlds(outside)]).toEqual([
                    ...plain.worlds(plain.without(setOf(one, plain), setOf(other, plain))),
                ]);
                expect(sets.or(inside, outside)).toBe(a);
                expect(sets.or(outside, inside)).toBe(a);
                expect(sets.and(inside, outside)).toBe(0);
            }
        }),
        { seed: 1 },
    );
});
