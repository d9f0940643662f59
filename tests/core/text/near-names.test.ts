/** Names near a mistyped one, checked against a plain recursive definition of the distance. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nearNames, slipsBetween } from '../../../language/src/core/text/near-names.js';

describe('near names', () => {
    test.each([
        ['chekc-fuse', ['check-fuse', 'check-pump'], ['check-fuse']],
        ['Check-Fuse', ['check-fuse'], ['check-fuse']],
        ['fuze', ['fuse', 'hose', 'relay'], ['fuse']],
        ['contacter', ['contactor', 'contact', 'conductor'], ['contactor', 'contact', 'conductor']],
        ['pump', ['valve', 'motor'], []],
        ['a', ['b', 'c'], []],
        ['k1', ['k2', 'k3', 'k10', 'm5'], ['k10', 'k2', 'k3']],
        ['fuse', ['fuse'], []],
        ['fuse', ['FUSE', 'fuse', 'fuses'], ['FUSE', 'fuses']],
        ['', ['a'], []],
        ['pump', [], []],
    ])('of %j among %j are %j', (name, candidates, near) => {
        expect(nearNames(name, candidates)).toEqual(near);
    });

    test('are at most three, each once, the nearest first', () => {
        expect(nearNames('relay-01', ['relay-99', 'relay-02', 'relay-03', 'relay-02', 'relay-04', 'relay-1'])).toEqual([
            'relay-02',
            'relay-03',
            'relay-04',
        ]);
    });

    test('are the same whatever order the candidates come in', () => {
        fc.assert(
            fc.property(word, fc.array(word, { maxLength: 12 }), (name, candidates) => {
                expect(nearNames(name, [...candidates].reverse())).toEqual(nearNames(name, candidates));
            }),
        );
    });

    test('leave out no candidate that is near enough', () => {
        fc.assert(
            fc.property(word, word, (name, candidate) => {
                const allowed = Math.min(3, Math.floor((name.length + 1) / 3));
                const isNear = name !== candidate && plainDistance(name, candidate) <= allowed;
                expect(nearNames(name, [candidate])).toEqual(isNear ? [candidate] : []);
            }),
        );
    });

    test('are found among ten thousand in a blink', () => {
        const candidates = Array.from(
            { length: 10_000 },
            (_, index) => `${['pump', 'valve', 'motor', 'relay'][index % 4] ?? ''}-check-${index}`,
        );
        const start = performance.now();
        for (let round = 0; round < 10; round += 1) {
            expect(nearNames('vlave-chek-4321', candidates)).toContain('valve-check-4321');
        }
        // Many times what is measured; without the quick dismissal of unlike names it would take far longer.
        expect(performance.now() - start).toBeLessThan(1_500);
    });
});

describe('the number of slips', () => {
    test.each([
        // Levenshtein's classic pair, from memory; the swap is Damerau's.
        ['kitten', 'sitting', 3],
        ['relay', 'realy', 1],
        ['ab', 'ba', 1],
        // The restricted distance does not edit what it has swapped: 3, where the unrestricted one is 2.
        ['ca', 'abc', 3],
        ['', 'abc', 3],
        ['same', 'same', 0],
    ])('between %s and %s is %i', (a, b, distance) => {
        expect(slipsBetween(a, b, 5)).toBe(distance);
        expect(slipsBetween(b, a, 5)).toBe(distance);
    });

    test('is that of the definition, up to the limit', () => {
        fc.assert(
            fc.property(word, word, fc.integer({ min: 0, max: 4 }), (a, b, limit) => {
                expect(slipsBetween(a, b, limit)).toBe(Math.min(plainDistance(a, b), limit + 1));
            }),
        );
    });
});

const word = fc.stringMatching(/^[abc]{0,8}$/);

// The textbook recursion of the restricted Damerau-Levenshtein distance, with nothing left out.
function plainDistance(a: string, b: string): number {
    if (a === '' || b === '') {
        return a.length + b.length;
    }
    if (a[0] === b[0]) {
        return plainDistance(a.slice(1), b.slice(1));
    }
    const swapped = a.length > 1 && b.length > 1 && a[0] === b[1] && a[1] === b[0];
    return (
        1 +
        Math.min(
            plainDistance(a.slice(1), b),
            plainDistance(a, b.slice(1)),
            plainDistance(a.slice(1), b.slice(1)),
            swapped ? plainDistance(a.slice(2), b.slice(2)) : Number.POSITIVE_INFINITY,
        )
    );
}
