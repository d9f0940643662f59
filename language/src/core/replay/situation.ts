// A unit in one build and one state, and the two rules for looking at its flows: each once, and none within itself.

import type { PartialBuild } from '../builds/evaluate.js';
import type { ShownEffect, Unit } from '../meaning/unit.js';
import type { State } from './state.js';

/** What a flow or a point of it carries of the faults. */
export type Effects = ReadonlySet<ShownEffect>;

export const noEffects: Effects = new Set();

/** The effects of all of these. */
export function joined(...effects: readonly Effects[]): Effects {
    // Nearly always nothing is felt, or one of them alone.
    const felt = effects.filter(one => one.size > 0);
    const [only] = felt;
    if (felt.length <= 1) return only ?? noEffects;
    return new Set(felt.flatMap(one => [...one]));
}

export interface Situation {
    readonly unit: Unit;
    readonly build: PartialBuild;
    readonly state: State;
    /** Which flows are dead at their end. */
    readonly dead: Book<boolean>;
}

/** The unit as it is in a state. */
export function situationOf(unit: Unit, build: PartialBuild, state: State): Situation {
    return { unit, build, state, dead: newBook() };
}

/** A situation with the faults whose effects are looked for. */
export interface View extends Situation {
    readonly faults: ReadonlySet<number>;
    readonly ends: Book<Effects>;
    readonly backward: Book<Effects>;
}

/** Looks at a situation for the effects of some faults. */
export function viewOf(situation: Situation, faults: ReadonlySet<number>): View {
    return { ...situation, faults, ends: newBook(), backward: newBook() };
}

/** What is known of the flows so far, by their numbers, and which of them are being looked at. */
export interface Book<T> {
    readonly known: Map<number, T>;
    readonly open: Set<number>;
    /** How often a flow was met within itself. */
    circles: number;
}

function newBook<T>(): Book<T> {
    return { known: new Map(), open: new Set(), circles: 0 };
}

/** Looks at a flow; one that is being looked at already gives nothing. */
export function lookOnce<T>(book: Book<T>, flow: number, nothing: T, look: () => T): T {
    if (book.open.has(flow)) {
        book.circles += 1;
        return nothing;
    }
    const known = book.known.get(flow);
    if (known !== undefined) return known;
    const before = book.circles;
    book.open.add(flow);
    const found = look();
    book.open.delete(flow);
    // What a circle has cut short holds only for the way that led here; where very many do, looking would never end.
    const cut = book.circles - before;
    if (cut === 0 || cut > mostCircles) book.known.set(flow, found);
    return found;
}

/** More ways round than any equipment has whose flows feed each other by mistake. */
const mostCircles = 200;

/** Looks along a flow for its points: that too is looking at it. */
export function lookAlong(book: Book<unknown>, flow: number, look: () => void): void {
    book.open.add(flow);
    look();
    book.open.delete(flow);
}
