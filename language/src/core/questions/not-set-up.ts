// Tests that are asked although what they need is not so, or where nothing flows that they could show.

import type { AskAction, ReadAction } from '../meaning/route.js';
import type { StateCondition, Unit, UnitSetting, UnitTest } from '../meaning/unit.js';
import type { Model } from '../model/model.js';
import type { TestReference } from '../model/tests.js';
import type { FileId } from '../model/written.js';
import type { Crowd } from '../walk/changes.js';
import type { WorldSet } from '../walk/sets/world-sets.js';
import { isPossible } from '../walk/space.js';
import type { Meeting } from '../walk/ways.js';
import type { RouteWalk } from '../walk/walk-route.js';
import { type Example, pickExample, type WalkedTree, walksThrough } from './walks.js';

/** A question that is not set up. */
export interface NotSetUp {
    /** A need is not met; a fault may have stopped a flow that it needs; nothing flows at the test; nothing is said. */
    readonly why: 'needs' | 'flowing' | 'energy' | 'unsaid';
    /** The state that it needs, as it is written. */
    readonly need: string;
    readonly change: Change | undefined;
    readonly action: AskAction | ReadAction;
    /** The test as it is named there. */
    readonly test: TestReference;
    readonly example: Example;
    readonly meeting: Meeting;
    readonly walked: WalkedTree;
}

/** One thing that would set the question up: `command on` set, or a gate closed or restored. */
export interface Change {
    readonly sort: 'set' | 'close' | 'restore';
    readonly words: string;
}

interface Signal {
    readonly aborted: boolean;
}

/** Questions of a file's trees that are not set up: each need of each question once, and nothing beside a need. */
export function notSetUpIn(model: Model, file: FileId, signal: Signal): NotSetUp[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    const told = new Set<string>();
    return walksThrough(fileModel, model, signal).flatMap(walked =>
        lacksOf(walked).flatMap(({ meeting, state, crowds }) => {
            const { action, sort } = meeting;
            const example = pickExample(crowds, walked.walk);
            if (!isReading(action) || action.written.file !== file || !example) return [];
            if (state?.sort === 'taken') return [];
            const need = state ? stateWords(state, walked.all.unit) : '';
            // A step of a procedure is one question, however often it is followed.
            const test = testOf(action);
            const key = `${test.file} ${test.owner.start} ${need}`;
            if (told.has(key)) return [];
            told.add(key);
            const why = whyOf(sort, state, example.crowd, walked.walk);
            const change = changeFor(why, state, action, example.crowd, walked.walk);
            return [{ why, need, change, action, test, example, meeting, walked }];
        }),
    );
}

/** A test that is asked before a reading has been taken that it is worked out from. */
export interface NotTaken {
    readonly action: AskAction | ReadAction;
    readonly test: TestReference;
    /** The test whose reading is missing. */
    readonly reading: UnitTest;
    readonly example: Example;
    readonly meeting: Meeting;
    readonly walked: WalkedTree;
}

/** Questions of a file's trees for which a reading has not been taken on some way: each reading of each question once. */
export function notTakenIn(model: Model, file: FileId, signal: Signal): NotTaken[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    const told = new Set<string>();
    return walksThrough(fileModel, model, signal).flatMap(walked =>
        lacksOf(walked).flatMap(({ meeting, state, crowds }) => {
            const { action } = meeting;
            if (state?.sort !== 'taken' || !isReading(action) || action.written.file !== file) return [];
            const reading = walked.all.unit.tests[state.test];
            const example = pickExample(crowds, walked.walk);
            const test = testOf(action);
            const key = `${test.file} ${test.owner.start} ${state.test}`;
            if (!reading || !example || told.has(key)) return [];
            told.add(key);
            return [{ action, test, reading, example, meeting, walked }];
        }),
    );
}

function isReading(action: Meeting['action']): action is AskAction | ReadAction {
    return action?.sort === 'ask' || action?.sort === 'read';
}

function testOf(action: AskAction | ReadAction): TestReference {
    return action.sort === 'read' ? action.reference : action.written.test;
}

/** What a question lacks, and who is asked it so. */
interface Lack {
    readonly meeting: Meeting;
    readonly state: StateCondition | undefined;
    readonly crowds: readonly Crowd[];
}

/** What each question of a tree lacks: the needs that are not met, else the energy, else a word on what is normal. */
function lacksOf({ walk }: WalkedTree): Lack[] {
    const groups = new Map<AskAction | ReadAction, Map<Meeting['sort'] | StateCondition, Meeting[]>>();
    for (const meeting of walk.meetings) {
        const { action, sort } = meeting;
        if (!isReading(action) || sort === 'missing' || sort === 'stranded') continue;
        const bySort = groups.get(action) ?? new Map<Meeting['sort'] | StateCondition, Meeting[]>();
        groups.set(action, bySort);
        const key = meeting.need ?? sort;
        bySort.set(key, [...(bySort.get(key) ?? []), meeting]);
    }
    return [...groups.values()].flatMap(bySort => {
        const needs = [...bySort.values()].filter(([first]) => first?.need).flatMap(group => unmetNeeds(group, walk));
        if (needs.length > 0) return needs;
        const crowds = bySort.get('no energy') ?? bySort.get('nothing said') ?? [];
        return crowds.slice(0, 1).map(meeting => ({ meeting, state: undefined, crowds }));
    });
}

