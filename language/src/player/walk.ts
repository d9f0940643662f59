// Goes on from one place to the next at which somebody has to do or say something.

import type { Branch, Handover, Procedure, ResultBranch, Statement, Test } from '../document/types.js';
import type { Decider } from './builds.js';
import { valueOf } from './calculate.js';
import { judge, methodWithNumber } from './judge.js';
import { type AtStep, type Chain, type Frame, meantIn, type Position, type TrailEntry } from './session.js';
import type { State } from './state.js';
import type { Tree } from './tree.js';
import { forcedFor, zonesOfTest } from './needs.js';

/** A session on its way; only this is changed, and only while it goes on. */
export interface Going {
    readonly tree: Tree;
    readonly builds: Decider;
    state: State;
    position: Position;
    trail: Chain<TrailEntry>;
    /** How much has been gone without an answer. */
    moves: number;
}

/** So much may be gone without an answer; more is a way that turns in a circle. */
const mostMoves = 3_000_000;
const movesOfCalculation = 1000;

/** Goes on until something has to be done or said, or an option is open. */
export function goOn(going: Going): void {
    if (going.position.sort === 'start') enterTree(going);
    while (going.position.sort === 'step' && going.builds.open() === undefined) {
        going.moves += 1;
        if (going.moves > mostMoves) {
            stick(going, 'The way turns in a circle without a question.');
            return;
        }
        if (isStop(going, going.position)) return;
    }
}

export function stick(going: Going, why: string): void {
    going.position = { sort: 'stuck', why };
}

/** Looks at the next statement: true where it has to be done or answered; else it has been passed. */
function isStop(going: Going, at: AtStep): boolean {
    const statement = at.step.statements[at.statement];
    if (!statement) {
        stick(going, `Nothing leads on from the step \`${at.step.id}\`.`);
        return false;
    }
    if (!going.builds.holds('guard' in statement ? statement.guard : undefined)) return pass(going, at);
    switch (statement.type) {
        case 'do':
        case 'wait':
            return true;
        case 'gate':
        case 'restore':
            return going.builds.holds(going.tree.gates.get(statement.gate)?.guard) ? true : pass(going, at);
        case 'read':
            return isReading(going, at, statement.tests);
        case 'test':
        case 'confirm':
            return isQuestion(going, at, statement.test);
        case 'follow':
        case 'go':
        case 'continue':
            if (!at.seen && showsSomething(at, going)) return true;
            leaveBy(statement, going, at);
            return false;
        default:
            return pass(going, at);
    }
}

/** Enters the tree at its first step. */
export function enterTree(going: Going): void {
    const { tree } = going.tree.document;
    const [first] = tree.steps;
    if (!going.builds.holds(tree.guard)) stick(going, `The tree \`${tree.id}\` is not for this unit.`);
    else if (first) enter(rootFrame(going.tree), first.id, going);
    else stick(going, 'The tree has no step to begin with.');
}

/** The tree itself, without any procedure. */
export function rootFrame(tree: Tree): Frame {
    return { owner: tree.document.tree, subject: undefined, follow: undefined, caller: undefined };
}

/** Goes on to the next statement. */
function pass(going: Going, at: AtStep): false {
    going.position = { ...at, statement: at.statement + 1, reading: 0 };
    return false;
}

/** Whether the step has something to read, so that nobody is led past it. */
function showsSomething({ step }: AtStep, { builds }: Going): boolean {
    if (step.cautions?.some(caution => builds.holds(caution.guard))) return true;
    return step.statements.some(
        statement =>
            (statement.type === 'note' ||
                statement.type === 'picture' ||
                statement.type === 'see' ||
                statement.type === 'safety') &&
            builds.holds(statement.guard),
    );
}

