// The state in which one tree hands over to another, as plain data that JSON can hold.

import type { State } from './state.js';
import type { Tree } from './tree.js';

/** What the next tree is to know. */
export interface HandedOver {
    /** Conditions that have been set, with their values. */
    readonly conditions: Readonly<Record<string, string>>;
    readonly closed: readonly string[];
    readonly safe: readonly string[];
    /** Readings in units of the SI as fractions, such as `12/5`; an empty text for one that was taken without a number. */
    readonly readings: Readonly<Record<string, string>>;
}

export function handedOver({ conditions, closed, safe, readings }: State): HandedOver {
    return {
        conditions: Object.fromEntries(conditions),
        closed,
        safe: [...safe],
        readings: Object.fromEntries(
            [...readings].map(([test, value]) => [test, value ? `${value.n}/${value.d}` : '']),
        ),
    };
}

/** The state, with only what this tree knows of; undefined where the data is none. */
export function takenOver(data: unknown, tree: Tree): State | undefined {
    const [conditions, closed, safe, readings] = ['conditions', 'closed', 'safe', 'readings'].map(name =>
        own(data, name),
    );
    const set = textsIn(conditions);
    const noted = textsIn(readings);
    if (!set || !noted || !isTexts(closed) || !isTexts(safe)) return undefined;
    if (!noted.every(([, text]) => text === '' || fraction.test(text))) return undefined;
    return {
        conditions: new Map(
            set.filter(([id, value]) => tree.conditions.get(id)?.values.some(one => one.id === value) ?? false),
        ),
        closed: [...new Set(closed)].filter(id => tree.gates.has(id)),
        safe: new Set(safe.filter(id => tree.hazards.has(id))),
        readings: new Map(noted.filter(([id]) => tree.tests.has(id)).map(([id, text]) => [id, fractionIn(text)])),
    };
}

const fraction = /^(-?\d{1,500})\/([1-9]\d{0,499})$/;

function fractionIn(text: string) {
    const parts = fraction.exec(text);
    return parts ? { n: BigInt(parts[1] ?? 0), d: BigInt(parts[2] ?? 1) } : undefined;
}

function own(data: unknown, name: string): unknown {
    if (typeof data !== 'object' || data === null || !Object.hasOwn(data, name)) return undefined;
    return (data as Record<string, unknown>)[name];
}

function isTexts(value: unknown): value is readonly string[] {
    return Array.isArray(value) && value.every(one => typeof one === 'string');
}

function textsIn(value: unknown): readonly (readonly [string, string])[] | undefined {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return undefined;
    const entries = Object.entries(value);
    return entries.every((entry): entry is [string, string] => typeof entry[1] === 'string') ? entries : undefined;
}
