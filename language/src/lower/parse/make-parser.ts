// Makes a parser that is ready to read.

import { DatatypeSymbol, GrammarAST, type LangiumCoreServices } from 'langium';
import { parserTables, type ParserTables } from '../../generated/parser-tables.js';
import { FaultParser } from './fault-parser.js';
import { prepareParser, type PreparedEngine } from './prepared-parser.js';
import { buildRules } from './rule-builder.js';

/** A parser with all rules of the grammar, prepared from what is known of the grammar beforehand. */
export function makeParser(services: LangiumCoreServices): FaultParser {
    const parser = new FaultParser(services);
    const types = services.parser.Lexer.definition;
    const tables = parserTables();
    const inside = parser as unknown as ParserInside;
    inside.computeRuleType = knownRuleTypes(tables);
    buildRules(rulesOf(services.Grammar, tables), parser, types, rule => prepared.prepare(rule));
    const prepared = prepareParser(inside.wrapper, tables, types);
    return parser;
}

/** What is replaced in Langium's parser; the tests fail if a later version lacks it. */
interface ParserInside {
    readonly wrapper: PreparedEngine;
    computeRuleType(rule: GrammarAST.ParserRule): unknown;
}

// Langium would look through the definition of every rule for it.
function knownRuleTypes({ rules }: ParserTables): ParserInside['computeRuleType'] {
    const types = new Map(rules);
    return ({ name }) => {
        const type = types.get(name) ?? '';
        return type === '' ? DatatypeSymbol : type;
    };
}

function rulesOf(grammar: GrammarAST.Grammar, { rules }: ParserTables): readonly GrammarAST.ParserRule[] {
    const named = new Map(grammar.rules.map(rule => [rule.name, rule]));
    return rules.map(([name]) => named.get(name)).filter(GrammarAST.isParserRule);
}
