// The variables of the walk's world sets for one unit, and how guards become sets of builds.
//
// The arrival fault and the faults present now are no variables: the walk keeps a set for each of them (see presence.ts),
// which is the same as having them on top of the order. Measured before it was written: with 200 faults and 40 options
// anything else on top explodes. Below come the options, in an order in which those that guards name together stand near
// each other, then what actions change (conditions, gates, hazards made safe), then the draws. What changes stands below
// what never does, so that an action rebuilds the bottom of a set and shares the rest. That only some builds are made
// is asked at the last moment (`isPossible`): keeping every set free of the others made one case take seconds.

import type { ChoiceCondition } from '../builds/evaluate.js';
import type { Choice, Option } from '../model/equipment.js';
import type { InBuilds, Unit } from '../meaning/unit.js';
import { takenValues } from '../meaning/noted.js';
import { drawSizes } from '../meaning/draws.js';
import { orderVariables } from './sets/order.js';
import { allWorlds, noWorlds, TooManyNodes, type WorldSet, WorldSets } from './sets/world-sets.js';
import type { VariableKind } from './formulas/variables.js';
import { FormulaSets } from './without-diagrams.js';
import type { WorldSetOperations } from './world-set-operations.js';

/** The sets of worlds of one unit. */
export interface WalkSpace {
    readonly unit: Unit;
    readonly sets: WorldSetOperations;
    /** What must all hold for a build to be made. */
    readonly made: readonly WorldSet[];
    readonly variables: Variables;
    /** Guards that were turned into sets before. */
    readonly known: Map<ChoiceCondition, WorldSet>;
    /** How often it stayed open whether a set has a world at all; such a set is kept as if it had. */
    openCount(): number;
}

/** Where each thing stands in the order of variables. */
export interface Variables {
    readonly options: ReadonlyMap<Option, number>;
    readonly conditions: readonly number[];
    readonly gates: readonly number[];
    readonly hazards: readonly number[];
    readonly guessed: number;
    /** By test; -1 for a test whose reading no other needs. */
    readonly taken: readonly number[];
    /** By test; -1 for a test that leaves nothing open. */
    readonly draws: readonly number[];
    readonly drawSizes: readonly number[];
}

/** How large the sets of one unit may grow. */
export interface WalkBudget {
    /** Nodes of diagrams; beyond them formulas are used. */
    readonly nodes: number;
    /** Formulas; beyond them a tree cannot be walked. */
    readonly formulas: number;
    /** Steps of proofs about formulas; beyond them it stays open which sets are empty. */
    readonly proofSteps: number;
}

/** Each of them takes a second or a few. */
export const usualBudget: WalkBudget = { nodes: 1_000_000, formulas: 400_000, proofSteps: 20_000_000 };

/** How the sets are held: as diagrams, or as formulas where no diagram of a set is small. */
export type HeldAs = 'diagrams' | 'formulas';

/** The variables and sets of a unit. `guards` are those that will be asked together, for the order of the options. */
export function makeSpace(
    unit: Unit,
    guards: readonly InBuilds[],
    budget: WalkBudget = usualBudget,
    heldAs: HeldAs = 'diagrams',
): WalkSpace {
    const { variables, sizes, kinds } = makeVariables(unit, guards);
    if (heldAs === 'formulas') return makeFormulaSpace(unit, { variables, sizes, kinds }, budget);
    const sets = new WorldSets(sizes, { mostNodes: budget.nodes });
    const space: WalkSpace = { unit, sets, made: [], variables, known: new Map(), openCount: () => 0 };
    return { ...space, made: joinConditions(conditionsOfBuilds(space), sets) };
}

function makeFormulaSpace(
    unit: Unit,
    { variables, sizes, kinds }: ReturnType<typeof makeVariables>,
    { formulas, proofSteps }: WalkBudget,
): WalkSpace {
    const sets = new FormulaSets(sizes, kinds, { mostNodes: formulas, mostSteps: proofSteps });
    const space: WalkSpace = { unit, sets, made: [], variables, known: new Map(), openCount: () => sets.openCount };
    const made = sets.begin(conditionsOfBuilds(space));
    // Whether any build is made is told elsewhere; where that is not known, nothing that depends on it is said here.
    if (made === undefined) throw new TooManyNodes('No build was found that is made.');
    return made === allWorlds ? space : { ...space, made: [made] };
}

