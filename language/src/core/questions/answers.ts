// What a test or a procedure can answer, and in which builds: the names that its branches must cover.

import { type ChoiceCondition, resolveChoices } from '../builds/evaluate.js';
import { namesOfEquipment } from '../linking/names.js';
import type { Equipment, Option } from '../model/equipment.js';
import type { Declaration } from '../model/file.js';
import type { ChoiceExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Test, TestReference } from '../model/tests.js';
import type { Ask, Confirm, Follow, Procedure, Tree } from '../model/trees.js';
import type { Span } from '../model/written.js';

/** One answer: its name, where it is declared, and the guards under which it exists (one of them must hold). */
export interface Answer {
    readonly name: string;
    readonly place: Span;
    /** Empty where the answer exists in every build. */
    readonly guards: readonly ChoiceCondition[];
}

/** The test that a reference leads to; undefined where it is unknown or the subject of a procedure. */
export function testOf(reference: TestReference, model: Model): Test | undefined {
    const target = model.target(reference.test ?? reference.owner);
    return target?.sort === 'test' ? target : undefined;
}

/** The answers of what a statement asks; undefined where it is not known. */
export function answersOf(
    statement: Ask | Confirm | Follow,
    model: Model,
    equipment: Equipment | undefined,
): readonly Answer[] | undefined {
    if (statement.sort === 'follow') {
        const procedure = model.target(statement.procedure);
        return procedure?.sort === 'procedure' ? namedAnswers(procedure.results) : undefined;
    }
    const test = testOf(statement.test, model);
    if (!test) return undefined;
    const identify = test.methods.find(method => method.sort === 'identify');
    if (identify) {
        const option = model.target(identify.option);
        return option?.sort === 'option' ? choiceAnswers(option) : undefined;
    }
    return outcomesOf(test, model, equipment);
}

/** The guard of the test or procedure that a statement asks: other builds do not have it. */
export function guardOfAsked(statement: Ask | Confirm | Follow, model: Model): ChoiceExpression | undefined {
    if (statement.sort !== 'follow') return testOf(statement.test, model)?.guard;
    const procedure = model.target(statement.procedure);
    return procedure?.sort === 'procedure' ? procedure.guard : undefined;
}

/** A unit answers with its own choice and with no other. */
function choiceAnswers(option: Option): Answer[] {
    return option.choices
        .filter(choice => choice.name.text !== '')
        .map(choice => ({ name: choice.name.text, place: choice, guards: [{ sort: 'is', option, choice }] }));
}

function namedAnswers(declarations: readonly Exclude<Declaration, { sort: 'subject' }>[]): Answer[] {
    return declarations
        .filter(declaration => declaration.name.text !== '')
        .map(declaration => ({ name: declaration.name.text, place: declaration, guards: [] }));
}

/** The outcomes of a test, each name once, in the order written. */
function outcomesOf(test: Test, model: Model, equipment: Equipment | undefined): Answer[] | undefined {
    const answers = new Map<string, { place: Span; guards: ChoiceCondition[]; always: boolean }>();
    for (const outcome of test.outcomes) {
        if (outcome.name.text === '') continue;
        const answer = answers.get(outcome.name.text) ?? { place: outcome, guards: [], always: false };
        answers.set(outcome.name.text, answer);
        const guard = outcome.guard && conditionOf(outcome.guard, model, equipment);
        // A guard whose names are unknown says nothing of the builds: nothing may be concluded from it.
        if (outcome.guard && !guard) return undefined;
        if (guard) answer.guards.push(guard);
        else answer.always = true;
    }
    return [...answers].map(([name, { place, guards, always }]) => ({ name, place, guards: always ? [] : guards }));
}

/** A guard with its names looked up in an equipment. */
export function conditionOf(
    guard: ChoiceExpression,
    model: Model,
    equipment: Equipment | undefined,
): ChoiceCondition | undefined {
    if (!equipment) return undefined;
    const { optionOfChoice } = namesOfEquipment(equipment);
    return resolveChoices(
        guard,
        reference => model.target(reference),
        choice => optionOfChoice.get(choice),
    );
}

/** The equipment that a tree or procedure is of. */
export function equipmentOf(owner: Tree | Procedure, model: Model): Equipment | undefined {
    const target = owner.equipment && model.target(owner.equipment);
    return target?.sort === 'equipment' ? target : undefined;
}
