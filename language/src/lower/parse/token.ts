// The token types of the lexer, named without the parser library, which is only known through Langium.

import type { Lexer, LexerResult } from 'langium';

/** One word, sign, text or amount of a file, as the lexer cut it out. Its `endOffset` is that of its last character. */
export type Token = LexerResult['tokens'][number];

/** A sort of token. */
export type TokenType = Token['tokenType'];

/** All token types by name. */
export type TokenTypes = Lexer['definition'];

/** The offset after the token's last character. */
export function tokenEnd(token: Token): number {
    return token.startOffset + token.image.length;
}

/** Whether a token stands in the file: not the end of the file, nor a brace that was added. */
export function isReal(token: Token): boolean {
    return token.image.length > 0;
}

/** A token of another type or text in the place of an existing one. */
export function replaceToken(token: Token, type: TokenType, image: string): Token {
    return {
        ...token,
        image,
        tokenType: type,
        tokenTypeIdx: type.tokenTypeIdx ?? token.tokenTypeIdx,
    };
}