function isReading(going: Going, at: AtStep, tests: readonly string[]): boolean {
    const id = tests[at.reading];
    if (id === undefined) return pass(going, at);
    const test = going.tree.tests.get(meantIn(at.frame, id));
    if (!test || !going.builds.holds(test.guard)) {
        going.position = { ...at, reading: at.reading + 1 };
        return false;
    }
    const value = calculated(test, going, at.frame);
    if (!value) return true;
    prepare(test, going);
    note(test, value, going);
    going.position = { ...at, reading: at.reading + 1 };
    return false;
}

function isQuestion(going: Going, at: AtStep, id: string): boolean {
    const name = meantIn(at.frame, id);
    const test = going.tree.tests.get(name);
    if (!test || !going.builds.holds(test.guard)) {
        stick(going, `This unit has no test \`${name}\`.`);
        return false;
    }
    const value = calculated(test, going, at.frame);
    if (!value || going.builds.open() !== undefined) return true;
    const { tree, builds } = going;
    const state = forcedFor(test, { tree, builds, state: going.state, zones: zonesOfTest(test, going) });
    const meant = (reading: string): string => meantIn(at.frame, reading);
    const judged = judge(value, { test, tree, builds, state, zones: zonesOfTest(test, going), meant });
    if (judged.problem !== undefined || builds.open() !== undefined) return true;
    going.moves += movesOfCalculation;
    going.state = state;
    note(test, value, going);
    leaveByOutcome(judged.outcome, 'calculated', going, at);
    return false;
}

/** The value of a calculated test, where all of its readings are numbers. */
function calculated(test: Test, { tree, builds, state }: Going, frame: Frame): ReturnType<typeof valueOf> {
    if (methodWithNumber({ test, builds })?.type !== 'calculate') return undefined;
    return valueOf(test, { tree, readings: state.readings, meant: reading => meantIn(frame, reading) });
}

/** Sets the unit up as a test needs it, because that comes before the test. */
export function prepare(test: Test, going: Going): void {
    const { tree, builds, state } = going;
    going.state = forcedFor(test, { tree, builds, state, zones: zonesOfTest(test, going) });
}

/** Notes a reading; undefined for one that was taken without a number. */
export function note(test: Test, value: ReturnType<typeof valueOf>, going: Going): void {
    going.state = { ...going.state, readings: new Map(going.state.readings).set(test.id, value) };
}

/** Goes where an outcome of the test leads that is asked at this step. */
export function leaveByOutcome(outcome: string, answer: TrailEntry['answer'], going: Going, at: AtStep): void {
    const statement = at.step.statements[at.statement];
    if (statement?.type !== 'test' && statement?.type !== 'confirm') return;
    const named = statement.branches.filter(branch => branch.outcomes?.includes(outcome));
    const others = statement.branches.filter(branch => branch.otherwise);
    const branch = firstFor([...named, ...others], going);
    const entry = { test: meantIn(at.frame, statement.test), answer, outcome };
    if (branch) {
        tell({ ...entry, to: branch.to }, going, at);
        enter(at.frame, branch.to, going);
        return;
    }
    const isShort = statement.type === 'confirm' && statement.othersDisagree;
    const disagree = isShort ? firstFor(going.tree.document.tree.disagree ?? [], going) : undefined;
    tell({ ...entry, to: disagree?.to }, going, at);
    if (disagree) enter(rootOf(at.frame), disagree.to, going);
    else stick(going, `Nothing is said about the outcome \`${outcome}\` at the step \`${at.step.id}\`.`);
}

/** Notes an answer with what it led to. */
export function tell(
    told: Pick<TrailEntry, 'test' | 'answer' | 'outcome' | 'to'>,
    going: Going,
    { frame, step }: Pick<AtStep, 'frame' | 'step'>,
): void {
    const procedure = frame.caller ? frame.owner.id : undefined;
    going.trail = { head: { procedure, step: step.id, option: undefined, ...told }, tail: going.trail };
}

