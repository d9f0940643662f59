// Whether the branches of a question lead each answer to one place, in every build that can come there.

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { Equipment } from '../model/equipment.js';
import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { Ask, Branch, Confirm, Follow, Procedure, Step, Tree } from '../model/trees.js';
import { type Answer, answersOf, equipmentOf, guardOfAsked } from './answers.js';
import { conditionsOf, gaveUp, searchBuilds, type WitnessBuild } from './builds.js';
import { oncePerFile } from './remember.js';

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

/**
 * The questions of a file's trees and procedures that need a closer look, in the order of the text.
 * The others, nearly all, are plainly right: one branch for each answer, and no guards.
 */
export const questionsOf = oncePerFile(findQuestions);

/** An answer that some build can give and no branch takes, with one such build. */
export interface MissingBranch {
    readonly answer: Answer;
    readonly build: WitnessBuild;
    /** What holds in such a build: the guards on the way, the answer's own, and none of the branches'. */
    readonly asked: readonly ChoiceCondition[];
}

/** An answer that two branches take in some build, with one such build. */
export interface DoubleBranch {
    readonly name: string;
    readonly first: Branch;
    readonly second: Branch;
    readonly build: WitnessBuild;
    /** What holds in such a build: the guards on the way, the answer's own, and those of both branches. */
    readonly asked: readonly ChoiceCondition[];
}

/** The answers that lead nowhere in some build; `otherwise` takes what no other branch of the build names. */
export function missingBranches(question: PlacedQuestion, model: Model): readonly MissingBranch[] {
    return factsOf(question, model).missing;
}

/** Each branch that clashes with an earlier one, with the first such. */
export function doubleBranches(question: PlacedQuestion, model: Model): readonly DoubleBranch[] {
    return factsOf(question, model).doubles;
}

/** Whether the search for a build gave up on something about this question, although the equipment has builds. */
export function isUndecided(question: PlacedQuestion, model: Model): boolean {
    return factsOf(question, model).undecided;
}

/** Branches that name no answer, by what they say; both hold two words or a word of the language, as no answer's name does. */
const cannotBeRead = 'cannot be read';
const otherwise = 'otherwise';

const none: readonly Branch[] = [];

/** More branches for one answer than this are not compared with each other: each pair would cost a search. */
const mostBranchesOfAnswer = 100;

function findQuestions(file: FileModel, model: Model): readonly PlacedQuestion[] {
    const questions: PlacedQuestion[] = [];
    for (const owner of [...file.trees, ...file.procedures]) {
        const equipment = equipmentOf(owner, model);
        for (const step of owner.steps) {
            for (const statement of step.statements) {
                if (statement.sort !== 'ask' && statement.sort !== 'confirm' && statement.sort !== 'follow') continue;
                if (isPlainlyRight(statement, model)) continue;
                // Where the build lacks what is asked, that is a finding of its own.
                const written = [owner.guard, step.guard, statement.guard, guardOfAsked(statement, model)];
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

/** Branches without guards that name each answer once: then no build needs to be looked for. */
function isPlainlyRight(statement: Question, model: Model): boolean {
    const names: string[] = [];
    let takesRest = statement.sort === 'confirm' && statement.short;
    for (const branch of statement.branches) {
        if (branch.guard || branch.cannotBeRead || (branch.otherwise && takesRest)) return false;
        takesRest ||= branch.otherwise;
        for (const { text } of branch.outcomes) {
            // A list this short is searched faster than a set is made.
            if (names.includes(text) || names.length > mostPlainNames) return false;
            names.push(text);
        }
    }
    if (takesRest) return true;
    const asked = model.target(
        statement.sort === 'follow' ? statement.procedure : (statement.test.test ?? statement.test.owner),
    );
    if (asked?.sort === 'procedure') return asked.results.every(({ name }) => names.includes(name.text));
    if (asked?.sort !== 'test' || asked.methods.some(({ sort }) => sort === 'identify')) return false;
    return asked.outcomes.every(({ name }) => names.includes(name.text));
}

const mostPlainNames = 20;

interface Facts {
    readonly missing: MissingBranch[];
    readonly doubles: DoubleBranch[];
    undecided: boolean;
}

const knownFacts = new WeakMap<PlacedQuestion, Facts>();

function factsOf(question: PlacedQuestion, model: Model): Facts {
    let facts = knownFacts.get(question);
    if (!facts) {
        facts = { missing: [], doubles: [], undecided: false };
        knownFacts.set(question, facts);
        const branches = branchesByAnswer(question.statement);
        findMissing(question, branches, model, facts);
        findDoubles(question, branches, model, facts);
    }
    return facts;
}

function findMissing(
    question: PlacedQuestion,
    branches: ReadonlyMap<string, readonly Branch[]>,
    model: Model,
    facts: Facts,
): void {
    const { answers, guards, statement, equipment } = question;
    if (!answers || !guards || (statement.sort === 'confirm' && statement.short)) return;
    for (const answer of answers) {
        const naming = branches.get(answer.name) ?? none;
        if (naming.some(branch => !branch.guard)) continue;
        const taking = [...naming, ...(branches.get(otherwise) ?? none)];
        if (taking.some(branch => !branch.guard)) continue;
        const written = taking.map(branch => branch.guard);
        const taken = conditionsOf(written, model, equipment);
        if (!taken) continue;
        const untaken = taken.map(operand => ({ sort: 'not', operand }) as const);
        const asked = [...guards, ...existence(answer), ...untaken];
        const search = searchBuilds(equipment, model, asked);
        if (search.sort === 'found') facts.missing.push({ answer, build: search.build, asked });
        else if (gaveUp(search, equipment, model)) facts.undecided = true;
    }
}

function findDoubles(
    question: PlacedQuestion,
    branches: ReadonlyMap<string, readonly Branch[]>,
    model: Model,
    facts: Facts,
): void {
    const { guards, equipment } = question;
    if (!guards) return;
    for (const [name, taking] of branches) {
        if (taking.length > mostBranchesOfAnswer) facts.undecided = true;
        if (taking.length < 2 || taking.length > mostBranchesOfAnswer) continue;
        const answer = question.answers?.find(one => one.name === name);
        const context = [...guards, ...(answer ? existence(answer) : [])];
        taking.forEach((second, index) => {
            for (const first of taking.slice(0, index)) {
                const both = conditionsOf([first.guard, second.guard], model, equipment);
                if (!both) continue;
                const asked = [...context, ...both];
                const search = searchBuilds(equipment, model, asked);
                if (gaveUp(search, equipment, model)) facts.undecided = true;
                if (search.sort !== 'found') continue;
                facts.doubles.push({ name, first, second, build: search.build, asked });
                return;
            }
        });
    }
}

function existence(answer: Answer): ChoiceCondition[] {
    return answer.guards.length === 0 ? [] : [{ sort: 'any', operands: answer.guards }];
}

/** The branches that name each answer, in the order written. */
function branchesByAnswer(statement: Question): ReadonlyMap<string, readonly Branch[]> {
    const branches = new Map<string, Branch[]>();
    const add = (name: string, branch: Branch): void => {
        const known = branches.get(name);
        // A branch that names an answer twice is still one branch.
        if (!known) branches.set(name, [branch]);
        else if (known.at(-1) !== branch) known.push(branch);
    };
    for (const branch of statement.branches) {
        if (branch.cannotBeRead) add(cannotBeRead, branch);
        else if (branch.otherwise) add(otherwise, branch);
        else for (const { text } of branch.outcomes) if (text !== '') add(text, branch);
    }
    return branches;
}
