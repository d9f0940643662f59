// A unit in one build and one state, and the two rules for looking at its flows: each once, and none within itself.

import type { PartialBuild } from '../builds/evaluate.js';
import type { ShownEffect, Unit, UnitFlow } from '../meaning/unit.js';
import type { UnitPoint } from './layout.js';
import type { State } from './state.js';

/** What a flow or a point of it carries of the faults. */
export type Effects = ReadonlySet<ShownEffect>;

export const noEffects: Effects = new Set();

/** The effects of all of these. */
export function joined(...effects: readonly Effects[]): Effects {
    let all = noEffects;
    for (const one of effects) {
        // Nearly always nothing is felt, or one of them alone.
        if (all.size === 0) all = one;
        else if (one.size > 0) all = new Set([...all, ...one]);
    }
    return all;
}

export interface Situation {
    readonly unit: Unit;
    readonly build: PartialBuild;
    readonly state: State;
    /** Which flows are dead at their end. */
    readonly dead: Book<boolean>;
    /** By flow, which of its points are dead. */
    readonly deadPoints: Map<UnitFlow, ReadonlyMap<UnitPoint, boolean>>;
    /** What has been looked for, by the faults. */
    readonly views: Map<ReadonlySet<number>, View>;
}

/** The last situation in each build: mostly several questions are asked of one state. */
const lastSituations = new WeakMap<PartialBuild, Situation>();

/** The unit as it is in a state; what is found out about it is remembered until another state of the build is looked at. */
export function situationOf(unit: Unit, build: PartialBuild, state: State): Situation {
    const last = lastSituations.get(build);
    if (last?.unit === unit && last.state === state) return last;
    const situation: Situation = {
        unit,
        build,
        state,
        dead: newBook(),
        deadPoints: new Map(),
        views: new Map(),
    };
    lastSituations.set(build, situation);
    return situation;
}

/** A situation with the faults whose effects are looked for. */
export interface View extends Situation {
    readonly faults: ReadonlySet<number>;
    readonly ends: Book<Effects>;
    readonly backward: Book<Effects>;
}

/** Looks at a situation for the effects of some faults. */
export function viewOf(situation: Situation, faults: ReadonlySet<number>): View {
    let view = situation.views.get(faults);
    if (!view) {
        view = { ...situation, faults, ends: newBook(), backward: newBook() };
        situation.views.set(faults, view);
    }
    return view;
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
