/** Which mark of an instrument is enough for which place: the categories of IEC 61010-2-030. */
import { describe, expect, test } from 'vitest';
import { categoryRank, serves } from '../../../language/src/core/safety/measurement-category.js';

const mark = (category: string, voltage?: number) => ({ rank: categoryRank(category), voltage });

describe('a category', () => {
    test('ranks by how near it is to the source of the installation', () => {
        // II socket outlets, III distribution of the building, IV source of the installation: from memory.
        const ranks = ['II', 'III', 'IV'].map(categoryRank);
        expect(ranks).toEqual([...ranks].sort());
        expect(new Set(ranks).size).toBe(3);
    });

    test('may be written small, and no other word is one', () => {
        expect(categoryRank('iii')).toBe(categoryRank('III'));
        expect(['V', 'three', ''].map(categoryRank)).toEqual([undefined, undefined, undefined]);
    });
});

describe('an instrument', () => {
    test.each([
        // III 600 V serves II and III up to 600 V, IV serves all: common practice.
        ['III', 600, 'II', 600, true],
        ['III', 600, 'III', 600, true],
        ['III', 600, 'III', 601, false],
        ['III', 600, 'IV', 230, false],
        ['IV', 600, 'II', 600, true],
        ['IV', 300, 'III', 400, false],
        ['II', 1000, 'III', 230, false],
    ] as const)('of category %s %d V for %s %d V: %s', (own, volts, category, voltage, enough) => {
        expect(serves(mark(own, volts), mark(category, voltage))).toBe(enough);
    });

    test('without a voltage is enough only where none is asked for', () => {
        expect(serves(mark('III'), mark('III'))).toBe(true);
        expect(serves(mark('III'), mark('II', 230))).toBe(false);
        expect(serves(mark('III', 300), mark('II'))).toBe(true);
    });

    test('with a mark that is no category serves nowhere', () => {
        expect(serves(mark('V', 600), mark('II', 230))).toBe(false);
        expect(serves(mark('III', 600), mark('V', 230))).toBe(false);
    });
});
