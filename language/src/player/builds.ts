// Builds as far as they have been said: which guards hold, and which option has to be asked about first.

import type { Guard, Option } from '../document/types.js';
import type { Tree } from './tree.js';

/** The choice of each option that has been made, by the option's id. */
export type Choices = ReadonlyMap<string, string>;

/** Whether a guard holds; where that hangs on a choice that is not made yet, the option is noted and the answer means nothing. */
export interface Decider {
    readonly holds: (guard: Guard | undefined) => boolean;
    /** The first option that something has hung on. */
    readonly open: () => string | undefined;
}

/** Decides guards with these choices. */
export function decideWith(tree: Tree, choices: Choices): Decider {
    let open: string | undefined;
    return {
        holds: guard => {
            if (guard === undefined) return true;
            const decided = decide(guard, tree, choices);
            if (typeof decided === 'boolean') return decided;
            open ??= decided.option;
            return false;
        },
        open: () => open,
    };
}

/** Whether a guard holds, or the option that it hangs on. */
export type Decided = boolean | { readonly option: string };

/** Decides one guard. */
export function decide(guard: Guard, tree: Tree, choices: Choices): Decided {
    return decideGuard(guard, { tree, choices, visiting: new Set() });
}

interface Deciding {
    readonly tree: Tree;
    readonly choices: Choices;
    /** Options whose own guards are being decided: one that hangs on itself is asked about. */
    readonly visiting: Set<string>;
}

function decideGuard(guard: Guard, deciding: Deciding): Decided {
    if ('choice' in guard) return decideChoice(guard.choice, deciding);
    if ('not' in guard) {
        const operand = decideGuard(guard.not, deciding);
        return typeof operand === 'boolean' ? !operand : operand;
    }
    // Of `all`, one operand that does not hold decides; of `any`, one that does.
    const [operands, deciding_] = 'all' in guard ? [guard.all, false] : [guard.any, true];
    let open: Decided | undefined;
    for (const operand of operands) {
        const decided = decideGuard(operand, deciding);
        if (decided === deciding_) return deciding_;
        if (typeof decided !== 'boolean') open ??= decided;
    }
    return open ?? !deciding_;
}

function decideChoice(choice: string, deciding: Deciding): Decided {
    const { tree, choices, visiting } = deciding;
    const option = tree.optionOfChoice.get(choice);
    if (!option) return false;
    const made = choices.get(option.id);
    if (made !== undefined) return made === choice;
    if (option.guard && !visiting.has(option.id)) {
        visiting.add(option.id);
        const isThere = decideGuard(option.guard, deciding);
        visiting.delete(option.id);
        if (isThere !== true) return isThere;
    }
    const possible = possibleChoices(tree, choices, option);
    if (!possible.includes(choice)) return false;
    return possible.length === 1 ? true : { option: option.id };
}

const remembered = new WeakMap<Choices, Map<string, readonly string[]>>();

/** The choices of an option that some made build has together with the choices so far. */
export function possibleChoices(tree: Tree, choices: Choices, option: Option): readonly string[] {
    const known = remembered.get(choices) ?? new Map<string, readonly string[]>();
    remembered.set(choices, known);
    const found =
        known.get(option.id) ?? option.choices.map(({ id }) => id).filter(id => canBe(tree, choices, option, id));
    known.set(option.id, found);
    return found;
}

/** So much is tried for one choice; after that it counts as possible. */
const mostTried = 200_000;

/** `absent` stands for an option that the build does not have. */
type Values = Map<string, string>;

const absent = '';

function canBe(tree: Tree, choices: Choices, option: Option, choice: string): boolean {
    const values: Values = new Map([...choices, [option.id, choice]]);
    const budget = { left: mostTried };
    const open = limitedOptions(tree).filter(({ id }) => !values.has(id));
    return goOnChoosing(tree, values, open, 0, budget);
}

const limited = new WeakMap<Tree, readonly Option[]>();

/** The options that exclusions and guards of options hang on, and those with a guard. */
function limitedOptions(tree: Tree): readonly Option[] {
    const known = limited.get(tree);
    if (known) return known;
    const { options, exclusions } = tree.document.equipment;
    const named = new Set<string>();
    const pending: Guard[] = exclusions.map(({ builds }) => builds);
    for (const { id, guard } of options) {
        if (!guard) continue;
        named.add(id);
        pending.push(guard);
    }
    for (let guard = pending.pop(); guard; guard = pending.pop()) {
        if ('choice' in guard) named.add(tree.optionOfChoice.get(guard.choice)?.id ?? '');
        else if ('not' in guard) pending.push(guard.not);
        else for (const operand of 'all' in guard ? guard.all : guard.any) pending.push(operand);
    }
    const found = options.filter(({ id }) => named.has(id));
    limited.set(tree, found);
    return found;
}

/** Whether the values can be completed. Recursion is as deep as there are options, and ends with the budget. */
function goOnChoosing(
    tree: Tree,
    values: Values,
    open: readonly Option[],
    at: number,
    budget: { left: number },
): boolean {
    if (budget.left <= 0) return true;
    if (!canBeMade(tree, values, budget)) return false;
    const option = open[at];
    if (!option || at > 1000) return true;
    for (const value of [...option.choices.map(({ id }) => id), ...(option.guard ? [absent] : [])]) {
        values.set(option.id, value);
        const isPossible = goOnChoosing(tree, values, open, at + 1, budget);
        values.delete(option.id);
        if (isPossible) return true;
    }
    return false;
}

function canBeMade(tree: Tree, values: Values, budget: { left: number }): boolean {
    const { options, exclusions } = tree.document.equipment;
    budget.left -= 1 + exclusions.length + options.length;
    if (exclusions.some(({ builds }) => evaluate(builds, tree, values) === true)) return false;
    return options.every(({ id, guard }) => {
        const value = values.get(id);
        if (!guard || value === undefined) return true;
        const isThere = evaluate(guard, tree, values);
        return isThere === undefined || isThere === (value !== absent);
    });
}

/** Whether a guard holds with these values; undefined where that is open. */
function evaluate(guard: Guard, tree: Tree, values: Values): boolean | undefined {
    if ('choice' in guard) {
        const option = tree.optionOfChoice.get(guard.choice);
        const value = option && values.get(option.id);
        return value === undefined ? undefined : value === guard.choice;
    }
    if ('not' in guard) {
        const operand = evaluate(guard.not, tree, values);
        return operand === undefined ? undefined : !operand;
    }
    const [operands, deciding] = 'all' in guard ? [guard.all, false] : [guard.any, true];
    const results = operands.map(operand => evaluate(operand, tree, values));
    if (results.includes(deciding)) return deciding;
    return results.includes(undefined) ? undefined : !deciding;
}
