// The words of the language, as the grammar has them.

import { AstUtils, GrammarAST } from 'langium';

/** Every word of the language, signs left out, in the order of the grammar. */
export function keywordsOf(grammar: GrammarAST.Grammar): string[] {
    const values = AstUtils.streamAllContents(grammar)
        .filter(GrammarAST.isKeyword)
        .map(({ value }) => value);
    return [...new Set(values)].filter(isWord);
}

/** Whether a keyword is a word and not a sign. */
export function isWord(keyword: string): boolean {
    return /^\p{L}/u.test(keyword);
}
