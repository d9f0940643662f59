// Where worlds pass in the trees of an equipment: which branches they take, what each question is answered, which steps nobody
// comes to. A procedure is looked at with all the trees that follow it together.

import type { Branch, Confirm, Ask, End, Procedure, Result, Step, Tree } from '../model/trees.js';
import type { AskAction, Exit, Route, Station } from '../meaning/route.js';
import { detoursOf } from '../walk/detours.js';
import { noWorlds } from '../walk/sets/world-sets.js';
import type { RouteWalk } from '../walk/walk-route.js';
import type { EquipmentWalks } from '../walk/walks.js';
import type { WalkedTree } from './walks.js';

/** A question as it is asked in one tree. */
export interface AskedIn {
    readonly walked: WalkedTree;
    readonly station: number;
    readonly action: AskAction;
    /** The numbers of the outcomes that somebody shows. */
    readonly outcomes: ReadonlySet<number>;
}

/** One question of the source, with every place where it is asked. */
export interface PassedQuestion {
    readonly owner: Tree | Procedure;
    readonly step: Step;
    readonly statement: Ask | Confirm;
    readonly asked: readonly AskedIn[];
}

export interface Passages {
    /** Questions that somebody is asked, in the order in which they are walked. */
    readonly questions: readonly PassedQuestion[];
    /** What is written of exits that somebody takes. */
    readonly taken: ReadonlySet<Exit['written']>;
    /** Steps and ends that somebody comes to, as told or by a detour. */
    readonly visited: ReadonlySet<Step | End>;
    /** Steps that somebody comes to as told. */
    readonly walked: ReadonlySet<Step>;
    /** Results that a procedure gives to somebody. */
    readonly given: ReadonlySet<Result>;
}

const known = new WeakMap<EquipmentWalks, Passages>();

/** The passages of all trees of an equipment; worked out once. */
export function passagesOf(all: EquipmentWalks): Passages {
    let passages = known.get(all);
    if (!passages) {
        passages = findPassages(all);
        known.set(all, passages);
    }
    return passages;
}

function findPassages(all: EquipmentWalks): Passages {
    const questions = new Map<Ask | Confirm, { owner: Tree | Procedure; step: Step; asked: AskedIn[] }>();
    const taken = new Set<Exit['written']>();
    const visited = new Set<Step | End>();
    const walked = new Set<Step>();
    const given = new Set<Result>();
    for (const { tree, route, walk } of all.trees) {
        if (!walk) continue;
        const detours = detoursOf(walk);
        for (const station of route.stations) {
            const isWalked = (walk.stations[station.number]?.size ?? 0) > 0;
            if (isWalked) walked.add(station.step);
            if (isWalked || detours.stations[station.number] !== noWorlds) visited.add(station.step);
            for (const asked of questionsAt(station, { tree, route, walk, all })) {
                const { written } = asked.action;
                const entry = questions.get(written) ?? { owner: station.owner, step: station.step, asked: [] };
                questions.set(written, entry);
                entry.asked.push(asked);
            }
        }
        for (const { number, written, to } of route.exits) {
            if ((walk.exits[number]?.size ?? 0) === 0) continue;
            taken.add(written);
            if (to.sort === 'result') given.add(to.result);
        }
        for (const one of [...endsReached(walk), ...onlyOnDetours(route)]) visited.add(one);
    }
    return {
        questions: [...questions].map(([statement, { owner, step, asked }]) => ({ owner, step, statement, asked })),
        taken,
        visited,
        walked,
        given,
    };
}

/** The ends that somebody comes to, as told or by a detour. */
function endsReached(walk: RouteWalk): End[] {
    const detours = detoursOf(walk);
    return walk.route.ends
        .filter(({ number }) => (walk.ends[number]?.size ?? 0) > 0 || detours.ends[number] !== noWorlds)
        .map(({ written }) => written);
}

/** The questions of a station that somebody answers. */
function questionsAt(station: Station, walked: WalkedTree): AskedIn[] {
    return station.actions.flatMap(action => {
        if (action.sort !== 'ask') return [];
        const outcomes = outcomesShown(action, walked.walk);
        return outcomes.size === 0 ? [] : [{ walked, station: station.number, action, outcomes }];
    });
}

function outcomesShown(action: AskAction, walk: RouteWalk): ReadonlySet<number> {
    const answers = walk.asked.get(action) ?? [];
    return new Set(answers.flatMap((crowds, outcome) => (crowds.size > 0 ? [outcome] : [])));
}

/** Steps and ends to which the tree itself leads when something does not go as said: they need not be reached. */
function onlyOnDetours({ tree, stations, ends }: Route): (Step | End)[] {
    const clauses = [
        ...tree.disagree,
        ...tree.cannot,
        ...tree.stillWrong,
        ...ends.flatMap(end => end.written.stillWrong),
    ];
    const names = new Set(clauses.map(({ target }) => target.text));
    return [
        ...stations.filter(({ owner, step }) => owner === tree && names.has(step.name.text)).map(({ step }) => step),
        ...ends.filter(({ written }) => names.has(written.name.text)).map(({ written }) => written),
    ];
}

/** Whether a branch leads to where the tree sends answers that should not come. */
export function leadsToDisagree(branch: Branch, owner: Tree | Procedure): boolean {
    return owner.sort === 'tree' && owner.disagree.some(({ target }) => target.text === branch.target.text);
}
