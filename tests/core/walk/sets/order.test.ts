/** The order of variables: a good one, the same each time, whatever the groups are. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { orderVariables } from '../../../../language/src/core/walk/sets/order.js';
import { runs } from '../../../property/runs.js';

describe('the order of variables', () => {
    test('is that of their numbers where no group asks for another', () => {
        expect(orderVariables(4, [])).toEqual([0, 1, 2, 3]);
        expect(orderVariables(4, [[2], [], [3, 3]])).toEqual([0, 1, 2, 3]);
        expect(orderVariables(0, [])).toEqual([]);
    });

    test('puts together what is asked about together', () => {
        const groups = [
            [0, 4],
            [1, 5],
            [2, 6],
            [3, 7],
        ];
        const order = orderVariables(8, groups);
        expect(groups.map(group => spanIn(order, group))).toEqual([1, 1, 1, 1]);
    });

    test('straightens a chain that was numbered criss-cross', () => {
        // Around each place the chain goes on at the other end of the numbers.
        const chain = [0, 9, 1, 8, 2, 7, 3, 6, 4, 5];
        const links = chain.slice(1).map((variable, index) => [chain[index] ?? 0, variable]);
        const before = totalSpan(
            chain.map((_, index) => index),
            links,
        );
        expect(totalSpan(orderVariables(10, links), links)).toBeLessThan(before / 2);
    });

    test('is kept when the next pass would stretch the groups again', () => {
        const groups = [
            [0, 3, 1, 5],
            [1, 2],
            [2, 3],
        ];
        const numbers = [0, 1, 2, 3, 4, 5, 6];
        expect(totalSpan(orderVariables(7, groups), groups)).toBeLessThanOrEqual(totalSpan(numbers, groups));
    });

    test('has every variable once, is never worse than that of the numbers, and is the same each time', () => {
        const groupsOf = (count: number) => fc.array(fc.array(fc.nat(count - 1), { maxLength: 5 }), { maxLength: 12 });
        const cases = fc.integer({ min: 1, max: 14 }).chain(count => fc.tuple(fc.constant(count), groupsOf(count)));
        fc.assert(
            fc.property(cases, ([count, groups]) => {
                const numbers = Array.from({ length: count }, (_, index) => index);
                const order = orderVariables(count, groups);
                expect([...order].sort((a, b) => a - b)).toEqual(numbers);
                expect(totalSpan(order, groups)).toBeLessThanOrEqual(totalSpan(numbers, groups));
                expect(orderVariables(count, groups)).toEqual(order);
            }),
            runs(300),
        );
    });
});

function totalSpan(order: readonly number[], groups: readonly (readonly number[])[]): number {
    return groups.reduce((sum, group) => sum + spanIn(order, group), 0);
}

function spanIn(order: readonly number[], group: readonly number[]): number {
    const places = group.map(variable => order.indexOf(variable));
    return group.length === 0 ? 0 : Math.max(...places) - Math.min(...places);
}
