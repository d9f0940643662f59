// Finds a build and a state together in which something is so of a test's readings.

import type { ChoiceCondition, PartialBuild } from '../builds/evaluate.js';
import { evaluate } from '../builds/evaluate.js';
import { type BuildSearch, type BuildSpace, findBuild } from '../builds/find-build.js';
import type { Choice, Equipment, Option } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import { describeBuild, searchBuilds, spaceOf, type WitnessBuild } from '../questions/builds.js';
import { allOf, isNever } from './conditions.js';

/** A build and a state that show something. */
export interface Witness {
    /** Every option, those of states too; `absent` where the build has not got it. */
    readonly choices: PartialBuild;
    /** The choices of the build that matter, as the author names them; empty for any build. */
    readonly build: readonly string[];
    /** The state, as the author would write it: `battery-lead fitted`. */
    readonly state: readonly string[];
}

export interface ReadingSearch {
    /** The conditions, flows and hazards that states name, each as an option. */
    readonly states: readonly Option[];
    /** What holds wherever the test is asked and says what a healthy unit shows. */
    readonly context: ChoiceCondition;
    /** One build and state in which the context holds, and what is wanted. */
    readonly find: (wanted: ChoiceCondition) => Witness | undefined;
    /** True once a search was given up: nothing is known of what it was for. */
    readonly gaveUp: () => boolean;
}

/** After so many searches that gave up, the others for the same test are not begun. */
const mostGivenUp = 3;

const noGuards: BuildSpace['guards'] = new Map();

/** A search over the builds of an equipment, and the states; of these only those in `told` are named for an example. */
export function makeSearch(
    equipment: Equipment | undefined,
    model: Model,
    context: ChoiceCondition,
    states: readonly Option[],
    told: ReadonlySet<Option>,
): ReadingSearch {
    let spaceOfBoth: BuildSpace | undefined;
    const both = (): BuildSpace => (spaceOfBoth ??= withStates(equipment, model, states));
    let givenUp = 0;
    const search = (wanted: readonly ChoiceCondition[]): BuildSearch => {
        const any = searchBuilds(equipment, model, []);
        if (any.sort !== 'found') return { sort: 'none' };
        if (states.length === 0) return searchBuilds(equipment, model, wanted);
        if (givenUp >= mostGivenUp) return { sort: 'undecided' };
        // What contradicts itself needs no look at the exclusions, which would be tried in every way before.
        const alone = findBuild({ ...both(), guards: noGuards, excluded: [] }, wanted);
        return alone.sort === 'none' ? alone : findBuild(both(), wanted);
    };
    return {
        states,
        context,
        find: wanted => {
            const all = allOf([context, wanted]);
            if (isNever(all)) return undefined;
            const found = search(all.sort === 'all' ? all.operands : [all]);
            if (found.sort === 'undecided') givenUp += 1;
            return found.sort === 'found' ? makeWitness(found.build, all, both(), { states, told }) : undefined;
        },
        gaveUp: () => givenUp > 0,
    };
}

function withStates(equipment: Equipment | undefined, model: Model, states: readonly Option[]): BuildSpace {
    const space: BuildSpace = equipment ? spaceOf(equipment, model) : { options: [], guards: noGuards, excluded: [] };
    return { ...space, options: [...space.options, ...states] };
}

/** Whether a condition holds for a witness. */
export function holdsFor(condition: ChoiceCondition, { choices }: Witness): boolean {
    return evaluate(condition, choices) === true;
}

function makeWitness(
    build: WitnessBuild,
    asked: ChoiceCondition,
    { options }: BuildSpace,
    { states, told }: { readonly states: readonly Option[]; readonly told: ReadonlySet<Option> },
): Witness {
    const choices = new Map<Option, Choice | 'absent'>(options.map(option => [option, build.get(option) ?? 'absent']));
    const state = states.flatMap(option => {
        const choice = told.has(option) ? build.get(option) : undefined;
        return choice ? [`${option.name.text} ${choice.name.text}`] : [];
    });
    const ofStates = new Set(states);
    const plain = new Map([...build].filter(([option]) => !ofStates.has(option)));
    return { choices, build: describeBuild(plain, [asked]), state };
}