/** The parts of a need that are not so, one by one. */
function unmetNeeds(meetings: readonly Meeting[], { around }: RouteWalk): Lack[] {
    const [meeting] = meetings;
    if (!meeting?.need) return [];
    return partsOf(meeting.need).flatMap(state => {
        const crowds = meetings
            .map(({ presence, set }) => {
                const met = around.flows.where(state, presence.present);
                return { presence, set: around.space.sets.without(set, met) };
            })
            .filter(({ set }) => isPossible(set, around.space));
        return crowds.length === 0 ? [] : [{ meeting, state, crowds }];
    });
}

function partsOf(state: StateCondition): StateCondition[] {
    return state.sort === 'all' ? state.operands.flatMap(partsOf) : [state];
}

function whyOf(
    sort: Meeting['sort'],
    state: StateCondition | undefined,
    { set }: Crowd,
    { around }: RouteWalk,
): NotSetUp['why'] {
    if (!state) return sort === 'no energy' ? 'energy' : 'unsaid';
    // What does not flow in a healthy unit either has not been stopped by a fault.
    const { space, flows } = around;
    const flowsInHealthy = !isPossible(space.sets.without(set, flows.where(state, [])), space);
    return state.sort === 'flowing' && flowsInHealthy ? 'flowing' : 'needs';
}

/** The one thing that would set the question up for the crowd; undefined where there is none. */
function changeFor(
    why: NotSetUp['why'],
    state: StateCondition | undefined,
    action: AskAction | ReadAction,
    { presence, set }: Crowd,
    { around, answers }: RouteWalk,
): Change | undefined {
    const { space, flows } = around;
    const { sets, unit, variables } = space;
    const test = unit.tests[action.test];
    if (why === 'flowing' || !test) return undefined;
    const isRight = (changed: WorldSet): boolean => {
        // A flow is set up for a healthy unit; what a fault stops, no setting brings back.
        const faults = state?.sort === 'flowing' ? [] : presence.present;
        if (state) return !isPossible(sets.without(changed, flows.where(state, faults)), space);
        const { dead, unsaid } = answers.answer(test, presence.present);
        return !isPossible(sets.and(changed, why === 'energy' ? dead : unsaid), space);
    };
    for (const { number, declaration } of unit.gates) {
        const { text } = declaration.name;
        const variable = variables.gates[number] ?? 0;
        if (isRight(sets.assign(set, variable, 0))) return { sort: 'restore', words: text };
        if (isRight(sets.assign(set, variable, 1))) return { sort: 'close', words: text };
    }
    // What must be isolated is never brought about by a switch.
    if (state && asksForIsolation(state)) return undefined;
    for (const { number, declaration } of unit.conditions) {
        for (const [index, value] of declaration.values.entries()) {
            if (!isRight(sets.assign(set, variables.conditions[number] ?? 0, index))) continue;
            return { sort: 'set', words: `${declaration.name.text} ${value.name.text}` };
        }
    }
    return undefined;
}

function asksForIsolation(state: StateCondition): boolean {
    switch (state.sort) {
        case 'isolated':
        case 'zones isolated':
            return true;
        case 'not':
            return asksForIsolation(state.operand);
        case 'all':
        case 'any':
            return state.operands.some(asksForIsolation);
        default:
            return false;
    }
}

/** A state as it is written. */
function stateWords(state: StateCondition, unit: Unit): string {
    switch (state.sort) {
        case 'value':
            return valueWords(state, unit);
        case 'isolated':
            return `${unit.hazards[state.hazard]?.declaration.name.text ?? ''} isolated`;
        case 'zones isolated':
            return 'isolated';
        case 'flowing':
            return `${unit.flows[state.flow]?.declaration.name.text ?? ''} flowing`;
        case 'taken':
            return `${unit.tests[state.test]?.name ?? ''} taken`;
        case 'not':
            return `not ${wordsInside(state.operand, unit)}`;
        case 'all':
            return state.operands.map(operand => wordsInside(operand, unit)).join(' and ');
        case 'any':
            return state.operands.map(operand => wordsInside(operand, unit)).join(' or ');
    }
}

function valueWords({ condition, value }: UnitSetting, unit: Unit): string {
    const declaration = unit.conditions[condition]?.declaration;
    return `${declaration?.name.text ?? ''} ${declaration?.values[value]?.name.text ?? ''}`;
}

function wordsInside(state: StateCondition, unit: Unit): string {
    const words = stateWords(state, unit);
    return state.sort === 'all' || state.sort === 'any' ? `(${words})` : words;
}
