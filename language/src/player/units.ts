// Units of readings, by the list that the document carries.

import type { Quantity } from '../document/types.js';
import { add, divide, multiply, type Rational, rational, subtract, zero } from './rational.js';
import type { Tree } from './tree.js';

/** A value in the coherent unit of the SI. */
export interface Coherent {
    readonly value: Rational;
    /** What it measures; values can be compared where this is the same. */
    readonly dimension: string;
}

interface Scale {
    readonly dimension: string;
    readonly factor: Rational;
    readonly offset: Rational;
}

const scales = new WeakMap<Tree, ReadonlyMap<string, Scale>>();

function scalesOf(tree: Tree): ReadonlyMap<string, Scale> {
    const known = scales.get(tree);
    if (known) return known;
    const made = new Map<string, Scale>([['1', { dimension: 'ratio', factor: one, offset: zero }]]);
    for (const { code, dimension, factor, divisor, offset } of tree.document.units ?? []) {
        const size = divide(rational(factor), rational(divisor ?? 1));
        if (size && size.n !== 0n) made.set(code, { dimension, factor: size, offset: rational(offset ?? 0) });
    }
    scales.set(tree, made);
    return made;
}

const one = rational(1);

/** Prefixes of the SI that a reading may have where its unit is in the list without, or with another one. */
const prefixes: Readonly<Record<string, number>> = {
    G: 9,
    M: 6,
    k: 3,
    h: 2,
    d: -1,
    c: -2,
    m: -3,
    u: -6,
    n: -9,
    p: -12,
};

/** A unit in the list, or one of the list with another prefix; undefined for any other. */
function scaleOf(code: string, tree: Tree): Scale | undefined {
    const listed = scalesOf(tree);
    const found = listed.get(code);
    if (found) return found;
    const power = prefixes[code.slice(0, 1)];
    const plain =
        power === undefined || !Object.hasOwn(prefixes, code.slice(0, 1)) ? undefined : listed.get(code.slice(1));
    // Only what is a unit by itself takes a prefix: neither `%` nor a product, and no scale with a zero of its own.
    if (power === undefined || !plain || plain.offset.n !== 0n || !/^[A-Za-z]+$/.test(code)) return undefined;
    return { ...plain, factor: multiply(plain.factor, rational(10 ** power)) };
}

/**
 * A number in the coherent unit. A unit that the document does not list is taken as one of its own, so that equal codes can
 * still be compared. `asDifference` is for differences, to which the zero of a scale is nothing.
 */
export function toCoherent(value: number, code: string, asDifference: boolean, tree: Tree): Coherent {
    const scale = scaleOf(code, tree);
    const number = rational(value);
    if (!scale) return { value: number, dimension: `unit ${code}` };
    const counted = asDifference ? number : add(number, scale.offset);
    return { value: multiply(counted, scale.factor), dimension: scale.dimension };
}

/** A coherent value in this unit; undefined where the unit measures something else. */
export function fromCoherent(value: Coherent, code: string, asDifference: boolean, tree: Tree): Rational | undefined {
    const scale = scaleOf(code, tree);
    if (!scale) return value.dimension === `unit ${code}` ? value.value : undefined;
    if (scale.dimension !== value.dimension) return undefined;
    const number = divide(value.value, scale.factor);
    return number && (asDifference ? number : subtract(number, scale.offset));
}

/** A quantity of the document in its coherent unit. */
export function coherentQuantity({ value, unit }: Quantity, asDifference: boolean, tree: Tree): Coherent {
    return toCoherent(value, unit, asDifference, tree);
}
