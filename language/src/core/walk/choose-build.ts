// The choices of a build while a tree is gone through: those that the technician gives, and those that have to be asked.

import type { Choice, Option } from '../model/equipment.js';
import { nearNames } from '../text/near-names.js';
import { listOf, quoteName } from '../text/words.js';
import { allWorlds, type WorldSet } from './sets/world-sets.js';
import { isPossible, type WalkSpace } from './space.js';

/** One choice, or that a build lacks the option. */
export interface ChoiceMade {
    readonly option: Option;
    readonly choice: Choice | undefined;
    /** As it is said: `three-phase`, or `filter.bag` where two options have a choice of that name. */
    readonly name: string;
}

/** The worlds of the builds with a choice. */
export function buildsWithChoice({ option, choice }: ChoiceMade, { sets, variables }: WalkSpace): WorldSet {
    const value = choice === undefined ? option.choices.length : option.choices.indexOf(choice);
    return sets.is(variables.options.get(option) ?? 0, value);
}

/**
 * The choices to ask for so that groups of worlds come apart: those of the option after which the fewest groups are left
 * together, the first of the text among equals. Only choices that somebody has; none where nothing divides the groups.
 */
export function choicesThatDivide(groups: readonly WorldSet[], space: WalkSpace): readonly ChoiceMade[] {
    const depends = new Set(groups.flatMap(group => space.sets.variablesOf(group)));
    let best: { readonly choices: readonly ChoiceMade[]; readonly left: number } | undefined;
    for (const [option, variable] of optionsInOrder(space)) {
        if (!depends.has(variable)) continue;
        const there = choicesOf(option, space)
            .map(made => ({ made, left: groupsWith(made, groups, space).length }))
            .filter(({ left }) => left > 0);
        if (there.length < 2) continue;
        // How many groups a choice leaves, averaged over the choices.
        const left = there.reduce((sum, one) => sum + one.left, 0) / there.length;
        if (!best || left < best.left) best = { choices: there.map(({ made }) => made), left };
    }
    return best?.choices ?? [];
}

function groupsWith(made: ChoiceMade, groups: readonly WorldSet[], space: WalkSpace): readonly WorldSet[] {
    const builds = buildsWithChoice(made, space);
    return groups.filter(group => isPossible(space.sets.and(group, builds), space));
}

/** In the order of the text, not of the variables. */
function optionsInOrder({ variables }: WalkSpace): [Option, number][] {
    return [...variables.options].sort(([one], [other]) => one.start - other.start);
}

function choicesOf(option: Option, space: WalkSpace): readonly ChoiceMade[] {
    const choices: ChoiceMade[] = option.choices.map(choice => ({
        option,
        choice,
        name: isShared(choice, space) ? `${option.name.text}.${choice.name.text}` : choice.name.text,
    }));
    const absent: ChoiceMade = { option, choice: undefined, name: `without ${option.name.text}` };
    return space.unit.space.guards.has(option) ? [...choices, absent] : choices;
}

function isShared({ name }: Choice, { variables }: WalkSpace): boolean {
    const having = [...variables.options.keys()].filter(({ choices }) =>
        choices.some(one => one.name.text === name.text),
    );
    return having.length > 1;
}

/** The builds that a person names, or what is wrong with the names. */
export type NamedBuilds =
    | { readonly sort: 'builds'; readonly within: WorldSet; readonly choices: readonly ChoiceMade[] }
    | { readonly sort: 'problem'; readonly message: string; readonly advice: string | undefined };

/** Reads choices that stand after commas or spaces: `three-phase, filter.cartridge`. */
export function readBuild(written: string, space: WalkSpace): NamedBuilds {
    const words = written.split(/[\s,]+/).filter(word => word !== '');
    const known = optionsInOrder(space).flatMap(([option]) => option.choices.map(choice => ({ option, choice })));
    const choices: ChoiceMade[] = [];
    for (const word of words) {
        const fitting = known.filter(one => one.choice.name.text === word || fullName(one) === word);
        const [only, second] = fitting;
        if (!only) return unknownChoice(word, known);
        if (second) {
            const names = fitting.map(one => quoteName(fullName(one)));
            return {
                sort: 'problem',
                message: `${quoteName(word)} is a choice of ${fitting.length} options.`,
                advice: `Say which: ${listOf(names, 'or')}.`,
            };
        }
        choices.push({ ...only, name: word });
    }
    const { sets } = space;
    const within = choices.reduce<WorldSet>((all, made) => sets.and(all, buildsWithChoice(made, space)), allWorlds);
    if (isPossible(within, space)) return { sort: 'builds', within, choices };
    const names = listOf(
        choices.map(({ name }) => quoteName(name)),
        'and',
    );
    return { sort: 'problem', message: `No unit is made with ${names}.`, advice: undefined };
}

function fullName({ option, choice }: { readonly option: Option; readonly choice: Choice }): string {
    return `${option.name.text}.${choice.name.text}`;
}

function unknownChoice(
    word: string,
    known: readonly { readonly option: Option; readonly choice: Choice }[],
): NamedBuilds {
    const names = [...new Set(known.map(({ choice }) => choice.name.text))];
    const near = nearNames(word, [...names, ...known.map(fullName)]).map(quoteName);
    const advice =
        near.length > 0
            ? `There is a choice with a similar name: ${listOf(near, 'or')}.`
            : names.length > 0
              ? `The choices are ${listOf(names.map(quoteName), 'and', 12)}.`
              : 'The equipment has no options.';
    return { sort: 'problem', message: `There is no choice called ${quoteName(word)}.`, advice };
}
