// Goes through a tree as a technician would, answer by answer, and knows at every question who is still possible.
//
// A position never changes: an answer gives a new one that remembers the one before it, so that going back is taking that.

import type { Action, AskAction, DoAction, Route, RouteEnd, Station } from '../meaning/route.js';
import type { UnitTest } from '../meaning/unit.js';
import type { Tree } from '../model/trees.js';
import type { WalkedTree } from '../questions/walks.js';
import { arrivalsOf } from './arrivals.js';
import type { Crowd } from './changes.js';
import { buildsWithChoice, type ChoiceMade, choicesThatDivide } from './choose-build.js';
import {
    type AskedHere,
    type DoneHere,
    leaveBy,
    type Leaving,
    limitCrowds,
    limitLeavings,
    type Passed,
    type Passing,
    passStation,
    type Place,
} from './pass-station.js';
import { allWorlds, noWorlds, TooManyNodes, type WorldSet } from './sets/world-sets.js';
import { buildsWhere } from './space.js';
import { exitsFor } from './ways.js';
import type { RouteWalk } from './walk-route.js';
import type { TreeWalk } from './walks.js';

/** What stays the same on one way through a tree. */
export interface Beginning {
    readonly walked: WalkedTree;
    /** The walk with those who come with the tree's own complaint, not those whom another tree hands over. */
    readonly walk: RouteWalk;
    /** The builds that the technician has said the unit may have. */
    readonly within: WorldSet;
}

/** Where the technician stands, and how that came about. */
export interface Position {
    readonly beginning: Beginning;
    /** The tree that is gone through now: another one after `continue with`. */
    readonly tree: Tree;
    readonly route: Route;
    /** The stations since the last answer, in order; none where only the build has been asked. */
    readonly visits: readonly Visit[];
    readonly next: Next;
    /** Those who come here. Where nobody is left, stand-ins show where the tree leads the builds that remain. */
    readonly crowds: readonly Crowd[];
    /** False after an answer that nobody shows who was still possible. */
    readonly isAnybodyLeft: boolean;
    /** The answer that led here, and where it was given; undefined at the start. */
    readonly answered: { readonly before: Position; readonly answer: Answer } | undefined;
}

/** A station that is passed or stood at. */
export interface Visit {
    readonly tree: Tree;
    readonly route: Route;
    readonly station: Station;
    readonly crowds: readonly Crowd[];
    /** The action by which the station is left: nothing behind it is done. */
    readonly last: Action | undefined;
}

/** What comes next. */
export type Next =
    | {
          readonly sort: 'test';
          readonly action: AskAction;
          readonly test: UnitTest;
          /** Those who are asked, as everything that is done before has left them. */
          readonly crowds: readonly Crowd[];
          readonly answers: readonly Answer[];
      }
    /** Whether something can be done, where that depends on what is faulty. */
    | { readonly sort: 'doing'; readonly answers: readonly Answer[] }
    /** The way on depends on the build. `station` is the one whose actions do; undefined where the last answer leads on in several ways. */
    | { readonly sort: 'build'; readonly station: Station | undefined; readonly answers: readonly Answer[] }
    | { readonly sort: 'end'; readonly end: RouteEnd }
    /** A tree that has no steps. */
    | { readonly sort: 'tree'; readonly tree: Tree }
    | { readonly sort: 'nowhere' }
    /** The same stations come round again without a question. */
    | { readonly sort: 'circle' }
    /** The tree is not for any of the builds. */
    | { readonly sort: 'nobody' }
    /** The sets of worlds have grown beyond their budget. */
    | { readonly sort: 'undecided' };

/** What the technician may say. */
export type Answer = {
    /** As it is said: the name of an outcome or a choice, or a few plain words. */
    readonly name: string;
    /** Whether anybody who is still possible may answer so. */
    readonly isShown: boolean;
    /** Whether something does not go as told, which rules nobody out. */
    readonly isDetour: boolean;
    readonly leavings: readonly Leaving[];
} & (
    | { readonly sort: 'outcome'; readonly outcome: number }
    | { readonly sort: 'cannot be read' | 'done' }
    | { readonly sort: 'cannot be done'; readonly action: DoAction }
    | { readonly sort: 'choice'; readonly made: ChoiceMade }
);

/** Begins a tree, with every unit that comes with its complaint and has one of the builds. */
export function beginAt(walked: WalkedTree, within: WorldSet = allWorlds): Position {
    const { route, walk, tree, all } = walked;
    const begin = (arrivals: readonly Crowd[]): Arriving => ({
        beginning: { walked, walk: { ...walk, arrivals }, within },
        ...{ tree, route, isAnybodyLeft: true, answered: undefined },
    });
    const stand = (arriving: Arriving, sort: 'nobody' | 'undecided'): Position => ({
        ...arriving,
        ...{ visits: [], next: { sort }, crowds: [], isAnybodyLeft: false },
    });
    return unlessTooLarge(
        () => {
            const own = arrivalsOf(route, all.around, all.answers);
            // A tree may be there only for what others hand over to it.
            const comesWithFault = own.some(({ presence }) => presence.arrival.length > 0);
            const arriving = begin(comesWithFault ? own : walk.arrivals);
            const crowds = limitCrowds(arriving.beginning.walk.arrivals, within, all.around);
            if (crowds.length === 0) return stand(arriving, 'nobody');
            return arriveAt({ to: { sort: 'station', station: 0 }, crowds }, arriving);
        },
        () => stand(begin(walk.arrivals), 'undecided'),
    );
}

