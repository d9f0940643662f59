// Who comes to a place from which nothing leads on, as far as no branch is plainly missing there.

import type { AskAction, DoAction } from '../meaning/route.js';
import type { Model } from '../model/model.js';
import type { FileId, Span } from '../model/written.js';
import type { WorldSet } from '../walk/sets/world-sets.js';
import { buildsWhere, isPossible } from '../walk/space.js';
import { exitsFor, type Meeting } from '../walk/ways.js';
import { missingBranches, questionsOf } from './branches.js';
import { type Example, pickExample, type WalkedTree, walksThrough } from './walks.js';

/** A place where somebody is stranded. */
export interface Stranded {
    readonly place: Span;
    readonly action: AskAction | DoAction;
    /** The outcomes that lead nowhere. */
    readonly outcomes: readonly string[];
    /** The parts whose faults keep the action from being done. */
    readonly parts: readonly string[];
    readonly example: Example;
    readonly meeting: Meeting;
    readonly walked: WalkedTree;
}

interface Signal {
    readonly aborted: boolean;
}

/** Where somebody is stranded in the steps of a file, its procedures among them; each place once. */
export function strandedIn(model: Model, file: FileId, signal: Signal): Stranded[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    const told = new Set<Span>();
    return walksThrough(fileModel, model, signal).flatMap(walked =>
        byAction(walked).flatMap(([action, meetings]) => {
            const example = pickExample(meetings, walked.walk);
            const meeting = meetings.find(one => one === example?.crowd);
            if (!meeting || !example || action.written.file !== file) return [];
            const described = describe(action, meetings, walked);
            if (!described || told.has(action.written) || hasMissingBranch(action, model)) return [];
            told.add(action.written);
            return [{ ...described, action, example, meeting, walked }];
        }),
    );
}

function byAction({ walk }: WalkedTree): [AskAction | DoAction, Meeting[]][] {
    const groups = new Map<AskAction | DoAction, Meeting[]>();
    for (const meeting of walk.meetings) {
        const { action, sort } = meeting;
        // A step that nothing leads out of is told by a rule that needs no walk.
        if (sort !== 'stranded' || (action?.sort !== 'ask' && action?.sort !== 'do')) continue;
        const group = groups.get(action);
        if (group) group.push(meeting);
        else groups.set(action, [meeting]);
    }
    return [...groups];
}

/** Whether a branch is missing that every reader can see to be missing: another rule tells it. */
function hasMissingBranch(action: AskAction | DoAction, model: Model): boolean {
    if (action.sort === 'do') return false;
    const file = model.files.get(action.written.file);
    const question = file && questionsOf(file, model).find(({ statement }) => statement === action.written);
    return question !== undefined && missingBranches(question, model).length > 0;
}

/** Undefined where there is a way on, to the result of a procedure: a branch is missing then where the procedure is followed. */
function describe(
    action: AskAction | DoAction,
    meetings: readonly Meeting[],
    walked: WalkedTree,
): Pick<Stranded, 'place' | 'outcomes' | 'parts'> | undefined {
    const { unit } = walked.all;
    if (action.sort === 'do') {
        if (!meetings.some(({ set }) => leadsNowhere(set, action.cannot, walked))) return undefined;
        const faulty = action.uses.filter(part =>
            meetings.some(({ presence }) => presence.present.some(fault => unit.faults[fault]?.part === part)),
        );
        const parts = faulty.map(part => unit.parts[part]?.name ?? '');
        return { place: action.written.text, outcomes: [], parts };
    }
    const outcomes = (unit.tests[action.test]?.outcomes ?? []).filter((_, outcome) => {
        const shown = walked.walk.asked.get(action)?.[outcome]?.values() ?? [];
        return [...shown].some(set => leadsNowhere(set, exitsFor(action, outcome, walked), walked));
    });
    return outcomes.length === 0 ? undefined : { place: action.written.test, outcomes, parts: [] };
}

/** Whether a set has a build for which none of the exits is. */
function leadsNowhere(set: WorldSet, exits: readonly number[], { walk, route }: WalkedTree): boolean {
    const { space } = walk.around;
    const left = exits.reduce(
        (rest, exit) => space.sets.without(rest, buildsWhere(route.exits[exit]?.guard, space)),
        set,
    );
    return isPossible(left, space);
}