function makeVariables(
    unit: Unit,
    guards: readonly InBuilds[],
): { readonly variables: Variables; readonly sizes: readonly number[]; readonly kinds: readonly VariableKind[] } {
    const sizes: number[] = [];
    const kinds: VariableKind[] = [];
    const add = (size: number, kind: VariableKind) => {
        kinds.push(kind);
        return sizes.push(size) - 1;
    };
    const options = new Map<Option, number>();
    for (const option of orderOptions(unit, guards)) {
        options.set(option, add(option.choices.length + (unit.space.guards.has(option) ? 1 : 0), 'build'));
    }
    const conditions = unit.conditions.map(({ declaration }) => add(Math.max(1, declaration.values.length), 'state'));
    const gates = unit.gates.map(() => add(2, 'state'));
    const hazards = unit.hazards.map(() => add(2, 'state'));
    const guessed = add(2, 'state');
    const taken = unit.tests.map(({ noted }) => (noted ? add(takenValues, 'state') : -1));
    const drawsOf = drawSizes(unit);
    const draws = drawsOf.map(size => (size > 1 ? add(size, 'draw') : -1));
    return {
        variables: { options, conditions, gates, hazards, guessed, taken, draws, drawSizes: drawsOf },
        sizes,
        kinds,
    };
}

/** Options that guards name together stand near each other. */
function orderOptions(unit: Unit, guards: readonly InBuilds[]): Option[] {
    const { options, guards: ofOptions, excluded } = unit.space;
    const numbers = new Map(options.map((option, number) => [option, number]));
    const groups: number[][] = [];
    const addGroup = (conditions: readonly ChoiceCondition[], more: readonly Option[] = []) => {
        const found = new Set<number>();
        const pending = [...conditions];
        for (let one = pending.pop(); one; one = pending.pop()) {
            if (one.sort === 'is') found.add(numbers.get(one.option) ?? 0);
            else if (one.sort === 'not') pending.push(one.operand);
            else pending.push(...one.operands);
        }
        for (const option of more) found.add(numbers.get(option) ?? 0);
        if (found.size > 1) groups.push([...found].sort((a, b) => a - b));
    };
    for (const condition of excluded) addGroup([condition]);
    for (const [option, guard] of ofOptions) addGroup([guard], [option]);
    for (const guard of guards) if (guard) addGroup([guard]);
    return orderVariables(options.length, groups)
        .map(number => options[number])
        .filter(one => one !== undefined);
}

/** What must hold for a build to be made: the exclusions and the guards of options. */
function conditionsOfBuilds(space: WalkSpace): WorldSet[] {
    const { sets, unit } = space;
    const conditions = unit.space.excluded.map(condition => sets.not(buildsWhere(condition, space)));
    for (const [option, guard] of unit.space.guards) {
        const there = sets.not(sets.is(space.variables.options.get(option) ?? 0, option.choices.length));
        const wanted = buildsWhere(guard, space);
        conditions.push(sets.or(sets.and(there, wanted), sets.not(sets.or(there, wanted))));
    }
    return conditions;
}

/** Conditions joined as long as that stays small. */
function joinConditions(conditions: readonly WorldSet[], sets: WorldSets): WorldSet[] {
    const joined: WorldSet[] = [];
    let current: WorldSet = allWorlds;
    for (const one of conditions) {
        const before = sets.nodeCount;
        current = sets.and(current, one);
        if (sets.nodeCount - before < mostJoinedNodes) continue;
        joined.push(current);
        current = allWorlds;
    }
    return current === allWorlds ? joined : [...joined, current];
}

/** How many nodes one exclusion may add to the joined ones. */
const mostJoinedNodes = 5_000;

/** The variables that actions change: all but the options and the draws. */
export function changedByActions({ conditions, gates, hazards, guessed, taken }: Variables): number[] {
    return [...conditions, ...gates, ...hazards, guessed, ...taken.filter(variable => variable >= 0)];
}

