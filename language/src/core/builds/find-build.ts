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

/** How often a search may look at a guard or exclusion; far more than the exclusions of real equipment need. */
const mostSteps = 100_000;

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
        const operands = terms.map(term => resolveChoices(term, target, optionOf));
        if (operands.length > 0 && operands.every(operand => operand !== undefined)) {
            excluded.push({ sort: 'all', operands });
        }
    }
    return { options: equipment.options.filter(option => option.choices.length > 0), guards, excluded };
}

/**
 * One build in which `wanted` holds. Choices are tried option by option; after each, whatever has one unknown option left
 * strikes out the choices of that option that it rules out, so that a line is given up as soon as nothing is left.
 * Only options that some guard asks about are tried; the first choice does for the others.
 */
export function findBuild(space: BuildSpace, wanted: readonly ChoiceCondition[] = []): BuildSearch {
    const search = startSearch(space, wanted);
    const found = search.constraints.every(constraint => holdsSoFar(search, constraint)) ? tryOptions(search) : false;
    if (search.steps > mostSteps) return { sort: 'undecided' };
    if (!found) return { sort: 'none' };
    const complete = new Map<Option, Choice>();
    for (const option of space.options) {
        const value = search.build.get(option) ?? option.choices[0];
        if (value && value !== 'absent') complete.set(option, value);
    }
    return { sort: 'found', build: complete };
}

type Value = Choice | 'absent';

/** Something that must hold, with the options that decide it. */
interface Constraint {
    readonly options: readonly Option[];
    /** Undefined while the choices known so far leave it open. */
    readonly holds: (build: ReadonlyMap<Option, Value>) => boolean | undefined;
}

interface Search {
    readonly constraints: readonly Constraint[];
    readonly constraintsOf: ReadonlyMap<Option, readonly Constraint[]>;
    /** The options to try, those in most constraints first. */
    readonly options: readonly Option[];
    readonly build: Map<Option, Value>;
    /** The values that are still possible for an option. */
    readonly left: Map<Option, readonly Value[]>;
    steps: number;
}

function startSearch(space: BuildSpace, wanted: readonly ChoiceCondition[]): Search {
    const constraints: Constraint[] = [
        ...space.excluded.map(excluded => toConstraint({ sort: 'not', operand: excluded })),
        ...wanted.map(toConstraint),
        ...[...space.guards].map(([option, guard]) => guardConstraint(option, guard)),
    ];
    const constraintsOf = new Map<Option, Constraint[]>();
    for (const constraint of constraints) {
        for (const option of constraint.options) {
            const known = constraintsOf.get(option);
            if (known) known.push(constraint);
            else constraintsOf.set(option, [constraint]);
        }
    }
    const weight = (option: Option) => constraintsOf.get(option)?.length ?? 0;
    const options = space.options.filter(option => weight(option) > 0).sort((a, b) => weight(b) - weight(a));
    const left = new Map<Option, readonly Value[]>(
        options.map(option => [option, space.guards.has(option) ? [...option.choices, 'absent'] : option.choices]),
    );
    return { constraints, constraintsOf, options, build: new Map(), left, steps: 0 };
}

function toConstraint(condition: ChoiceCondition): Constraint {
    return { options: [...optionsIn(condition)], holds: build => evaluate(condition, build) };
}

/** An option with a guard has a choice exactly where the guard holds. */
function guardConstraint(option: Option, guard: ChoiceCondition): Constraint {
    return {
        options: [...optionsIn(guard, new Set([option]))],
        holds: build => {
            const value = build.get(option);
            const guardHolds = evaluate(guard, build);
            return value === undefined || guardHolds === undefined ? undefined : guardHolds === (value !== 'absent');
        },
    };
}

function holdsSoFar(search: Search, constraint: Constraint): boolean {
    search.steps += 1;
    return constraint.holds(search.build) !== false;
}

/** Tries the values of the most limited option, and goes on from each; false where all of them fail. */
function tryOptions(search: Search): boolean {
    const option = nextOption(search);
    if (!option) return true;
    for (const value of search.left.get(option) ?? []) {
        const struck = new Map<Option, readonly Value[]>();
        search.build.set(option, value);
        if (strikeOut(search, option, struck) && tryOptions(search)) return true;
        search.build.delete(option);
        for (const [other, values] of struck) search.left.set(other, values);
        if (search.steps > mostSteps) return false;
    }
    return false;
}

function nextOption(search: Search): Option | undefined {
    let best: Option | undefined;
    let fewest = Number.POSITIVE_INFINITY;
    for (const option of search.options) {
        const count = search.left.get(option)?.length ?? 0;
        if (count < fewest && !search.build.has(option)) {
            best = option;
            fewest = count;
        }
    }
    return best;
}

/** Takes away what the new choice rules out, and notes in `struck` what was there before; false where nothing is left. */
function strikeOut(search: Search, changed: Option, struck: Map<Option, readonly Value[]>): boolean {
    for (const constraint of search.constraintsOf.get(changed) ?? []) {
        if (!holdsSoFar(search, constraint)) return false;
        const unknown = constraint.options.filter(option => search.left.has(option) && !search.build.has(option));
        const [only] = unknown;
        if (!only || unknown.length > 1) continue;
        const before = search.left.get(only) ?? [];
        const after = before.filter(value => {
            search.build.set(only, value);
            const possible = holdsSoFar(search, constraint);
            search.build.delete(only);
            return possible;
        });
        if (after.length === before.length) continue;
        if (!struck.has(only)) struck.set(only, before);
        search.left.set(only, after);
        if (after.length === 0) return false;
    }
    return true;
}