/** Gives an answer that the position offers. */
export function takeAnswer(position: Position, answer: Answer): Position {
    const { beginning, tree, route } = position;
    const isAnybodyLeft = position.isAnybodyLeft && answer.isShown;
    const arriving: Arriving = { beginning, tree, route, isAnybodyLeft, answered: { before: position, answer } };
    const { around } = beginning.walked.all;
    const crowds = answer.leavings.flatMap(leaving => leaving.crowds);
    return unlessTooLarge(
        () => {
            const [only, second] = answer.leavings;
            if (!only) return { ...arriving, visits: [], next: { sort: 'nowhere' }, crowds };
            if (!second) return arriveAt(only, arriving);
            const groups = answer.leavings.map(leaving => unionOf(leaving.crowds, beginning));
            const answers = choiceAnswers(groups, isAnybodyLeft, beginning, builds =>
                limitLeavings(answer.leavings, builds, around),
            );
            return { ...arriving, visits: [], next: { sort: 'build', station: undefined, answers }, crowds };
        },
        () => ({ ...arriving, visits: [], next: { sort: 'undecided' }, crowds }),
    );
}

/** What may be answered at a position; nothing where the way has ended. */
export function answersAt({ next }: Position): readonly Answer[] {
    return 'answers' in next ? next.answers : [];
}

/** The sets of worlds of a large tree may outgrow their budget at any step. */
function unlessTooLarge(work: () => Position, instead: () => Position): Position {
    try {
        return work();
    } catch (problem) {
        if (problem instanceof TooManyNodes) return instead();
        throw problem;
    }
}

type Arriving = Pick<Position, 'beginning' | 'tree' | 'route' | 'isAnybodyLeft' | 'answered'>;

/** Goes on from a place to the next question or to where the way ends. */
function arriveAt(leaving: Leaving, arriving: Arriving): Position {
    const visits: Visit[] = [];
    const doings: DoneOnTheWay[] = [];
    const seen = new Set<string>();
    let { to, crowds } = leaving;
    let { tree, route } = arriving;
    const stop = (next: Next): Position => ({ ...arriving, tree, route, visits, crowds, next });
    for (;;) {
        if (to.sort === 'tree') {
            const other = treeWithSteps(to.tree, arriving);
            if (!other) return stop({ sort: 'tree', tree: to.tree });
            ({ tree, route } = other);
            // Where the steps of the tree before lead is said in that tree's own names.
            doings.length = 0;
            to = { sort: 'station', station: 0 };
        }
        const station = to.sort === 'station' ? route.stations[to.station] : undefined;
        if (!station) return stop(whereItEnds(to, route));
        const key = [tree.name.text, station.number, ...crowds.map(({ presence, set }) => `${presence.number}:${set}`)];
        if (seen.has(key.join(' '))) return stop({ sort: 'circle' });
        seen.add(key.join(' '));
        const at: At = { arriving, station, passing: passingOf(route, arriving), crowds };
        const passed = passStation(station, crowds, at.passing);
        const divided = divideByBuild(passed, at);
        if (divided) return stop(divided);
        visits.push({ tree, route, station, crowds, last: passed.last });
        doings.push(...passed.doings.map(doing => ({ ...doing, at })));
        const [onward] = passed.leavings;
        const isStuck = passed.doings.some(({ stuck }) => stuck.length > 0);
        if (!onward || isStuck) return stop(askAt(passed, doings, at));
        ({ to, crowds } = onward);
    }
}

function treeWithSteps(tree: Tree, { beginning }: Arriving): TreeWalk | undefined {
    return beginning.walked.all.trees.find(one => one.tree === tree && one.route.stations.length > 0);
}

function whereItEnds(to: Place, route: Route): Next {
    const end = to.sort === 'end' ? route.ends[to.end] : undefined;
    return end ? { sort: 'end', end } : { sort: 'nowhere' };
}

/** A station with those who have come to it. */
interface At {
    readonly arriving: Arriving;
    readonly station: Station;
    readonly passing: Passing;
    readonly crowds: readonly Crowd[];
}

interface DoneOnTheWay extends DoneHere {
    readonly at: At;
}

function passingOf(route: Route, { beginning }: Arriving): Passing {
    const { around, answers } = beginning.walked.all;
    return { route, around, answers };
}

/** Asks for the build where builds are asked different things at a station, or leave it in different ways. */
function divideByBuild({ asks, leavings }: Passed, { arriving, station, passing, crowds }: At): Next | undefined {
    const ways = [...asks, ...leavings];
    if (ways.length < 2) return undefined;
    const { beginning, isAnybodyLeft } = arriving;
    const groups = ways.map(way => unionOf(way.crowds, beginning));
    const to: Place = { sort: 'station', station: station.number };
    const answers = choiceAnswers(groups, isAnybodyLeft, beginning, builds => [
        { to, crowds: limitCrowds(crowds, builds, passing.around) },
    ]);
    return answers.length === 0 ? undefined : { sort: 'build', station, answers };
}

