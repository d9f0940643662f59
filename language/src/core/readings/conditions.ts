// Conditions over choices, put together and simplified where nothing needs to be asked.

import type { ChoiceCondition } from '../builds/evaluate.js';

export const always: ChoiceCondition = { sort: 'all', operands: [] };
export const never: ChoiceCondition = { sort: 'any', operands: [] };

/** True for a condition that holds in every build. */
export function isAlways(condition: ChoiceCondition): boolean {
    return condition.sort === 'all' && condition.operands.length === 0;
}

/** True for a condition that holds in no build, as far as that shows without a search. */
export function isNever(condition: ChoiceCondition): boolean {
    return condition.sort === 'any' && condition.operands.length === 0;
}

/** Holds where all of them hold. */
export function allOf(conditions: readonly ChoiceCondition[]): ChoiceCondition {
    if (conditions.some(isNever)) return never;
    const operands = conditions.filter(condition => !isAlways(condition));
    const [first] = operands;
    return operands.length === 1 && first ? first : { sort: 'all', operands };
}

/** Holds where one of them holds. */
export function anyOf(conditions: readonly ChoiceCondition[]): ChoiceCondition {
    if (conditions.some(isAlways)) return always;
    const operands = conditions.filter(condition => !isNever(condition));
    const [first] = operands;
    return operands.length === 1 && first ? first : { sort: 'any', operands };
}

/** Holds where the condition does not. */
export function notOf(condition: ChoiceCondition): ChoiceCondition {
    if (isAlways(condition)) return never;
    if (isNever(condition)) return always;
    return condition.sort === 'not' ? condition.operand : { sort: 'not', operand: condition };
}
