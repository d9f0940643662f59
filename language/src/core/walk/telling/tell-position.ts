// Tells a position in plain words: who has been ruled out, what is done, what is asked or where the way ends, who is left.

import type { Model } from '../../model/model.js';
import { nearNames } from '../../text/near-names.js';
import type { Next, Position, Visit } from '../go-through.js';
import { type Arrival, ruledOutBy, type Standing, standingOf, suspectsOf } from '../ruled-out.js';
import { TooManyNodes } from '../sets/world-sets.js';
import { tellEnd } from './tell-end.js';
import { tellBuild, tellDoing, tellTest } from './tell-question.js';
import { tellVisit } from './tell-visit.js';
import { faultName, nameOf, type Telling, testName } from './words.js';
import type { ToldName, ToldNext, ToldPosition } from './told.js';

/** All that there is to say of a position. */
export function tellPosition(position: Position, model: Model): ToldPosition {
    try {
        return tellAll(position, model);
    } catch (problem) {
        if (!(problem instanceof TooManyNodes)) throw problem;
        const answer = position.answered?.answer.name;
        return { answer, ruledOut: [], visits: [], isAgain: false, next: { sort: 'undecided' }, suspects: [] };
    }
}

function tellAll(position: Position, model: Model): ToldPosition {
    const { all } = position.beginning.walked;
    const telling: Telling = { model, all, crowds: position.crowds };
    const lastBefore = visitsBefore(position).at(-1);
    return {
        answer: position.answered?.answer.name,
        ruledOut: ruledOutBy(position).map(({ arrival, reason }) => ({
            ...faultName(arrival, telling),
            wouldBe: reason.sort === 'answer' ? reason.wouldBe.map(({ name }) => name) : [],
        })),
        visits: position.visits.map((visit, index) =>
            tellVisit(visit, position.visits[index - 1] ?? lastBefore, { model, all }),
        ),
        isAgain: wasHereBefore(position),
        next: tellNext(position.next, position, telling),
        suspects: suspectsOf(position).map(({ fault, chance }) => ({ ...faultName(fault, telling), chance })),
    };
}

function tellNext(next: Next, position: Position, telling: Telling): ToldNext {
    switch (next.sort) {
        case 'test':
            return tellTest(next, position, telling);
        case 'doing':
            return tellDoing(next, position);
        case 'build':
            return tellBuild(next, position);
        case 'end':
            return tellEnd(next.end, position, telling);
        case 'tree':
            return { sort: 'tree', ...nameOf(next.tree) };
        default:
            return { sort: next.sort };
    }
}

function visitsBefore({ answered }: Position): readonly Visit[] {
    if (!answered) return [];
    const { before } = answered;
    return before.visits.length > 0 ? before.visits : visitsBefore(before);
}

function wasHereBefore(position: Position): boolean {
    const here = keyOf(position);
    if (here === undefined) return false;
    for (let { answered } = position; answered; { answered } = answered.before) {
        if (keyOf(answered.before) === here) return true;
    }
    return false;
}

function keyOf({ visits, crowds, tree }: Position): string | undefined {
    const station = visits.at(-1)?.station.number;
    if (station === undefined) return undefined;
    return [tree.name.text, station, ...crowds.map(({ presence, set }) => `${presence.number}:${set}`)].join(' ');
}

/** What is told of one fault. */
export type ToldStanding =
    | ({ readonly sort: 'possible'; readonly chance: number; readonly wouldBe: readonly string[] } & ToldName)
    | ({
          readonly sort: 'out';
          /** The test or other question, and the step, where the answer was given that rules it out. */
          readonly question: ToldName | undefined;
          readonly step: ToldName | undefined;
          readonly answer: string;
          readonly wouldBe: readonly string[];
      } & ToldName)
    | ({ readonly sort: 'other build' | 'never' } & ToldName)
    | { readonly sort: 'unknown'; readonly near: readonly string[] };

/** Why a fault of this name, or `healthy`, is still possible or is not. */
export function tellStanding(name: string, position: Position, model: Model): ToldStanding {
    const { all } = position.beginning.walked;
    const fault = all.unit.faults.find(one => one.name === name);
    if (!fault && name !== 'healthy') {
        return { sort: 'unknown', near: nearNames(name, [...all.unit.faults.map(one => one.name), 'healthy']) };
    }
    return tellArrival(fault, standingOf(fault, position), position, model);
}

function tellArrival(arrival: Arrival, standing: Standing, position: Position, model: Model): ToldStanding {
    const { all } = position.beginning.walked;
    const told = faultName(arrival, { all, model });
    if (standing.sort === 'possible') {
        const suspect = suspectsOf(position).find(({ fault }) => fault === arrival);
        return {
            sort: 'possible',
            ...told,
            chance: suspect?.chance ?? 0,
            wouldBe: standing.wouldBe.map(one => one.name),
        };
    }
    if (standing.sort === 'never') return { sort: 'never', ...told };
    const { reason } = standing;
    if (reason.sort === 'build') return { sort: 'other build', ...told };
    const { at, answer, wouldBe } = reason;
    const station = at.visits.at(-1)?.station;
    return {
        sort: 'out',
        ...told,
        question: at.next.sort === 'test' ? testName(at.next.test, { all }) : undefined,
        step: station && nameOf(station.step),
        answer: answer.name,
        wouldBe: wouldBe.map(one => one.name),
    };
}
