/** Where cards stand: nothing overlaps, parents stand over their children, and the drawing is no wider than it must be. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CardBox, placeCards } from '../../language/src/drawing/place-cards.js';

const gaps = { side: 10, layer: 20 };

/** Boxes out of the number of the parent of each, and their sizes; a parent of -1 makes a root. */
function makeBoxes(cards: readonly { readonly parent: number; readonly width?: number; readonly height?: number }[]) {
    const children: number[][] = cards.map(() => []);
    const depths: number[] = [];
    const roots: number[] = [];
    cards.forEach(({ parent }, index) => {
        depths.push(parent < 0 ? 0 : (depths[parent] ?? 0) + 1);
        if (parent < 0) roots.push(index);
        else children[parent]?.push(index);
    });
    const boxes = cards.map(({ width = 100, height = 50 }, index): CardBox => {
        return { width, height, depth: depths[index] ?? 0, children: children[index] ?? [] };
    });
    return { boxes, roots };
}

const forest = fc
    .array(
        fc.record({
            parent: fc.nat(),
            width: fc.integer({ min: 1, max: 300 }),
            height: fc.integer({ min: 1, max: 90 }),
        }),
        {
            minLength: 1,
            maxLength: 60,
        },
    )
    // A parent stands before its children; now and then a card has none.
    .map(cards => cards.map((card, index) => ({ ...card, parent: (card.parent % (index + 1)) - 1 })));

describe('by the numbers', () => {
    test('one card stands in the corner', () => {
        const { boxes, roots } = makeBoxes([{ parent: -1 }]);
        expect(placeCards(boxes, roots, gaps)).toEqual({
            places: [{ x: 0, y: 0, layerEnd: 50 }],
            width: 100,
            height: 50,
        });
    });

    test('a parent stands over the middle of its children', () => {
        const { boxes, roots } = makeBoxes([{ parent: -1 }, { parent: 0 }, { parent: 0 }]);
        const { places, width, height } = placeCards(boxes, roots, gaps);
        expect(places.map(({ x, y }) => [x, y])).toEqual([
            [55, 0],
            [0, 70],
            [110, 70],
        ]);
        expect([width, height]).toEqual([210, 120]);
    });

    test('a layer is as high as its tallest card', () => {
        const { boxes, roots } = makeBoxes([{ parent: -1 }, { parent: 0, height: 80 }, { parent: 0 }, { parent: 2 }]);
        const { places } = placeCards(boxes, roots, gaps);
        expect(places.map(({ y, layerEnd }) => [y, layerEnd])).toEqual([
            [0, 50],
            [70, 150],
            [70, 150],
            [170, 220],
        ]);
    });

    test('a narrow subtree stands under the gap beside a wide card', () => {
        const { boxes, roots } = makeBoxes([
            { parent: -1, width: 100 },
            { parent: 0, width: 300 },
            { parent: 0 },
            { parent: 2 },
            { parent: 2 },
        ]);
        const { places, width } = placeCards(boxes, roots, gaps);
        // The two lowest cards reach below the wide one, so the drawing is no wider than the layer above them.
        expect(width).toBe(300 + 10 + 100 + 55);
        expect((places[3]?.x ?? 0) < 300).toBe(true);
    });
});

describe('always', () => {
    test('no two cards of a layer overlap or touch', () => {
        fc.assert(
            fc.property(forest, cards => {
                const { boxes, roots } = makeBoxes(cards);
                const { places } = placeCards(boxes, roots, gaps);
                const byLayer = boxes
                    .map((box, index) => ({ depth: box.depth, left: places[index]?.x ?? 0, width: box.width }))
                    .sort((a, b) => a.depth - b.depth || a.left - b.left);
                byLayer.slice(1).forEach((card, index) => {
                    const before = byLayer[index];
                    if (before?.depth !== card.depth) return;
                    expect(card.left - (before.left + before.width)).toBeGreaterThanOrEqual(gaps.side - 1e-6);
                });
            }),
        );
    });

    test('children stand in their order, their middle below their parent', () => {
        fc.assert(
            fc.property(forest, cards => {
                const { boxes, roots } = makeBoxes(cards);
                const { places } = placeCards(boxes, roots, gaps);
                const center = (index: number) => (places[index]?.x ?? 0) + (boxes[index]?.width ?? 0) / 2;
                boxes.forEach(({ children }, index) => {
                    const centers = children.map(center);
                    expect(centers).toEqual([...centers].sort((a, b) => a - b));
                    const [first, last] = [centers[0], centers.at(-1)];
                    if (first !== undefined && last !== undefined) {
                        expect(center(index)).toBeCloseTo((first + last) / 2, 6);
                    }
                });
            }),
        );
    });

    test('everything lies within the size, and touches its edges', () => {
        fc.assert(
            fc.property(forest, cards => {
                const { boxes, roots } = makeBoxes(cards);
                const { places, width, height } = placeCards(boxes, roots, gaps);
                const lefts = places.map(({ x }) => x);
                const rights = places.map(({ x }, index) => x + (boxes[index]?.width ?? 0));
                const ends = places.map(({ y }, index) => y + (boxes[index]?.height ?? 0));
                expect(Math.min(...lefts)).toBeCloseTo(0, 6);
                expect(Math.max(...rights)).toBeCloseTo(width, 6);
                expect(Math.max(...ends)).toBeCloseTo(height, 6);
            }),
        );
    });

    test('a long chain and a wide fan take no long time', () => {
        const many = 20_000;
        const chain = makeBoxes(Array.from({ length: many }, (_, index) => ({ parent: index - 1 })));
        expect(placeCards(chain.boxes, chain.roots, gaps).width).toBe(100);
        const fan = makeBoxes(Array.from({ length: many }, (_, index) => ({ parent: index === 0 ? -1 : 0 })));
        expect(placeCards(fan.boxes, fan.roots, gaps).width).toBe((many - 1) * 110 - 10);
    });
});

test('nothing at all has no size', () => {
    expect(placeCards([], [], gaps)).toEqual({ places: [], width: 0, height: 0 });
});