/** The builds in which a guard holds. */
export function buildsWhere(guard: InBuilds, space: WalkSpace): WorldSet {
    if (!guard) return allWorlds;
    let found = space.known.get(guard);
    if (found === undefined) {
        found = makeBuilds(guard, space);
        space.known.set(guard, found);
    }
    return found;
}

function makeBuilds(guard: ChoiceCondition, space: WalkSpace): WorldSet {
    const { sets } = space;
    switch (guard.sort) {
        case 'is': {
            const variable = space.variables.options.get(guard.option);
            return variable === undefined ? noWorlds : sets.is(variable, guard.option.choices.indexOf(guard.choice));
        }
        case 'not':
            return sets.not(makeBuilds(guard.operand, space));
        case 'all':
            return guard.operands.reduce<WorldSet>((all, one) => sets.and(all, makeBuilds(one, space)), allWorlds);
        case 'any':
            return guard.operands.reduce<WorldSet>((any, one) => sets.or(any, makeBuilds(one, space)), noWorlds);
    }
}

/** Whether a set holds a world of a build that is made. */
export function isPossible(set: WorldSet, { sets, made }: WalkSpace): boolean {
    const first = made[0];
    if (set === noWorlds || first === undefined) return set !== noWorlds;
    return made.length === 1 ? sets.meets(set, first) : sets.allMeet([set, ...made]);
}

/** A set limited to the builds that are made. */
export function onlyMade(set: WorldSet, { sets, made }: WalkSpace): WorldSet {
    return made.reduce((left, one) => sets.and(left, one), set);
}

/** One world of a set: its build, and its draw for each test. Undefined where no build of the set is made. */
export function pickWorld(set: WorldSet, space: WalkSpace): PickedWorld | undefined {
    const world = space.sets.pickInAll([set, ...space.made]);
    return world && readWorld(world, space);
}

/** The variables to look at so that it is seen why the world that is picked lies in the set. */
export function variablesThatMatter(set: WorldSet, { sets }: WalkSpace): number[] {
    // The formulas of a set ask about more than it depends on.
    return sets instanceof FormulaSets ? sets.variablesOfFirst(set) : sets.variablesOf(set);
}

export interface PickedWorld {
    readonly build: ReadonlyMap<Option, Choice>;
    readonly draws: readonly number[];
}

/** The build and draws out of the values of all variables. */
export function readWorld(world: readonly number[], { variables }: WalkSpace): PickedWorld {
    const build = new Map<Option, Choice>();
    // In the order of the equipment, not of the variables.
    const options = [...variables.options].sort(([one], [other]) => one.start - other.start);
    for (const [option, variable] of options) {
        const choice = option.choices[world[variable] ?? 0];
        if (choice) build.set(option, choice);
    }
    return { build, draws: variables.draws.map(variable => (variable < 0 ? 0 : (world[variable] ?? 0))) };
}

const buildsOf = new WeakMap<WalkSpace['variables'], (set: WorldSet) => WorldSet>();

/** The builds of a set of worlds: what is left when conditions, gates and draws are forgotten. */
export function buildsIn(set: WorldSet, space: WalkSpace): WorldSet {
    const { draws } = space.variables;
    let forget = buildsOf.get(space.variables);
    if (!forget) {
        const drawn = draws.filter(variable => variable >= 0);
        forget = forgetterOf([...changedByActions(space.variables), ...drawn], space);
        buildsOf.set(space.variables, forget);
    }
    return forget(set);
}

const forgetters = new WeakMap<WorldSetOperations, Map<string, (set: WorldSet) => WorldSet>>();

/** Forgets some variables, of each set once: the same sets come again at other places, and in the next walk. */
export function forgetterOf(variables: readonly number[], { sets }: WalkSpace): (set: WorldSet) => WorldSet {
    const known = forgetters.get(sets) ?? new Map<string, (set: WorldSet) => WorldSet>();
    forgetters.set(sets, known);
    const key = variables.join();
    const forgotten = new Map<WorldSet, WorldSet>();
    const forget =
        known.get(key) ??
        ((set: WorldSet): WorldSet => {
            let left = forgotten.get(set);
            if (left === undefined) {
                left = sets.forget(set, variables);
                forgotten.set(set, left);
            }
            return left;
        });
    known.set(key, forget);
    return forget;
}
