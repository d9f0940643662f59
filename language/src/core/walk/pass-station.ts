// Takes crowds through one station a statement at a time, and sorts them by what they show and where they go.

import type { Action, AskAction, DoAction, Route, Station } from '../meaning/route.js';
import type { Go, Tree } from '../model/trees.js';
import type { Crowd, Surroundings } from './changes.js';
import type { Presence } from './presence.js';
import type { WorldSet } from './sets/world-sets.js';
import type { TestAnswers } from './shows.js';
import { isPossible } from './space.js';
import { travelStation } from './travel.js';
import type { Meeting, Sink } from './ways.js';

/** Where somebody comes to. */
export type Place =
    | { readonly sort: 'station'; readonly station: number }
    | { readonly sort: 'end'; readonly end: number }
    | { readonly sort: 'tree'; readonly tree: Tree }
    /** Nothing leads on, or the build lacks what is to be used or come to. */
    | { readonly sort: 'nowhere' };

/** Those who come to one place. */
export interface Leaving {
    readonly to: Place;
    readonly crowds: readonly Crowd[];
}

/** A question with those who are asked it. */
export interface AskedHere {
    readonly action: AskAction;
    /** Everybody who comes to the question. */
    readonly crowds: readonly Crowd[];
    /** By outcome number: where those go who show it. Empty where nobody does. */
    readonly outcomes: readonly (readonly Leaving[])[];
}

/** Something that is done, with those for whom it is done. */
export interface DoneHere {
    readonly action: DoAction;
    readonly crowds: readonly Crowd[];
    /** Where those go for whom it cannot be done, because what it uses is faulty. */
    readonly stuck: readonly Leaving[];
}

/** What becomes of crowds at a station. */
export interface Passed {
    readonly doings: readonly DoneHere[];
    readonly asks: readonly AskedHere[];
    /** Where those go who leave without being asked anything. */
    readonly leavings: readonly Leaving[];
    /** The last action that anybody left by; undefined where all are left standing. */
    readonly last: Action | undefined;
}

/** What passing a station needs. */
export interface Passing {
    readonly route: Route;
    readonly around: Surroundings;
    readonly answers: TestAnswers;
}

/** Takes crowds through a station. */
export function passStation(station: Station, crowds: readonly Crowd[], passing: Passing): Passed {
    const doings: DoneHere[] = [];
    const asks: AskedHere[] = [];
    const leavings = new Leavings(passing.around);
    let last: Action | undefined;
    let going = crowds;
    for (const action of station.actions) {
        if (going.length === 0) break;
        const sorting = new Sorting(passing.around);
        passAction(action, station, going, sorting, passing);
        const left = sorting.leavings.list();
        if (action.sort === 'do') doings.push({ action, crowds: going, stuck: left });
        else leavings.addAll(left);
        if (action.sort === 'ask' && sorting.byOutcome.size > 0) {
            const names = passing.around.space.unit.tests[action.test]?.outcomes ?? [];
            const outcomes = names.map((_, outcome) => sorting.byOutcome.get(outcome)?.list() ?? []);
            asks.push({ action, crowds: going, outcomes });
        }
        if (left.length > 0 || sorting.byOutcome.size > 0) last = action;
        going = sorting.onward.list();
    }
    if (going.length > 0) {
        leavings.addAll([{ to: { sort: 'nowhere' }, crowds: going }]);
        last = undefined;
    }
    return { doings, asks, leavings: leavings.list(), last };
}

/** Where crowds go that leave a station by the first of these exits that their build has. */
export function leaveBy(
    exits: readonly number[],
    station: Station,
    crowds: readonly Crowd[],
    passing: Passing,
): readonly Leaving[] {
    const leavings = new Leavings(passing.around);
    let left = crowds;
    for (const number of exits) {
        const exit = passing.route.exits[number];
        if (!exit || left.length === 0) continue;
        // The exit is taken as if a `go` by itself led there, in the builds that it is for.
        const action: Action = { sort: 'leave', guard: exit.guard, written: nothingWritten, exit: number };
        const sorting = new Sorting(passing.around);
        passAction(action, station, left, sorting, passing);
        leavings.addAll(sorting.leavings.list());
        left = sorting.onward.list();
    }
    if (left.length > 0) leavings.addAll([{ to: { sort: 'nowhere' }, crowds: left }]);
    return leavings.list();
}

const noPlace = { file: '', start: 0, end: 0 };
const nothingWritten: Go = {
    sort: 'go',
    guard: undefined,
    target: { role: 'target', text: '', number: -1, ...noPlace },
    ...noPlace,
};

