/** The words at which long statements go on on a new line, compared with the grammar. */

import { AstUtils, GrammarAST } from 'langium';
import { expect, test } from 'vitest';
import { clauseWords } from '../../language/src/format/breaks.js';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';

const { rules } = createParserServices().Grammar;
const words = rules.flatMap(rule => [...AstUtils.streamAllContents(rule)].filter(GrammarAST.isKeyword));

test('are words of the language', () => {
    const known = new Set(words.map(({ value }) => value));
    expect([...clauseWords].filter(word => !known.has(word))).toEqual([]);
});

test('are all that begin something that may be left out, but for those that stay beside what they follow', () => {
    const optional = new Set(words.filter(beginsOptional).map(({ value }) => value));
    const besides = [...optional].filter(word => /^[a-z]/.test(word) && !clauseWords.has(word));
    expect(besides.sort()).toEqual(['and', 'as', 'by', 'linear', 'logarithmic', 'or']);
});

function beginsOptional(word: GrammarAST.AbstractElement): boolean {
    if (word.cardinality === '?' || word.cardinality === '*') {
        return true;
    }
    const { $container: container } = word;
    const isFirst = !GrammarAST.isGroup(container) || container.elements[0] === word;
    return isFirst && GrammarAST.isAbstractElement(container) && beginsOptional(container);
}
