// What questions are answered by those who come to them: branches that nobody takes, questions with one answer only,
// questions whose answer is known.

import type { AskAction, Exit } from '../meaning/route.js';
import type { UnitFault } from '../meaning/unit.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Branch } from '../model/trees.js';
import type { Span } from '../model/written.js';
import type { Crowd } from '../walk/changes.js';
import { noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsIn, buildsWhere, isPossible } from '../walk/space.js';
import { leadsToDisagree, type PassedQuestion, passagesOf } from './passages.js';
import { isRepeated } from './repeated.js';
import { type Example, pickExample, type WalkedTree, walksConcerning } from './walks.js';
import { hasWrongWays } from './wrong-ends.js';

/** A branch of a question that is asked, which nobody takes. */
export interface UntakenBranch {
    readonly question: PassedQuestion;
    readonly branch: Branch;
    /**
     * `never`: nothing that brings the complaint shows the outcome. `not here`: something does, but not after what was answered
     * before. `no build`: the branch is for builds that do not come here.
     */
    readonly why: 'never' | 'not here' | 'no build';
    /** One that could show the outcome, where there is one: it goes another way, or what it has is put right before. */
    readonly elsewhere:
        | {
              readonly example: Example;
              readonly walked: WalkedTree;
              /** Whether it comes to the question too, and shows something else there. */
              readonly comesHere: boolean;
          }
        | undefined;
}

/** A question that is asked of no use. */
export interface IdleQuestion {
    readonly question: PassedQuestion;
    /** `repeated`: it was asked before and nothing was done since. `known`: all who come show one outcome. */
    readonly why: 'repeated' | 'known';
    /** The one outcome, where there is only one. */
    readonly outcome: string | undefined;
    /** The faults that come to it, in the order of the text; undefined stands for a healthy unit. */
    readonly possible: readonly (UnitFault | undefined)[];
}

interface Signal {
    readonly aborted: boolean;
}

/** Branches that nobody takes, in the trees and procedures of a file. Those of idle questions are left out. */
export function untakenBranches(file: FileModel, model: Model, signal: Signal): UntakenBranch[] {
    return questionsIn(file, model, signal).flatMap(({ question, taken }) => {
        if (question.statement.sort === 'confirm' || toldReason(question)) return [];
        const isWaiting = waits(question);
        return (
            question.statement.branches
                .filter(
                    branch => !branch.cannotBeRead && !taken.has(branch) && !leadsToDisagree(branch, question.owner),
                )
                .filter(branch => !isForestalled(branch, question))
                .map(branch => ({ question, branch, ...whyUntaken(branch, question) }))
                // What nothing at all shows is so whoever comes here, and is often why others go a wrong way.
                .filter(({ why }) => !isWaiting || why === 'never')
                // A procedure answers for whoever follows it, and has no `disagree`.
                .filter(({ why }) => why !== 'not here' || question.owner.sort === 'tree')
        );
    });
}

/** Questions that tell nothing new, in the trees and procedures of a file. */
export function idleQuestions(file: FileModel, model: Model, signal: Signal): IdleQuestion[] {
    return questionsIn(file, model, signal).flatMap(({ question }) => {
        const why = toldReason(question);
        if (!why) return [];
        const [first] = question.asked;
        const outcomes = shownOutcomes(question);
        const test = first && first.walked.all.unit.tests[first.action.test];
        const [only, ...others] = outcomes;
        const outcome = only === undefined || others.length > 0 ? undefined : test?.outcomes[only];
        return [{ question, why, outcome, possible: possibleAt(question) }];
    });
}

/** The questions of a file, with the branches that somebody takes in any walk. */
function questionsIn(
    file: FileModel,
    model: Model,
    signal: Signal,
): { question: PassedQuestion; taken: ReadonlySet<Span> }[] {
    const merged = new Map<PassedQuestion['statement'], { question: PassedQuestion; taken: Set<Span> }>();
    for (const all of walksConcerning(file, model, signal)) {
        const passages = passagesOf(all);
        for (const question of passages.questions) {
            if (question.statement.file !== file.file) continue;
            const known = merged.get(question.statement);
            const asked = [...(known?.question.asked ?? []), ...question.asked];
            const taken = known?.taken ?? new Set<Span>();
            for (const branch of question.statement.branches) if (passages.taken.has(branch)) taken.add(branch);
            merged.set(question.statement, { question: { ...question, asked }, taken });
        }
    }
    return [...merged.values()].sort((one, other) => one.question.statement.start - other.question.statement.start);
}

/** While somebody goes a wrong way in a tree, questions are answered by the wrong worlds: what they tell is said when that is mended. */
function waits({ asked }: PassedQuestion): boolean {
    return asked.some(({ walked }) => hasWrongWays(walked));
}

function shownOutcomes({ asked }: PassedQuestion): Set<number> {
    return new Set(asked.flatMap(({ outcomes }) => [...outcomes]));
}

/** Why a question is idle, where that can be said already. */
function toldReason(question: PassedQuestion): IdleQuestion['why'] | undefined {
    const why = idleReason(question);
    return why === 'known' && waits(question) ? undefined : why;
}