function choiceAnswers(
    groups: readonly WorldSet[],
    isShown: boolean,
    { walked }: Beginning,
    leavingsIn: (builds: WorldSet) => readonly Leaving[],
): Answer[] {
    const { space } = walked.all.around;
    return choicesThatDivide(groups, space).map(made => {
        const leavings = leavingsIn(buildsWithChoice(made, space));
        return { sort: 'choice', name: made.name, isShown, isDetour: false, leavings, made };
    });
}

/** The question of a station, with all that may be said to it and to what was done on the way. */
function askAt({ asks, leavings }: Passed, doings: readonly DoneOnTheWay[], at: At): Next {
    const { isAnybodyLeft } = at.arriving;
    const undone = doings.flatMap(doing => cannotBeDone(doing, doings));
    const [asked] = asks;
    const test = asked && at.passing.around.space.unit.tests[asked.action.test];
    if (asked && test) {
        const answers = [...outcomeAnswers(asked, test, at), ...cannotBeRead(asked, at), ...undone];
        return { sort: 'test', action: asked.action, test, crowds: asked.crowds, answers };
    }
    const done: Answer = { sort: 'done', name: 'done', isShown: isAnybodyLeft, isDetour: false, leavings };
    return { sort: 'doing', answers: leavings.length > 0 ? [done, ...undone] : undone };
}

/** Every outcome that one of the builds has. One that nobody shows leads where its branch leads, without anybody. */
function outcomeAnswers({ action, crowds, outcomes }: AskedHere, test: UnitTest, at: At): Answer[] {
    const { arriving, passing, station } = at;
    const standIns = standInsFor(crowds, arriving);
    return test.outcomes.flatMap((name, outcome): Answer[] => {
        const shown = arriving.isAnybodyLeft ? (outcomes[outcome] ?? []) : [];
        const isShown = shown.length > 0;
        const having = limitCrowds(standIns, whereOutcome(test, outcome, arriving), passing.around);
        if (!isShown && having.length === 0) return [];
        const leavings = isShown ? shown : leaveBy(exitsFor(action, outcome, passing), station, having, passing);
        return [{ sort: 'outcome', name, outcome, isShown, isDetour: false, leavings }];
    });
}

/** The builds in which a test has an outcome. */
function whereOutcome(test: UnitTest, outcome: number, { beginning }: Arriving): WorldSet {
    const { space } = beginning.walked.all.around;
    const { sets } = space;
    const { identifies } = test;
    if (identifies) {
        return buildsWithChoice({ option: identifies, choice: identifies.choices[outcome], name: '' }, space);
    }
    return test.entries.reduce<WorldSet>(
        (any, entry) => (entry.outcome === outcome ? sets.or(any, buildsWhere(entry.guard, space)) : any),
        noWorlds,
    );
}

function cannotBeRead({ action, crowds }: AskedHere, { arriving, passing, station }: At): Answer[] {
    if (action.cannotBeRead.length === 0) return [];
    const leavings = leaveBy(action.cannotBeRead, station, crowds, passing);
    const isShown = arriving.isAnybodyLeft;
    return [{ sort: 'cannot be read', name: 'cannot be read', isShown, isDetour: true, leavings }];
}

/** That something cannot be done: by those for whom it cannot, else by anybody where the tree says where to go then. */
function cannotBeDone({ action, crowds, stuck, at }: DoneOnTheWay, all: readonly DoneOnTheWay[]): Answer[] {
    const { arriving, passing, station } = at;
    const isDetour = stuck.length === 0;
    if (isDetour && action.cannot.length === 0) return [];
    const leavings = isDetour ? leaveBy(action.cannot, station, crowds, passing) : stuck;
    const sameSaid = all.filter(other => other.stuck.length > 0 || other.action.cannot.length > 0);
    const name = sameSaid.length > 1 ? `cannot be done: ${action.written.text.value}` : 'cannot be done';
    return [{ sort: 'cannot be done', name, isShown: arriving.isAnybodyLeft, isDetour, leavings, action }];
}

/** A healthy unit of each build that some crowds have, to see where the tree leads when nobody is left. */
function standInsFor(crowds: readonly Crowd[], { beginning }: Arriving): readonly Crowd[] {
    const { presences, remembering } = beginning.walked.all.around;
    const memory = new Map(remembering.map(test => [test, []]));
    const healthy = presences.of({ arrival: [], present: [], cleared: [], memory, replaced: false });
    return [{ presence: healthy, set: unionOf(crowds, beginning) }];
}

function unionOf(crowds: readonly Crowd[], { walked }: Beginning): WorldSet {
    const { sets } = walked.all.around.space;
    return crowds.reduce<WorldSet>((any, { set }) => sets.or(any, set), noWorlds);
}
