// States of a unit as further options, so that one search finds a build and a state together.

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { Choice, Condition, Equipment, Flow, Option } from '../model/equipment.js';
import type { State, StateExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import type { Declared } from '../model/remarks.js';
import type { Test } from '../model/tests.js';
import type { Name, Span } from '../model/written.js';
import { conditionOf } from '../questions/answers.js';
import { allOf, always, anyOf, notOf } from './conditions.js';

/** Where a state is said. */
export interface StatePlace {
    readonly model: Model;
    readonly equipment: Equipment | undefined;
    /** What an `isolated` without a subject is about: the zones of the test. */
    readonly here: Test;
}

/** A state with its names looked up. */
export interface ResolvedState {
    readonly holds: ChoiceCondition;
    /** The conditions, flows and hazards that it names, each as an option. */
    readonly options: ReadonlyMap<Option, Condition | Flow | undefined>;
}

const anyState: ResolvedState = { holds: always, options: new Map() };

/** A state as a condition over options; undefined where a name is unknown, so that nothing is concluded from it. */
export function resolveState(expression: StateExpression | undefined, place: StatePlace): ResolvedState | undefined {
    if (!expression) return anyState;
    const options = new Map<Option, Condition | Flow | undefined>();
    const holds = resolve(expression, place, options);
    return holds && { holds, options };
}

/**
 * What must be so of the options of states: a condition that a build has not is as found, at its first value, and a flow flows only
 * where it exists and its own `when` holds. More is not asked: a flow can have stopped in any state, by a fault.
 * Undefined where a name is unknown.
 */
export function sideConditions(
    named: ReadonlyMap<Option, Condition | Flow | undefined>,
    place: StatePlace,
): ResolvedState | undefined {
    if (named.size === 0) return anyState;
    const options = new Map(named);
    const holds: ChoiceCondition[] = [];
    // The loop also visits what it adds: the conditions that the `when` of a flow names.
    for (const [option, declared] of options) {
        const guard = declared?.guard ? conditionOf(declared.guard, place.model, place.equipment) : always;
        const [first] = option.choices;
        if (!guard || !first) return undefined;
        const isFirst: ChoiceCondition = { sort: 'is', option, choice: first };
        if (declared?.sort === 'condition') holds.push(anyOf([guard, isFirst]));
        if (declared?.sort !== 'flow') continue;
        const when = resolveState(declared.when, place);
        if (!when) return undefined;
        for (const [other, one] of when.options) options.set(other, one);
        holds.push(anyOf([notOf(isFirst), allOf([guard, when.holds])]));
    }
    return { holds: allOf(holds), options };
}

type Found = Map<Option, Condition | Flow | undefined>;

function resolve(expression: StateExpression, place: StatePlace, found: Found): ChoiceCondition | undefined {
    if (expression.sort === 'not') {
        const operand = resolve(expression.operand, place, found);
        return operand && notOf(operand);
    }
    if (expression.sort !== 'state') {
        const operands = expression.operands.map(operand => resolve(operand, place, found));
        const known = operands.filter(operand => operand !== undefined);
        if (known.length < operands.length) return undefined;
        return expression.sort === 'all' ? allOf(known) : anyOf(known);
    }
    if (expression.is === 'value') return resolveValue(expression, place, found);
    const subject = expression.subject ? place.model.target(expression.subject) : place.here;
    if (!subject || subject.sort === 'subject') return undefined;
    const flow = subject.sort === 'flow' ? subject : undefined;
    // The first of the two is what the words say: flowing, or isolated.
    const words = flow ? ['flowing', 'stopped'] : ['isolated', 'not isolated'];
    const choices = words.map(text => ({ ...placeOf(subject), name: { ...placeOf(subject), text }, title: undefined }));
    const option = optionOf(subject, subject.name, choices);
    const [first] = option.choices;
    found.set(option, flow);
    if (!first) return undefined;
    const holds: ChoiceCondition = { sort: 'is', option, choice: first };
    // A flow that is isolated is one that does not flow.
    return flow && expression.is === 'isolated' ? notOf(holds) : holds;
}

function resolveValue({ subject, value }: State, { model }: StatePlace, found: Found): ChoiceCondition | undefined {
    const condition = subject && model.target(subject);
    const target = value && model.target(value);
    if (condition?.sort !== 'condition' || target?.sort !== 'value') return undefined;
    const option = optionOf(condition, condition.name, condition.values);
    const choice = option.choices[condition.values.indexOf(target)];
    found.set(option, condition);
    return choice && { sort: 'is', option, choice };
}

const optionsOfStates = new WeakMap<object, Option>();

function optionOf(declared: Span, name: Name, values: readonly Declared[]): Option {
    let option = optionsOfStates.get(declared);
    if (!option) {
        const choices = values.map((value): Choice => ({
            sort: 'choice-declared',
            ...placeOf(value),
            name: value.name,
            title: value.title,
            share: undefined,
            duty: undefined,
        }));
        option = { sort: 'option', ...placeOf(declared), name, title: undefined, guard: undefined, choices };
        optionsOfStates.set(declared, option);
    }
    return option;
}

function placeOf({ file, start, end }: Span): Span {
    return { file, start, end };
}
