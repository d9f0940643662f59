// Whether the branches of a question lead each answer to one place, in every build that can come there.

import { type ChoiceCondition } from '../builds/evaluate.js';
import { type BuildSpace, buildSpaceOf, findBuild } from '../builds/find-build.js';
import type { Choice, Equipment, Option } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { ChoiceExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Ask, Branch, Confirm, Follow, Procedure, Step, Tree } from '../model/trees.js';
import { type Answer, answersOf, conditionOf, equipmentOf } from './answers.js';

export type Question = Ask | Confirm | Follow;

/** A question with everything that decides which builds can come there. */
export interface PlacedQuestion {
    readonly owner: Tree | Procedure;
    readonly step: Step;
    readonly statement: Question;
    readonly equipment: Equipment | undefined;
    /** Undefined where what is asked is not known. */
    readonly answers: readonly Answer[] | undefined;
    /** Undefined where a guard on the way has an unknown name. */
    readonly guards: readonly ChoiceCondition[] | undefined;
}

/** All questions of a file's trees and procedures, in the order of the text. */
export function questionsOf(file: FileModel, model: Model): PlacedQuestion[] {
    const questions: PlacedQuestion[] = [];
    for (const owner of [...file.trees, ...file.procedures]) {
        const equipment = equipmentOf(owner, model);
        for (const step of owner.steps) {
            for (const statement of step.statements) {
                if (statement.sort !== 'ask' && statement.sort !== 'confirm' && statement.sort !== 'follow') continue;
                const written = [owner.guard, step.guard, statement.guard];
                questions.push({
                    owner,
                    step,
                    statement,
                    equipment,
                    answers: answersOf(statement, model, equipment),
                    guards: conditionsOf(written, model, equipment),
                });
            }
        }
    }
    return questions;
}

/** The guards looked up; undefined where one of them cannot be. */
function conditionsOf(
    written: readonly (ChoiceExpression | undefined)[],
    model: Model,
    equipment: Equipment | undefined,
): ChoiceCondition[] | undefined {
    const conditions: ChoiceCondition[] = [];
    for (const guard of written) {
        if (!guard) continue;
        const condition = conditionOf(guard, model, equipment);
        if (!condition) return undefined;
        conditions.push(condition);
    }
    return conditions;
}

/** One build that shows something, as the author's choices. */
export type WitnessBuild = ReadonlyMap<Option, Choice>;

const spaces = new WeakMap<Equipment, BuildSpace>();

function spaceOf(question: PlacedQuestion, model: Model): BuildSpace {
    const { equipment } = question;
    if (!equipment) return { options: [], guards: new Map(), excluded: [] };
    let space = spaces.get(equipment);
    if (!space) {
        space = buildSpaceOf(equipment, reference => model.target(reference));
        spaces.set(equipment, space);
    }
    return space;
}

/** Answers that some build can give and no branch takes, each with one such build. */
export function missingBranches(question: PlacedQuestion, model: Model): { answer: Answer; build: WitnessBuild }[] {
    const { answers, guards, statement } = question;
    if (!answers || !guards || (statement.sort === 'confirm' && statement.short)) return [];
    const missing: { answer: Answer; build: WitnessBuild }[] = [];
    for (const answer of answers) {
        const branches = branchesOf(statement, answer.name);
        if (branches.some(branch => !branch.guard)) continue;
        const taken = conditionsOf(branches.map(branch => branch.guard), model, question.equipment);
        if (!taken) continue;
        const search = findBuild(spaceOf(question, model), [
            ...guards,
            ...existence(answer),
            ...taken.map(operand => ({ sort: 'not', operand }) as const),
        ]);
        if (search.sort === 'found') missing.push({ answer, build: search.build });
    }
    return missing;
}

/** Pairs of branches that take the same answer in some build, each with one such build. */
export function doubleBranches(
    question: PlacedQuestion,
    model: Model,
): { name: string; first: Branch; second: Branch; build: WitnessBuild }[] {
    const { guards, statement } = question;
    if (!guards) return [];
    const found: { name: string; first: Branch; second: Branch; build: WitnessBuild }[] = [];
    for (const name of new Set(statement.branches.flatMap(branchNames))) {
        const branches = statement.branches.filter(branch => branchNames(branch).includes(name));
        for (let second = 1; second < branches.length; second++) {
            for (let first = 0; first < second; first++) {
                const build = buildTakingBoth(question, model, branches[first], branches[second]);
                const [one, other] = [branches[first], branches[second]];
                if (build && one && other) found.push({ name, first: one, second: other, build });
            }
        }
    }
    return found;
}

function buildTakingBoth(
    question: PlacedQuestion,
    model: Model,
    first: Branch | undefined,
    second: Branch | undefined,
): WitnessBuild | undefined {
    const both = conditionsOf([first?.guard, second?.guard], model, question.equipment);
    if (!both || !question.guards) return undefined;
    const search = findBuild(spaceOf(question, model), [...question.guards, ...both]);
    return search.sort === 'found' ? search.build : undefined;
}

function existence(answer: Answer): ChoiceCondition[] {
    return answer.guards.length === 0 ? [] : [{ sort: 'any', operands: answer.guards }];
}

function branchesOf(statement: Question, name: string): Branch[] {
    return statement.branches.filter(branch => branchNames(branch).includes(name));
}

/** The answers that a branch takes; `cannot be read` counts as one of its own. */
function branchNames(branch: Branch): string[] {
    if (branch.cannotBeRead) return ['cannot be read'];
    return branch.outcomes.map(outcome => outcome.text).filter(text => text !== '');
}

/** A build as a counterexample shows it: the titles of the choices of the options that matter, else all. */
export function describeBuild(build: WitnessBuild, mattering: ReadonlySet<Option> = new Set()): string[] {
    const choices = [...build].filter(([option]) => mattering.size === 0 || mattering.has(option));
    return choices.map(([, choice]) => choice.name.text);
}
