/** The map for mostly one entry does what the language's own Map does. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SmallMap } from '../../../language/src/core/walk/small-map.js';

test('holds and gives the same as a Map, in the same order', () => {
    const entries = fc.array(fc.tuple(fc.nat(4), fc.nat(9)), { maxLength: 8 });
    fc.assert(
        fc.property(entries, given => {
            const small = new SmallMap<number, number>();
            const plain = new Map<number, number>();
            for (const [key, value] of given) {
                small.set(key, value);
                plain.set(key, value);
                expect([...small]).toEqual([...plain]);
                expect([...small.keys()]).toEqual([...plain.keys()]);
                expect([...small.values()]).toEqual([...plain.values()]);
                expect(small.size).toBe(plain.size);
            }
            for (let key = 0; key < 5; key += 1) {
                expect(small.get(key)).toBe(plain.get(key));
                expect(small.has(key)).toBe(plain.has(key));
            }
        }),
        { seed: 1 },
    );
});
