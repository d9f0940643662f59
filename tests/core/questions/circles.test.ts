/** Circles: one for each group of things that lead to each other, as short as can be. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findCircles, type Link } from '../../../language/src/core/questions/circles.js';

type Graph = ReadonlyMap<number, readonly number[]>;

describe('circles', () => {
    test('are not found where nothing comes back', () => {
        expect(
            circlesIn([
                [0, 1],
                [0, 2],
                [1, 2],
            ]),
        ).toEqual([]);
    });

    test('begin at the first of their group and go the shortest way round', () => {
        expect(
            circlesIn([
                [0, 1],
                [1, 2],
                [2, 3],
                [3, 1],
                [2, 1],
            ]),
        ).toEqual([[1, 2]]);
    });

    test('can be of one thing alone', () => {
        expect(
            circlesIn([
                [0, 0],
                [0, 1],
            ]),
        ).toEqual([[0]]);
    });

    test('that are refused make way for another of the group', () => {
        const refused = (circle: readonly Link<number, undefined>[]) => circle.length !== 2;
        expect(
            circlesIn(
                [
                    [0, 1],
                    [1, 0],
                    [1, 2],
                    [2, 0],
                ],
                refused,
            ),
        ).toEqual([[1, 2, 0]]);
    });

    test('of ten thousand things are found', () => {
        const links = Array.from({ length: 10_000 }, (_, index): [number, number] => [index, (index + 1) % 10_000]);
        expect(circlesIn(links)[0]).toHaveLength(10_000);
    });

    test('are found exactly once for each group of things that reach each other', () => {
        const small = fc.integer({ min: 0, max: 7 });
        fc.assert(
            fc.property(fc.array(fc.tuple(small, small), { maxLength: 14 }), links => {
                const circles = circlesIn(links);
                const graph = graphOf(links);
                for (const circle of circles) {
                    // Each leads to the next, and the last to the first.
                    circle.forEach((node, index) => {
                        expect(graph.get(node)).toContain(circle[(index + 1) % circle.length]);
                    });
                    expect(new Set(circle).size).toBe(circle.length);
                }
                const groups = [...graph.keys()].map(node =>
                    [...graph.keys()].filter(other => reaches(graph, node, other) && reaches(graph, other, node)),
                );
                const expected = new Set(groups.filter(group => group.length > 0).map(group => group.join()));
                const found = circles.map(
                    circle => groups.find(group => circle.every(node => group.includes(node)))?.join() ?? 'none',
                );
                expect(found.sort()).toEqual([...expected].sort());
            }),
            { numRuns: 1000 },
        );
    });
});

function circlesIn(
    links: readonly (readonly [number, number])[],
    closes?: (circle: readonly Link<number, undefined>[]) => boolean,
): number[][] {
    const graph = graphOf(links);
    const linksFrom = (from: number) => (graph.get(from) ?? []).map(to => ({ from, by: undefined, to }));
    return findCircles([...graph.keys()], linksFrom, closes).map(circle => circle.map(link => link.from));
}

/** What each thing leads to, for all things that the links name, in the order of their numbers. */
function graphOf(links: readonly (readonly [number, number])[]): Graph {
    const nodes = [...new Set(links.flat())].sort((a, b) => a - b);
    return new Map(nodes.map(node => [node, links.filter(([from]) => from === node).map(([, to]) => to)]));
}

/** Whether one thing leads to another in one or more steps. */
function reaches(graph: Graph, from: number, to: number): boolean {
    const seen = new Set<number>();
    for (const next of graph.get(from) ?? []) seen.add(next);
    // The loop also visits what it adds.
    for (const node of seen) for (const next of graph.get(node) ?? []) seen.add(next);
    return seen.has(to);
}