/** Who is still possible where a question is asked, the healthy unit last. */
function possibleAt({ asked }: PassedQuestion): (UnitFault | undefined)[] {
    const faults = new Set<UnitFault | undefined>();
    for (const { walked, action } of asked) {
        const { presences, space } = walked.walk.around;
        for (const crowds of walked.walk.asked.get(action) ?? []) {
            for (const number of crowds.keys()) faults.add(space.unit.faults[presences.at(number).arrival[0] ?? -1]);
        }
    }
    const orderOf = (fault: UnitFault | undefined) => fault?.number ?? Number.POSITIVE_INFINITY;
    return [...faults].sort((one, other) => orderOf(one) - orderOf(other));
}

/** Asking which build it is, and making sure before a repair, is never idle. */
function idleReason(question: PassedQuestion): IdleQuestion['why'] | undefined {
    const { statement, asked } = question;
    if (statement.sort === 'confirm') return undefined;
    const isIdentifying = asked.some(({ walked, action }) => walked.all.unit.tests[action.test]?.identifies);
    if (isIdentifying) return undefined;
    if (asked.every(isRepeated)) return 'repeated';
    const first = asked[0];
    const outcomes = first ? (first.walked.all.unit.tests[first.action.test]?.outcomes.length ?? 0) : 0;
    return shownOutcomes(question).size === 1 && outcomes > 1 ? 'known' : undefined;
}

/** Whether a branch before it takes those who show its outcomes: that two branches do so is told by itself. */
function isForestalled(branch: Branch, question: PassedQuestion): boolean {
    return exitsOf(branch, question).some(({ exit, action, walked }) => {
        const { space } = walked.walk.around;
        const here = buildsWhere(exit.guard, space);
        const shown = outcomesOf(exit, action, walked).flatMap(outcome => [
            ...(walked.walk.asked.get(action)?.[outcome]?.values() ?? []),
        ]);
        return shown.some(set => isPossible(space.sets.and(set, here), space));
    });
}

interface PlacedExit {
    readonly exit: Exit;
    readonly action: AskAction;
    readonly walked: WalkedTree;
}

/** A branch at each place where its question is asked. */
function exitsOf(branch: Branch, { asked }: PassedQuestion): PlacedExit[] {
    return asked.flatMap(({ walked, station, action }) => {
        const exit = walked.route.exits.find(one => one.written === branch && one.station === station);
        return exit ? [{ exit, action, walked }] : [];
    });
}

function whyUntaken(branch: Branch, question: PassedQuestion): Pick<UntakenBranch, 'why' | 'elsewhere'> {
    const exits = exitsOf(branch, question).filter(isForSomebody);
    if (exits.length === 0) return { why: 'no build', elsewhere: undefined };
    for (const { exit, action, walked } of exits) {
        const showing = showingOnArrival({ exit, action, walked });
        if (showing.length === 0) continue;
        const example = pickExample(showing, walked.walk);
        const comesHere = isAsked(example?.crowd.presence.arrival ?? [], action, walked);
        return { why: 'not here', elsewhere: example && { example, walked, comesHere } };
    }
    return { why: 'never', elsewhere: undefined };
}

/** Whether units that arrived with these faults are asked here. */
function isAsked(arrival: readonly number[], action: AskAction, { walk }: WalkedTree): boolean {
    const answers = walk.asked.get(action) ?? [];
    const numbers = answers.flatMap(crowds => [...crowds.keys()]);
    return numbers.some(number => walk.around.presences.at(number).arrival.join() === arrival.join());
}

/** Whether a unit comes to the step for whose build the branch is written. */
function isForSomebody({ exit, action, walked: { walk } }: PlacedExit): boolean {
    const { space } = walk.around;
    const here = space.sets.and(buildsWhere(exit.guard, space), buildsWhere(action.guard, space));
    return [...(walk.stations[exit.station]?.values() ?? [])].some(set => isPossible(space.sets.and(set, here), space));
}

/** Those who arrive at the tree and can show the outcomes of a branch, in whatever state. */
function showingOnArrival({ exit, action, walked }: PlacedExit): Crowd[] {
    const { walk, all } = walked;
    const { space } = walk.around;
    const { sets } = space;
    const test = all.unit.tests[action.test];
    if (!test) return [];
    const outcomes = outcomesOf(exit, action, walked);
    const here = buildsWhere(exit.guard, space);
    return walk.arrivals.flatMap(({ presence, set }) => {
        const shown = walk.answers.answer(test, presence.present);
        const any = outcomes.reduce<WorldSet>(
            (known, one) => sets.or(known, shown.outcomes[one] ?? noWorlds),
            noWorlds,
        );
        const builds = buildsIn(sets.and(any, here), space);
        const showing = sets.and(set, builds);
        return isPossible(showing, space) ? [{ presence, set: showing }] : [];
    });
}

/** The outcomes for which a branch is taken; for `otherwise`, all that no other branch names. */
function outcomesOf(exit: Exit, { branches, test }: AskAction, { route }: WalkedTree): readonly number[] {
    if (exit.outcomes.length > 0) return exit.outcomes;
    const named = new Set(branches.flatMap(one => route.exits[one]?.outcomes ?? []));
    const outcomes = route.unit.tests[test]?.outcomes ?? [];
    return outcomes.map((_, outcome) => outcome).filter(outcome => !named.has(outcome));
}
