// Finds one build that is really made and in which given guards hold, or shows that there is none.

import type { Choice, Equipment, Option } from '../model/equipment.js';
import { namesOfEquipment } from '../linking/names.js';
import { type ChoiceCondition, evaluate, optionsIn, resolveChoices, type Target } from './evaluate.js';

/** The builds of an equipment: its options, and what is never built. */
export interface BuildSpace {
    readonly options: readonly Option[];
    /** The guard of an option that not every build has. */
    readonly guards: ReadonlyMap<Option, ChoiceCondition>;
    /** A build in which one of these holds is not made. */
    readonly excluded: readonly ChoiceCondition[];
}

export type BuildSearch =
    | { readonly sort: 'found'; readonly build: ReadonlyMap<Option, Choice> }
    | { readonly sort: 'none' }
    /** The search took more steps than allowed; nothing is known. */
    | { readonly sort: 'undecided' };

/** How many partial builds a search may look at; far more than the exclusions of real equipment need. */
const mostSteps = 200_000;

/** The builds of an equipment. Guards with unknown names are left out: the linker has reported them. */
export function buildSpaceOf(equipment: Equipment, target: Target): BuildSpace {
    const { optionOfChoice } = namesOfEquipment(equipment);
    const optionOf = (choice: Choice) => optionOfChoice.get(choice);
    const guards = new Map<Option, ChoiceCondition>();
    for (const option of equipment.options) {
        const guard = option.guard && resolveChoices(option.guard, target, optionOf);
        if (guard) guards.set(option, guard);
    }
    const excluded: ChoiceCondition[] = [];
    for (const { terms } of equipment.exclusions) {
        const operands = terms.map((term) => resolveChoices(term, target, optionOf));
        if (operands.length > 0 && operands.every((operand) => operand !== undefined)) {
            excluded.push({ sort: 'all', operands });
        }
    }
    return { options: equipment.options.filter((option) => option.choices.length > 0), guards, excluded };
}

/**
 * One build in which `wanted` holds, by trying choices option by option and giving up a line as soon as it is excluded.
 * Only options that some guard asks about are tried; any choice does for the others.
 */
export function findBuild(space: BuildSpace, wanted: readonly ChoiceCondition[] = []): BuildSearch {
    const constraints: ChoiceCondition[] = [
        ...space.excluded.map((operand) => ({ sort: 'not', operand }) as const),
        ...wanted,
    ];
    const order = orderOptions(space, constraints);
    const build = new Map<Option, Choice | 'absent'>();
    let steps = 0;

    const holds = (): boolean =>
        constraints.every((constraint) => evaluate(constraint, build) !== false) &&
        [...space.guards].every(([option, guard]) => agrees(build.get(option), evaluate(guard, build)));

    const search = (index: number): boolean | undefined => {
        const option = order[index];
        if (!option) return true;
        const values: (Choice | 'absent')[] = space.guards.has(option) ? [...option.choices, 'absent'] : [...option.choices];
        for (const value of values) {
            if (++steps > mostSteps) return undefined;
            build.set(option, value);
            if (holds()) {
                const found = search(index + 1);
                if (found !== false) return found;
            }
            build.delete(option);
        }
        return false;
    };

    const found = search(0);
    if (found === undefined) return { sort: 'undecided' };
    if (!found) return { sort: 'none' };
    const complete = new Map<Option, Choice>();
    for (const option of space.options) {
        const value = build.get(option) ?? option.choices[0];
        if (value && value !== 'absent') complete.set(option, value);
    }
    return { sort: 'found', build: complete };
}

/** An option with a guard has a choice exactly where the guard holds. */
function agrees(value: Choice | 'absent' | undefined, guardHolds: boolean | undefined): boolean {
    if (value === undefined || guardHolds === undefined) return true;
    return guardHolds === (value !== 'absent');
}

/** Options that guards ask about, those in most guards first, so that lines are given up early. */
function orderOptions(space: BuildSpace, constraints: readonly ChoiceCondition[]): Option[] {
    const uses = new Map<Option, number>();
    const count = (option: Option) => uses.set(option, (uses.get(option) ?? 0) + 1);
    for (const constraint of constraints) for (const option of optionsIn(constraint)) count(option);
    for (const [guarded, guard] of space.guards) {
        count(guarded);
        for (const option of optionsIn(guard)) count(option);
    }
    return space.options
        .filter((option) => uses.has(option))
        .sort((one, other) => (uses.get(other) ?? 0) - (uses.get(one) ?? 0));
}
