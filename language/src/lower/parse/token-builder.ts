// Adds to the grammar's tokens those for text that the language does not know.
//
// With them the lexer never searches for a place to go on, which could take minutes on a hostile file,
// and every slip arrives as one token with its place.

import { DefaultTokenBuilder, GrammarAST, type Grammar } from 'langium';
import { parserTables } from '../../generated/parser-tables.js';
import type { TokenType } from './token.js';

/** The names of the added token types. */
export const strayNames = {
    /** A comment without its end: reaches to the end of the file. */
    comment: 'stray-comment',
    /** A text without its closing quote: reaches to the end of its line, or of the file after three quotes. */
    text: 'stray-text',
    /** A text between other quotes than the language's. */
    quoted: 'stray-quoted',
    /** Characters that begin nothing. */
    characters: 'stray-characters',
} as const;

/** The grammar's tokens, then the added ones: they match only where nothing else does. */
export class FaultTokenBuilder extends DefaultTokenBuilder {
    override buildTokens(grammar: Grammar): TokenType[] {
        const tokens = [...this.buildKnownTokens(grammar)];
        const unclosedComment: TokenType = {
            name: strayNames.comment,
            PATTERN: /\/\*[\s\S]*/,
            LINE_BREAKS: true,
        };
        for (const token of tokens) {
            if (token.name === 'TEXT') {
                token.PATTERN = closedText;
            }
            if (token.name === '/') {
                token.LONGER_ALT = [...[token.LONGER_ALT ?? []].flat(), unclosedComment];
            }
        }
        tokens.push(
            unclosedComment,
            { name: strayNames.text, PATTERN: unclosedText, LINE_BREAKS: true },
            { name: strayNames.quoted, PATTERN: otherQuotes },
            { name: strayNames.characters, PATTERN: strayCharacters },
        );
        return tokens;
    }

    // Langium would look through all rules for words, and try each word on each pattern for what may be longer.
    private buildKnownTokens(grammar: Grammar): readonly TokenType[] {
        const patterns = grammar.rules.filter(GrammarAST.isTerminalRule).map(rule => this.buildTerminalToken(rule));
        const named = new Map(patterns.map(pattern => [pattern.name, pattern]));
        const words = parserTables().words.map(([name = '', ...longer]) => ({
            name,
            PATTERN: name,
            LONGER_ALT: longer.flatMap(one => named.get(one) ?? []),
        }));
        return [...words, ...patterns];
    }
}

// As in the grammar, but three quotes always begin a text of several lines, closed or not.
const closedText = /"""[\s\S]*?"""|"(?!"")(?:\\.|[^"\\\r\n])*"/;

const unclosedText = /"""[\s\S]*|"(?:\\.|[^"\\\r\n])*\\?/;

const otherQuotes = /[“”„][^“”„"\r\n]*[“”]|«[^«»"\r\n]*»|»[^«»"\r\n]*«|[‘’‚][^‘’‚"\r\n]*[‘’]|'[^'"\r\n]*'|`[^`"\r\n]*`/;

// Written out as ranges, because the lexer cannot speed up a class that is given by what it leaves out.
const strayCharacters = new RegExp(
    '[' +
        '\\u0000-\\u0008\\u000e-\\u001f!#$%&;?@\\\\^|~\\u007f-\\u009f' +
        '\\u00a1-\\u00aa\\u00ac-\\u00b0\\u00b2-\\u00ba\\u00bc-\\u00bf\\u0300-\\u036f' +
        '\\u200b-\\u2017\\u2020-\\u2027\\u202a-\\u202e\\u2030-\\u205e\\u2060-\\u2211\\u2213-\\u2263\\u2266-\\u2bff' +
        '\\ud800-\\uf8ff\\ufdd0-\\ufdef\\ufffe\\uffff' +
        "]+|['`\\u00ab\\u00bb\\u2018-\\u201f]",
);
