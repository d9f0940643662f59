// Loads the grammar for the parser, without the services that Langium would set up to load it.

import type { GrammarAST } from 'langium';
import { grammarJson } from '../../generated/grammar-json.js';

/**
 * The elements of the grammar with the same containers and references as Langium's own loader gives them, but without
 * a document around them. What a rule is made of is linked when it is first looked at: most files use few of the rules.
 */
export function loadGrammar(): GrammarAST.Grammar {
    const grammar = JSON.parse(grammarJson) as Element;
    place(grammar, { grammar, container: undefined, property: undefined, index: undefined });
    return grammar as unknown as GrammarAST.Grammar;
}

type Element = Record<string, unknown>;

interface Place {
    readonly grammar: Element;
    readonly container: Element | undefined;
    readonly property: string | undefined;
    readonly index: number | undefined;
}

function place(element: Element, { grammar, container, property, index }: Place): void {
    for (const name of Object.keys(element)) {
        const value = element[name];
        if (typeof value !== 'object' || value === null) {
            continue;
        }
        if (name === 'definition') {
            placeWhenNeeded(element, value as Element, grammar);
        } else if (Array.isArray(value)) {
            value.forEach((item, position) => {
                value[position] = placeItem(item, { grammar, container: element, property: name, index: position });
            });
        } else {
            element[name] = placeItem(value, { grammar, container: element, property: name, index: undefined });
        }
    }
    element['$container'] = container;
    element['$containerProperty'] = property;
    element['$containerIndex'] = index;
}

function placeWhenNeeded(rule: Element, definition: Element, grammar: Element): void {
    Object.defineProperty(rule, 'definition', {
        enumerable: true,
        configurable: true,
        get: () => {
            Object.defineProperty(rule, 'definition', { value: definition, enumerable: true });
            place(definition, { grammar, container: rule, property: 'definition', index: undefined });
            return definition;
        },
    });
}

function placeItem(item: unknown, at: Place): unknown {
    if (typeof item !== 'object' || item === null) {
        return item;
    }
    if ('$ref' in item) {
        return makeReference(String(item.$ref), at.grammar);
    }
    if ('$type' in item) {
        place(item, at);
    }
    return item;
}

// References name a list of the grammar and the place in it: `#/rules@3`.
function makeReference(path: string, grammar: Element): unknown {
    const [, list = '', index = ''] = /^#\/(\w+)@(\d+)$/.exec(path) ?? [];
    const target = (grammar[list] as readonly Element[] | undefined)?.[Number(index)];
    if (target === undefined) {
        throw new Error(`The grammar refers to ${path}, which it does not have.`);
    }
    return { $refText: target['name'], ref: target };
}
