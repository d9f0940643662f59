// A lexer for Langium that scans by our own scanner, so that starting it takes next to no time.

import type { LangiumCoreServices, Lexer, LexerResult, TokenizeOptions } from 'langium';
import { makeScanner, type Scanner } from './scanner.js';
import type { TokenType, TokenTypes } from './token.js';

/** Stands in for Langium's own lexer. It knows a token for every text, so it never reports an error. */
export class ScanningLexer implements Lexer {
    readonly definition: TokenTypes;
    private readonly types: readonly TokenType[];
    private known: Scanner | undefined;

    constructor(services: LangiumCoreServices) {
        this.types = Object.values(services.parser.TokenBuilder.buildTokens(services.Grammar)) as TokenType[];
        this.definition = Object.fromEntries(this.types.map(type => [type.name, type]));
    }

    tokenize(text: string, _options?: TokenizeOptions): LexerResult {
        const { tokens, hidden } = this.scanner.scan(text);
        return { tokens, hidden, errors: [] };
    }

    protected get scanner(): Scanner {
        return (this.known ??= makeScanner(this.types));
    }
}
