// Texts by locale, and states in words.

import type { State as StateOfDocument, Text } from '../document/types.js';
import type { Tree } from './tree.js';

/** Gives texts in the locale that is asked for, else in its language, else in that of the author, else in any. */
export interface Words {
    readonly of: (text: Text) => string;
    readonly optional: (text: Text | undefined) => string | undefined;
    /** A title, or the id where there is none. */
    readonly title: (declared: { readonly id: string; readonly title?: Text } | undefined, id?: string) => string;
}

export function wordsIn(locale: string | undefined, { document }: Tree): Words {
    const wanted = [...(locale === undefined ? [] : [locale, ...shorter(locale)]), document.locales[0] ?? 'en', 'en'];
    const of = (text: Text): string => {
        const known = wanted.find(name => Object.hasOwn(text, name)) ?? Object.keys(text)[0];
        return known === undefined ? '' : (text[known] ?? '');
    };
    return {
        of,
        optional: text => text && of(text),
        title: (declared, id = '') => (declared?.title ? of(declared.title) : (declared?.id ?? id)),
    };
}

/** A locale without its last part, and so on: `de-AT` gives `de`. */
function shorter(locale: string): readonly string[] {
    const parts = locale.slice(0, 100).split('-');
    return parts.slice(1).map((_, index) => parts.slice(0, parts.length - 1 - index).join('-'));
}

/** A state in words, with the titles of the author between signs that need no language. */
export function stateInWords(state: StateOfDocument, tree: Tree, words: Words): string {
    if ('condition' in state) {
        const condition = tree.conditions.get(state.condition);
        const value = condition?.values.find(({ id }) => id === state.value);
        return `${words.title(condition, state.condition)}: ${words.title(value, state.value)}`;
    }
    if ('isolated' in state) {
        const energy = tree.hazards.get(state.isolated) ?? tree.supplies.get(state.isolated);
        return `${words.title(energy, state.isolated)}: isolated`;
    }
    if ('allIsolated' in state) return 'everything isolated';
    if ('flowing' in state) {
        const flow = tree.document.equipment.flows.find(({ id }) => id === state.flowing);
        return `${words.title(flow, state.flowing)}: flowing`;
    }
    if ('not' in state) return `not (${stateInWords(state.not, tree, words)})`;
    const [operands, sign] = 'all' in state ? [state.all, ' and '] : [state.any, ' or '];
    return operands.map(operand => stateInWords(operand, tree, words)).join(sign);
}
