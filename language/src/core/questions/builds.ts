// Whether guards hold in a build that is really made; each search is done once for each version of an equipment.

import { type ChoiceCondition, optionsIn } from '../builds/evaluate.js';
import { type BuildSearch, type BuildSpace, buildSpaceOf, findBuild } from '../builds/find-build.js';
import type { Choice, Equipment, Option } from '../model/equipment.js';
import type { ChoiceExpression } from '../model/guards.js';
import type { Model } from '../model/model.js';
import { conditionOf } from './answers.js';

/** The guards with their names looked up; undefined where one of them cannot be, so that nothing is concluded. */
export function conditionsOf(
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

/** The builds of an equipment. */
export function spaceOf(equipment: Equipment, model: Model): BuildSpace {
    return searchesOf(equipment, model).space;
}

/**
 * One build that is made and in which all the conditions hold.
 * Without an equipment there are no options: everything is one and the same build.
 */
export function searchBuilds(
    equipment: Equipment | undefined,
    model: Model,
    wanted: readonly ChoiceCondition[],
): BuildSearch {
    if (!equipment) return findBuild({ options: [], guards: new Map(), excluded: [] }, wanted);
    const searches = searchesOf(equipment, model);
    // What no build is known to be can hold in none; and what took too long by itself takes longer with more to hold.
    if (searches.any.sort !== 'found' || wanted.length === 0) return searches.any;
    const key = wanted.map(condition => keyOf(condition, searches.numbers)).join('&');
    let search = searches.known.get(key);
    if (!search) {
        search = searches.givenUp < mostGivenUp ? findBuild(searches.space, wanted) : { sort: 'undecided' };
        if (search.sort === 'undecided') searches.givenUp += 1;
        searches.known.set(key, search);
    }
    return search;
}

/** After so many searches that gave up, the others for the same equipment are not begun: each would take as long. */
const mostGivenUp = 10;

/** Whether a search gave up although the equipment itself is plain: where it is not, that is told once. */
export function gaveUp(search: BuildSearch, equipment: Equipment | undefined, model: Model): boolean {
    return search.sort === 'undecided' && searchBuilds(equipment, model, []).sort === 'found';
}

interface Searches {
    readonly space: BuildSpace;
    /** A build of any kind. */
    readonly any: BuildSearch;
    /** A number for each choice, to name conditions by. */
    readonly numbers: ReadonlyMap<Choice, number>;
    readonly known: Map<string, BuildSearch>;
    /** How many searches gave up. */
    givenUp: number;
}

const searchesOfEquipment = new WeakMap<Equipment, Searches>();

function searchesOf(equipment: Equipment, model: Model): Searches {
    let searches = searchesOfEquipment.get(equipment);
    if (!searches) {
        const space = buildSpaceOf(equipment, reference => model.target(reference));
        const choices = equipment.options.flatMap(option => option.choices);
        const numbers = new Map(choices.map((choice, index) => [choice, index]));
        searches = { space, any: findBuild(space), numbers, known: new Map(), givenUp: 0 };
        searchesOfEquipment.set(equipment, searches);
    }
    return searches;
}

/** The same text for conditions that say the same of the same choices in the same order. */
function keyOf(condition: ChoiceCondition, numbers: ReadonlyMap<Choice, number>): string {
    switch (condition.sort) {
        case 'is':
            return String(numbers.get(condition.choice));
        case 'not':
            return `!${keyOf(condition.operand, numbers)}`;
        default: {
            const sign = condition.sort === 'all' ? '&' : '|';
            return `(${condition.operands.map(operand => keyOf(operand, numbers)).join(sign)})`;
        }
    }
}

/** One build that shows something, as the author's choices. */
export type WitnessBuild = ReadonlyMap<Option, Choice>;

/** A build as a counterexample shows it: the choices of the options that the conditions ask about. Empty for any build. */
export function describeBuild(build: WitnessBuild, asked: readonly ChoiceCondition[]): string[] {
    const options = new Set<Option>();
    for (const condition of asked) optionsIn(condition, options);
    return describeChoices(build, [...options]);
}

/** The choices of a build for some of its options, as the author names them. */
export function describeChoices(build: WitnessBuild, shown: readonly Option[]): string[] {
    const options = new Set(shown);
    const isShared = ({ name }: Choice) =>
        [...build.keys()].filter(option => option.choices.some(choice => choice.name.text === name.text)).length > 1;
    return [...build]
        .filter(([option]) => options.has(option))
        .map(([option, choice]) => (isShared(choice) ? `${option.name.text}.${choice.name.text}` : choice.name.text));
}
