// Works out what may stand after a place in a file, from the grammar itself, so that messages never name what is not allowed.

import { GrammarAST } from 'langium';
import { wordsAsNames } from './name-rules.js';

/** How a rule of the grammar was called; `undefined` for the rule that a file begins with. */
export interface Caller {
    readonly element: GrammarAST.AbstractElement;
    readonly caller: Caller | undefined;
}

/** A place in the grammar: behind `element`, within the rule that `caller` called. */
export interface GrammarPlace {
    readonly element: GrammarAST.AbstractElement;
    readonly caller: Caller | undefined;
}

/** One thing that may stand at a place. */
export type Expected =
    | { readonly sort: 'word'; readonly word: string }
    | { readonly sort: 'text' | 'amount' }
    | {
          readonly sort: 'name';
          /** What the name refers to (`Gate`), or undefined where it is a new name. */
          readonly of: string | undefined;
          /** The property that keeps it: `zone`, `hazards`. */
          readonly property: string;
          /** The words of the language that may stand for it beside names of the writer's own. */
          readonly words: ReadonlySet<string>;
      };

/** One way to go on from a place: what is expected, and the place behind it. */
export interface Step {
    readonly thing: Expected;
    readonly place: GrammarPlace;
}

/** What may stand at a place as part of one rule; the innermost rule comes first. */
export interface ExpectedLevel {
    /** The rule's name in the grammar: `Step`. */
    readonly rule: string;
    /** Every way to go on; the same thing may be expected in several ways. */
    readonly steps: readonly Step[];
    /** Whether what stands here ends this rule's block or the file: nothing further out can be meant. */
    readonly block: boolean;
}

/** Everything that may stand behind any of the places, rule by rule outwards, as far as rules can end there. */
export function expectedAfter(places: readonly GrammarPlace[]): readonly ExpectedLevel[] {
    const [only] = places;
    if (places.length === 1 && only !== undefined) {
        return expectedAfterOne(only);
    }
    const merged = new Map<string, ExpectedLevel>();
    for (const level of places.flatMap(expectedAfterOne)) {
        const known = merged.get(level.rule);
        const steps = [...(known?.steps ?? []), ...level.steps];
        merged.set(level.rule, { rule: level.rule, steps, block: level.block });
    }
    return [...merged.values()];
}

/** What a file may begin with. */
export function expectedAtStart(grammar: GrammarAST.Grammar): readonly ExpectedLevel[] {
    const rule = grammar.rules.filter(GrammarAST.isParserRule).find(({ entry }) => entry);
    if (rule === undefined) {
        return [];
    }
    const steps: Step[] = [];
    collectFirst(rule.definition, undefined, steps);
    return [{ rule: rule.name, steps, block: true }];
}

/** What a level expects, each thing once, in the order of the grammar. */
export function thingsOf(levels: readonly ExpectedLevel[]): readonly Expected[] {
    const things = new Map<string, Expected>();
    for (const { thing } of levels.flatMap(({ steps }) => steps)) {
        const key = thing.sort === 'word' ? `word ${thing.word}` : thing.sort;
        if (!things.has(key)) {
            things.set(key, thing);
        }
    }
    return [...things.values()];
}

function expectedAfterOne(place: GrammarPlace): readonly ExpectedLevel[] {
    const levels: ExpectedLevel[] = [];
    let next: GrammarPlace | undefined = place;
    while (next !== undefined) {
        const steps: Step[] = [];
        const canEnd = collectFollowing(next.element, next.caller, steps);
        const rule = ruleOf(next.element);
        const block = rule.entry || steps.some(({ thing }) => thing.sort === 'word' && thing.word === '}');
        if (steps.length > 0) {
            levels.push({ rule: rule.name, steps, block });
        }
        next = canEnd ? next.caller : undefined;
    }
    return levels;
}

// Collects what may follow an element within its rule; returns whether the rule can end there.
function collectFollowing(start: GrammarAST.AbstractElement, caller: Caller | undefined, steps: Step[]): boolean {
    let element = start;
    for (;;) {
        if (element.cardinality === '*' || element.cardinality === '+') {
            collectFirst(element, caller, steps);
        }
        const container = element.$container;
        if (GrammarAST.isGroup(container)) {
            const after = container.elements.slice(container.elements.indexOf(element) + 1);
            if (!collectSequence(after, caller, steps)) {
                return false;
            }
        }
        if (!GrammarAST.isAbstractElement(container)) {
            return true;
        }
        element = container;
    }
}

// Collects what an element may begin with; returns whether it may be left out.
function collectFirst(element: GrammarAST.AbstractElement, caller: Caller | undefined, steps: Step[]): boolean {
    const optional = collectFirstOnce(element, caller, steps);
    return optional || element.cardinality === '?' || element.cardinality === '*';
}

function collectFirstOnce(element: GrammarAST.AbstractElement, caller: Caller | undefined, steps: Step[]): boolean {
    if (GrammarAST.isAssignment(element)) {
        return collectFirst(element.terminal, caller, steps);
    }
    if (GrammarAST.isAlternatives(element)) {
        return element.elements.map(alternative => collectFirst(alternative, caller, steps)).includes(true);
    }
    if (GrammarAST.isGroup(element)) {
        return collectSequence(element.elements, caller, steps);
    }
    if (
        GrammarAST.isRuleCall(element) &&
        GrammarAST.isParserRule(element.rule.ref) &&
        wordsAsNames(element.rule.ref) === undefined
    ) {
        return collectFirst(element.rule.ref.definition, { element, caller }, steps);
    }
    const thing = thingOf(element);
    if (thing === undefined) {
        return true;
    }
    steps.push({ thing, place: { element, caller } });
    return false;
}

function collectSequence(
    elements: readonly GrammarAST.AbstractElement[],
    caller: Caller | undefined,
    steps: Step[],
): boolean {
    return elements.every(element => collectFirst(element, caller, steps));
}

function thingOf(element: GrammarAST.AbstractElement): Expected | undefined {
    if (GrammarAST.isKeyword(element)) {
        return { sort: 'word', word: element.value };
    }
    if (GrammarAST.isCrossReference(element)) {
        const terminal = GrammarAST.isRuleCall(element.terminal) ? element.terminal.rule.ref : undefined;
        const words = wordsAsNames(terminal) ?? noWords;
        return { sort: 'name', of: element.type.$refText, property: propertyOf(element), words };
    }
    if (!GrammarAST.isRuleCall(element)) {
        return undefined;
    }
    switch (element.rule.$refText) {
        case 'TEXT':
            return { sort: 'text' };
        case 'AMOUNT':
            return { sort: 'amount' };
        default:
            return {
                sort: 'name',
                of: undefined,
                property: propertyOf(element),
                words: wordsAsNames(element.rule.ref) ?? noWords,
            };
    }
}

const noWords: ReadonlySet<string> = new Set();

function propertyOf(element: GrammarAST.AbstractElement): string {
    const container = element.$container;
    if (GrammarAST.isAssignment(container)) {
        return container.feature;
    }
    return GrammarAST.isAbstractElement(container) ? propertyOf(container) : '';
}

function ruleOf(element: GrammarAST.AbstractElement): GrammarAST.ParserRule {
    let node: GrammarAST.AbstractElement['$container'] | GrammarAST.AbstractElement = element;
    while (GrammarAST.isAbstractElement(node)) {
        node = node.$container;
    }
    return node as GrammarAST.ParserRule;
}
