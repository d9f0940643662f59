// Whether a guard holds in a build, or in a build of which only some choices are known.

import type { Choice, Option } from '../model/equipment.js';
import type { Declaration } from '../model/file.js';
import type { ChoiceExpression, ChoiceReference } from '../model/guards.js';
import type { Reference } from '../model/written.js';

/** The choices known so far. `absent` is an option that this build does not have. */
export type PartialBuild = ReadonlyMap<Option, Choice | 'absent'>;

/** Looks up what a reference leads to; the model's `target`. */
export type Target = (reference: Reference) => Declaration | undefined;

/** What a guard says of options and choices, looked up once. */
export type ChoiceCondition =
    | { readonly sort: 'is'; readonly option: Option; readonly choice: Choice }
    | { readonly sort: 'not'; readonly operand: ChoiceCondition }
    | { readonly sort: 'all' | 'any'; readonly operands: readonly ChoiceCondition[] };

/** Which option a choice belongs to. */
export type OptionOf = (choice: Choice) => Option | undefined;

/** A guard with its names looked up; undefined where one of them is unknown, so that nothing is concluded from it. */
export function resolveChoices(
    expression: ChoiceExpression,
    target: Target,
    optionOf: OptionOf,
): ChoiceCondition | undefined {
    if (expression.sort === 'choice') return resolveChoice(expression, target, optionOf);
    if (expression.sort === 'not') {
        const operand = resolveChoices(expression.operand, target, optionOf);
        return operand && { sort: 'not', operand };
    }
    const operands: ChoiceCondition[] = [];
    for (const operand of expression.operands) {
        const resolved = resolveChoices(operand, target, optionOf);
        if (!resolved) return undefined;
        operands.push(resolved);
    }
    return { sort: expression.sort, operands };
}

function resolveChoice(reference: ChoiceReference, target: Target, optionOf: OptionOf): ChoiceCondition | undefined {
    const choice = target(reference.member ?? reference.choice);
    if (choice?.sort !== 'choice-declared') return undefined;
    const option = optionOf(choice);
    return option && { sort: 'is', option, choice };
}

/** True or false where the known choices decide it, else undefined. */
export function evaluate(condition: ChoiceCondition, build: PartialBuild): boolean | undefined {
    switch (condition.sort) {
        case 'is': {
            const known = build.get(condition.option);
            return known === undefined ? undefined : known === condition.choice;
        }
        case 'not': {
            const operand = evaluate(condition.operand, build);
            return operand === undefined ? undefined : !operand;
        }
        default:
            return evaluateOperands(condition, build);
    }
}

function evaluateOperands(
    condition: Extract<ChoiceCondition, { sort: 'all' | 'any' }>,
    build: PartialBuild,
): boolean | undefined {
    const deciding = condition.sort === 'any';
    let undecided = false;
    for (const operand of condition.operands) {
        const value = evaluate(operand, build);
        if (value === deciding) return deciding;
        if (value === undefined) undecided = true;
    }
    return undecided ? undefined : !deciding;
}

/** The options that a condition asks about. */
export function optionsIn(condition: ChoiceCondition, found: Set<Option> = new Set()): Set<Option> {
    if (condition.sort === 'is') found.add(condition.option);
    else if (condition.sort === 'not') optionsIn(condition.operand, found);
    else for (const operand of condition.operands) optionsIn(operand, found);
    return found;
}