function firstFor<T extends Branch | ResultBranch | Handover>(ways: readonly T[], { builds }: Going): T | undefined {
    return ways.find(({ guard }) => builds.holds(guard));
}

function rootOf(frame: Frame): Frame {
    let at = frame;
    while (at.caller) at = at.caller;
    return at;
}

/** Goes where it is said that something cannot be read or done: at the statement, in the procedure, else in the tree. */
export function leaveByCannot(
    what: 'cannotBeRead' | 'cannotBeDone',
    own: readonly Branch[],
    going: Going,
    at: AtStep,
): void {
    const { frame } = at;
    const answer = what === 'cannotBeRead' ? 'cannot be read' : 'cannot be done';
    const statement = at.step.statements[at.statement];
    const named =
        statement && 'tests' in statement
            ? statement.tests[at.reading]
            : statement && 'test' in statement
              ? statement.test
              : undefined;
    const test = named === undefined ? undefined : meantIn(frame, named);
    const here = firstFor<Branch | Handover>([...own, ...(frame.owner[what] ?? [])], going);
    const inTree = here ? undefined : firstFor(going.tree.document.tree[what] ?? [], going);
    tell({ test, answer, outcome: undefined, to: (here ?? inTree)?.to }, going, at);
    if (here) enter(frame, here.to, going);
    else if (inTree) enter(rootOf(frame), inTree.to, going);
    else stick(going, `Nothing is said about what ${answer} at the step \`${at.step.id}\`.`);
}

function leaveBy(
    statement: Extract<Statement, { type: 'follow' | 'go' | 'continue' }>,
    going: Going,
    at: AtStep,
): void {
    switch (statement.type) {
        case 'go':
            enter(at.frame, statement.to, going);
            return;
        case 'continue':
            going.position = { sort: 'hand-over', tree: statement.tree };
            return;
        case 'follow': {
            const owner = going.tree.procedures.get(statement.procedure);
            const [first] = owner?.steps ?? [];
            if (!owner || !first || !going.builds.holds(owner.guard)) {
                stick(going, `This unit has no procedure \`${statement.procedure}\`.`);
                return;
            }
            const named = statement.withPart ?? statement.withTest;
            const subject = named === undefined ? undefined : meantIn(at.frame, named);
            enter({ owner, subject, follow: statement, caller: at.frame }, first.id, going);
        }
    }
}

/** Goes to a step or an end; from the result of a procedure to where its caller leads. */
export function enter(from: Frame, to: string, going: Going): void {
    let [frame, name] = [from, to];
    for (;;) {
        const target = going.tree.targets.get(frame.owner)?.get(name);
        if (!target) return stick(going, `Nothing here is called \`${name}\`.`);
        if (target.sort === 'step') {
            const { step } = target;
            if (!going.builds.holds(step.guard)) return stick(going, `The step \`${step.id}\` is not for this unit.`);
            going.position = { sort: 'step', frame, step, statement: 0, reading: 0, seen: false };
            return;
        }
        if (target.sort !== 'result') {
            const { end } = target;
            if (!going.builds.holds(end.guard)) return stick(going, `The end \`${end.id}\` is not for this unit.`);
            going.position =
                target.sort === 'conclusion'
                    ? { sort: 'end', kind: 'conclusion', end: target.end }
                    : { sort: 'end', kind: 'referral', end: target.end };
            return;
        }
        const { caller, follow } = frame;
        const way = follow && wayOfResult(name, follow.branches, going);
        if (!caller || !way) {
            return stick(
                going,
                `Nothing is said about the result \`${name}\` of \`${(frame.owner as Procedure).id}\`.`,
            );
        }
        [frame, name] = [caller, way.to];
    }
}

function wayOfResult(result: string, branches: readonly ResultBranch[], going: Going): ResultBranch | undefined {
    const named = branches.filter(branch => branch.results?.includes(result));
    return firstFor([...named, ...branches.filter(branch => branch.otherwise)], going);
}
