// Makes the parser's rules from the grammar, each when it is first needed.
//
// It stands in for Langium's own builder, which makes all rules at once and, at every choice, all its branches anew.

import { GrammarAST, GrammarUtils, type BaseParser } from 'langium';
import type { TokenTypes } from './token.js';

/**
 * Gives the parser these rules, in their order. Within a rule the words, calls and decisions are numbered in their
 * order, as the parser library wants; the prepared decisions are found by all these numbers.
 *
 * `beforeFirst` is called with the number of a rule before it is used for the first time. A form that this language's
 * grammar does not use is an error, but only then: `npm run generate` needs every rule, so no such grammar gets further.
 */
export function buildRules(
    rules: readonly GrammarAST.ParserRule[],
    parser: BaseParser,
    tokens: TokenTypes,
    beforeFirst: (rule: number) => void = () => undefined,
): void {
    rules.forEach((rule, number) => {
        let built: Action | undefined;
        parser.rule(rule, () => {
            if (built === undefined) {
                beforeFirst(number);
                built = buildElement(startBuild(rule, parser, tokens), rule.definition);
            }
            built();
        });
    });
}

type Action = () => void;

interface Build {
    readonly rule: GrammarAST.ParserRule;
    readonly parser: BaseParser;
    readonly tokens: TokenTypes;
    /** The next number for each sort of element. */
    consume: number;
    subrule: number;
    alternatives: number;
    many: number;
    optional: number;
}

// No rule of this language takes arguments.
const noArguments: Record<string, boolean> = {};

function startBuild(rule: GrammarAST.ParserRule, parser: BaseParser, tokens: TokenTypes): Build {
    return { rule, parser, tokens, consume: 1, subrule: 1, alternatives: 1, many: 1, optional: 1 };
}

function buildElement(build: Build, element: GrammarAST.AbstractElement): Action {
    const once = buildOnce(build, element);
    const { parser } = build;
    switch (element.cardinality) {
        case '*': {
            const number = build.many++;
            const repeated = { DEF: once };
            return () => parser.many(number, repeated);
        }
        case '+': {
            const number = build.many++;
            const repeated = { DEF: once };
            return () => parser.atLeastOne(number, repeated);
        }
        case '?': {
            const number = build.optional++;
            const optional = { DEF: once };
            return () => parser.optional(number, optional);
        }
        default:
            return once;
    }
}

function buildOnce(build: Build, element: GrammarAST.AbstractElement): Action {
    if (GrammarAST.isKeyword(element)) {
        return buildToken(build, element.value, element);
    }
    if (GrammarAST.isAssignment(element)) {
        return buildElement(build, element.terminal);
    }
    if (GrammarAST.isCrossReference(element) && GrammarAST.isRuleCall(element.terminal)) {
        return buildCall(build, element.terminal, element);
    }
    if (GrammarAST.isRuleCall(element)) {
        return buildCall(build, element, element);
    }
    if (GrammarAST.isAlternatives(element)) {
        return buildAlternatives(build, element);
    }
    if (GrammarAST.isGroup(element) && element.guardCondition === undefined) {
        return buildSequence(build, element);
    }
    if (GrammarAST.isAction(element)) {
        const type = GrammarUtils.getTypeName(element);
        return () => build.parser.action(type, element);
    }
    throw new Error(`The rule ${build.rule.name} has a ${element.$type}, which the rule builder does not know.`);
}

function buildSequence(build: Build, { elements }: GrammarAST.Group): Action {
    const actions = elements.map(element => buildElement(build, element));
    return () => {
        for (const action of actions) action();
    };
}

function buildAlternatives(build: Build, { elements }: GrammarAST.Alternatives): Action {
    const choices = elements.map(element => ({ ALT: buildElement(build, element) }));
    const number = build.alternatives++;
    const { parser } = build;
    return () => parser.alternatives(number, choices);
}

// `source` is the element that the syntax tree names as the origin: the reference, where the call is for its name.
function buildCall(build: Build, call: GrammarAST.RuleCall, source: GrammarAST.AbstractElement): Action {
    const rule = call.rule.ref;
    if (GrammarAST.isTerminalRule(rule)) {
        return buildToken(build, rule.name, source);
    }
    if (!GrammarAST.isParserRule(rule) || call.arguments.length > 0) {
        throw new Error(
            `The rule ${build.rule.name} calls ${call.rule.$refText} in a way that the rule builder does not know.`,
        );
    }
    const number = build.subrule++;
    const { name, fragment } = rule;
    const { parser } = build;
    let called: ReturnType<BaseParser['getRule']>;
    return () => {
        called ??= parser.getRule(name);
        if (called !== undefined) parser.subrule(number, called, fragment, source, noArguments);
    };
}

function buildToken(build: Build, name: string, source: GrammarAST.AbstractElement): Action {
    const type = build.tokens[name];
    if (type === undefined) {
        throw new Error(`The rule ${build.rule.name} names the token ${name}, which the lexer does not have.`);
    }
    const number = build.consume++;
    const { parser } = build;
    return () => parser.consume(number, type, source);
}
