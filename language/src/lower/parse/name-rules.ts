// Tells which rules of the grammar are names, and which words of the language may be names by them.

import { AstUtils, GrammarAST } from 'langium';

/** The words of the language that a rule takes for names; undefined where the rule is no name. */
export function wordsAsNames(rule: GrammarAST.AbstractRule | undefined): ReadonlySet<string> | undefined {
    if (!GrammarAST.isParserRule(rule) || rule.dataType !== 'string') {
        return undefined;
    }
    if (!known.has(rule)) {
        known.set(rule, collectWords(rule));
    }
    return known.get(rule);
}

/** All words of the language that may be names somewhere. */
export function allWordsAsNames(grammar: GrammarAST.Grammar): ReadonlySet<string> {
    return new Set(grammar.rules.flatMap(rule => [...(wordsAsNames(rule) ?? [])]));
}

const known = new WeakMap<GrammarAST.ParserRule, ReadonlySet<string> | undefined>();

// A name is an identifier or one of some words, and nothing else.
function collectWords(rule: GrammarAST.ParserRule): ReadonlySet<string> | undefined {
    const words = new Set<string>();
    let isName = false;
    for (const element of AstUtils.streamAllContents(rule)) {
        if (GrammarAST.isKeyword(element)) {
            words.add(element.value);
        } else if (GrammarAST.isRuleCall(element)) {
            const inner = wordsAsNames(element.rule.ref);
            if (inner === undefined && element.rule.$refText !== 'ID') {
                return undefined;
            }
            isName = true;
            inner?.forEach(word => words.add(word));
        }
    }
    return isName ? words : undefined;
}