/** One action of a station by itself: whoever is left standing behind it goes on to the next one. */
function passAction(
    action: Action,
    station: Station,
    crowds: readonly Crowd[],
    sorting: Sorting,
    { route, around, answers }: Passing,
): void {
    const alone: Station = { ...station, actions: [action] };
    for (const crowd of crowds) {
        sorting.outcome = undefined;
        travelStation(alone, crowd, { route, around, answers, sink: sorting });
    }
}

/** Sorts what one action does with crowds. */
class Sorting implements Sink {
    readonly onward: CrowdList;
    readonly byOutcome = new Map<number, Leavings>();
    readonly leavings: Leavings;
    /** What the worlds have shown that leave now; undefined where nothing was asked. */
    outcome: number | undefined;

    constructor(private readonly around: Surroundings) {
        this.onward = new CrowdList(around);
        this.leavings = new Leavings(around);
    }

    asked(_action: AskAction, outcome: number, _presence: Presence, set: WorldSet): void {
        this.outcome = outcome;
        if (!this.byOutcome.has(outcome) && isPossible(set, this.around.space)) {
            this.byOutcome.set(outcome, new Leavings(this.around));
        }
    }

    arrive(station: number, presence: Presence, set: WorldSet): void {
        this.leave({ sort: 'station', station }, presence, set);
    }

    end(end: number, presence: Presence, set: WorldSet): void {
        this.leave({ sort: 'end', end }, presence, set);
    }

    tree({ tree }: Parameters<Sink['tree']>[0], presence: Presence, set: WorldSet): void {
        this.leave({ sort: 'tree', tree }, presence, set);
    }

    meet({ sort, action, presence, set }: Meeting): void {
        if (sort === 'stranded' && action === undefined) this.onward.add(presence, set);
        else if (sort === 'stranded' || sort === 'missing') this.leave({ sort: 'nowhere' }, presence, set);
    }

    exit(): void {
        // Where the exit leads is told next.
    }

    detour(): void {
        // Nothing goes otherwise than told, unless the technician says so.
    }

    private leave(to: Place, presence: Presence, set: WorldSet): void {
        const { outcome } = this;
        const leavings = outcome === undefined ? this.leavings : this.byOutcome.get(outcome);
        leavings?.add(to, presence, set);
    }
}

/** Crowds by the place that they go to. */
class Leavings {
    private readonly places = new Map<string, { readonly to: Place; readonly crowds: CrowdList }>();

    constructor(private readonly around: Surroundings) {}

    add(to: Place, presence: Presence, set: WorldSet): void {
        const key = keyOf(to);
        const known = this.places.get(key) ?? { to, crowds: new CrowdList(this.around) };
        this.places.set(key, known);
        known.crowds.add(presence, set);
    }

    addAll(leavings: readonly Leaving[]): void {
        for (const { to, crowds } of leavings) for (const { presence, set } of crowds) this.add(to, presence, set);
    }

    list(): readonly Leaving[] {
        return [...this.places.values()]
            .map(({ to, crowds }) => ({ to, crowds: crowds.list() }))
            .filter(({ crowds }) => crowds.length > 0);
    }
}

function keyOf(to: Place): string {
    switch (to.sort) {
        case 'station':
            return `station ${to.station}`;
        case 'end':
            return `end ${to.end}`;
        case 'tree':
            return `tree ${to.tree.file} ${to.tree.start}`;
        case 'nowhere':
            return 'nowhere';
    }
}

/** Crowds with each presence once. */
class CrowdList {
    private readonly sets = new Map<Presence, WorldSet>();

    constructor(private readonly around: Surroundings) {}

    add(presence: Presence, set: WorldSet): void {
        const before = this.sets.get(presence);
        this.sets.set(presence, before === undefined ? set : this.around.space.sets.or(before, set));
    }

    /** Those with a world of a build that is made. */
    list(): readonly Crowd[] {
        return [...this.sets]
            .map(([presence, set]) => ({ presence, set }))
            .filter(({ set }) => isPossible(set, this.around.space));
    }
}

/** Crowds with each presence once, limited to a set, without those that have no world there. */
export function limitCrowds(crowds: readonly Crowd[], within: WorldSet, around: Surroundings): readonly Crowd[] {
    const list = new CrowdList(around);
    for (const { presence, set } of crowds) list.add(presence, around.space.sets.and(set, within));
    return list.list();
}

/** Some places with the crowds that go there, limited to a set. */
export function limitLeavings(
    leavings: readonly Leaving[],
    within: WorldSet,
    around: Surroundings,
): readonly Leaving[] {
    return leavings
        .map(({ to, crowds }) => ({ to, crowds: limitCrowds(crowds, within, around) }))
        .filter(({ crowds }) => crowds.length > 0);
}
