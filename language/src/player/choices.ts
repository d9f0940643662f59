// Choices that are said one after the other.

import type { Choice, Option } from '../document/types.js';
import { type Choices, decide, possibleChoices } from './builds.js';
import type { Tree } from './tree.js';

/** The choices with one more, or why that cannot be. */
export function withChoice(tree: Tree, choices: Choices, name: string): Choices | string {
    const meant = choicesNamed(tree, name);
    const [first, second] = meant;
    if (!first) return `There is no choice \`${name}\`.`;
    if (second) return `\`${name}\` can be ${meant.map(({ choice }) => `\`${choice.id}\``).join(' or ')}; say which.`;
    const { option, choice } = first;
    const made = choices.get(option.id);
    if (made === choice.id) return choices;
    if (made !== undefined) return `The unit is said to have \`${made}\` already.`;
    if (option.guard && decide(option.guard, tree, choices) === false) {
        return `This unit has no option \`${option.id}\`.`;
    }
    if (!possibleChoices(tree, choices, option).includes(choice.id)) {
        return `No unit is built with \`${choice.id}\` and what has been said before.`;
    }
    return new Map([...choices, [option.id, choice.id]]);
}

/** The choices with this name, with their options; a name with its option before it is that of one. */
export function choicesNamed(
    tree: Tree,
    name: string,
): readonly { readonly option: Option; readonly choice: Choice }[] {
    const all = tree.document.equipment.options.flatMap(option => option.choices.map(choice => ({ option, choice })));
    const exact = all.filter(({ choice }) => choice.id === name);
    return exact.length > 0 ? exact : all.filter(({ choice }) => choice.id.slice(choice.id.indexOf('.') + 1) === name);
}
