// Where the cards of a drawing stand: in layers from the top, each parent over what it leads to, nothing overlapping.

/** The size of a card, and the cards that it leads to, from left to right. */
export interface CardBox {
    readonly width: number;
    readonly height: number;
    readonly depth: number;
    readonly children: readonly number[];
}

/** Where cards stand: the left upper corner of each, and the whole size. All in the unit of the boxes. */
export interface Placement {
    readonly places: readonly CardPlace[];
    readonly width: number;
    readonly height: number;
}

export interface CardPlace {
    readonly x: number;
    readonly y: number;
    /** The lower edge of the tallest card of the same layer. */
    readonly layerEnd: number;
}

/**
 * Packs the cards as closely as the layers allow: two subtrees may stand under each other's gaps.
 * Children come after their parents in `boxes`, and each card has at most one parent. It takes time in proportion to the cards.
 */
export function placeCards(
    boxes: readonly CardBox[],
    roots: readonly number[],
    gaps: { readonly side: number; readonly layer: number },
): Placement {
    const packs: (Pack | undefined)[] = [];
    // How far the center of each card stands from that of its parent.
    const offsets: number[] = boxes.map(() => 0);
    for (let index = boxes.length - 1; index >= 0; index -= 1) {
        packs[index] = packCard(boxes, index, packs, offsets, gaps.side);
    }
    const all = packSideBySide(roots, packs, offsets, gaps.side);
    const centers = offsets;
    // Parents come first, so one pass adds up the offsets.
    boxes.forEach((box, index) => {
        for (const child of box.children) centers[child] = (centers[child] ?? 0) + (centers[index] ?? 0);
    });
    const left = all?.left.reduce((least, x) => Math.min(least, x + all.shift), Number.POSITIVE_INFINITY) ?? 0;
    const right = all?.right.reduce((most, x) => Math.max(most, x + all.shift), Number.NEGATIVE_INFINITY) ?? 0;
    const layers = stackLayers(boxes, gaps.layer);
    return {
        places: boxes.map((box, index) => {
            const { start = 0, end = 0 } = layers[box.depth] ?? {};
            return { x: (centers[index] ?? 0) - box.width / 2 - left, y: start, layerEnd: end };
        }),
        width: right - left,
        height: layers.at(-1)?.end ?? 0,
    };
}

/**
 * How far a subtree reaches to the left and to the right in each layer; the lists are counted by layer, from `top`.
 * `shift` is added to what the lists say, so that moving a subtree costs nothing.
 */
interface Pack {
    readonly left: number[];
    readonly right: number[];
    top: number;
    shift: number;
}

function packCard(
    boxes: readonly CardBox[],
    index: number,
    packs: readonly (Pack | undefined)[],
    offsets: number[],
    gap: number,
): Pack {
    const { width = 0, depth = 0, children = [] } = boxes[index] ?? {};
    const pack = packSideBySide(children, packs, offsets, gap) ?? { left: [], right: [], top: depth, shift: 0 };
    const first = offsets[children[0] ?? -1] ?? 0;
    const last = offsets[children.at(-1) ?? -1] ?? 0;
    const center = (first + last) / 2;
    for (const child of children) offsets[child] = (offsets[child] ?? 0) - center;
    pack.shift -= center;
    pack.top = depth;
    pack.left[depth] = -width / 2 - pack.shift;
    pack.right[depth] = width / 2 - pack.shift;
    return pack;
}

/** Puts subtrees beside each other and notes how far each had to move; undefined where there are none. */
function packSideBySide(
    cards: readonly number[],
    packs: readonly (Pack | undefined)[],
    offsets: number[],
    gap: number,
): Pack | undefined {
    let together: Pack | undefined;
    for (const card of cards) {
        const pack = packs[card];
        if (pack === undefined) continue;
        if (together === undefined) {
            together = pack;
            continue;
        }
        const move = distanceNeeded(together, pack, gap);
        offsets[card] = move;
        pack.shift += move;
        together = unite(together, pack);
    }
    return together;
}

function distanceNeeded(before: Pack, after: Pack, gap: number): number {
    let needed = Number.NEGATIVE_INFINITY;
    const end = Math.min(before.left.length, after.left.length);
    for (let layer = Math.max(before.top, after.top); layer < end; layer += 1) {
        const reach = (before.right[layer] ?? 0) + before.shift;
        needed = Math.max(needed, reach + gap - ((after.left[layer] ?? 0) + after.shift));
    }
    return Number.isFinite(needed) ? needed : 0;
}

/** Adds the shorter pack to the deeper one. */
function unite(one: Pack, other: Pack): Pack {
    const [deep, short] = one.left.length >= other.left.length ? [one, other] : [other, one];
    for (let layer = short.top; layer < short.left.length; layer += 1) {
        const left = (short.left[layer] ?? 0) + short.shift - deep.shift;
        const right = (short.right[layer] ?? 0) + short.shift - deep.shift;
        deep.left[layer] = Math.min(deep.left[layer] ?? left, left);
        deep.right[layer] = Math.max(deep.right[layer] ?? right, right);
    }
    deep.top = Math.min(deep.top, short.top);
    return deep;
}

function stackLayers(
    boxes: readonly CardBox[],
    gap: number,
): readonly { readonly start: number; readonly end: number }[] {
    const heights: number[] = [];
    for (const { depth, height } of boxes) heights[depth] = Math.max(heights[depth] ?? 0, height);
    let next = 0;
    return heights.map(height => {
        const start = next;
        next += height + gap;
        return { start, end: start + height };
    });
}
