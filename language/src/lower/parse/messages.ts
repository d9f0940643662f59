// Lends our wording to the parser library, which asks for a message at every error.

import {
    AbstractParserErrorMessageProvider,
    DefaultLexerErrorMessageProvider,
    type LangiumCoreServices,
} from 'langium';
import { quoteName } from '../../core/text/words.js';
import { FaultParser } from './fault-parser.js';
import type { Token } from './token.js';

/** Words errors of the parser; the message's second line, where there is one, says how to mend it. */
export class FaultParserMessages extends AbstractParserErrorMessageProvider {
    constructor(private readonly services: LangiumCoreServices) {
        super();
    }

    override buildMismatchTokenMessage({ actual }: { readonly actual: Token }): string {
        return this.describe(actual);
    }

    override buildNotAllInputParsedMessage({ firstRedundant }: { readonly firstRedundant: Token }): string {
        return this.describe(firstRedundant);
    }

    override buildNoViableAltMessage({ actual }: { readonly actual: readonly Token[] }): string {
        return this.describe(actual[0]);
    }

    override buildEarlyExitMessage({ actual }: { readonly actual: readonly Token[] }): string {
        return this.describe(actual[0]);
    }

    private describe(actual: Token | undefined): string {
        const parser = this.services.parser.LangiumParser;
        return actual !== undefined && parser instanceof FaultParser
            ? parser.describe(actual)
            : 'Something else is expected here.';
    }
}

/** Words errors of the lexer. The token builder leaves it none; this stands ready should the library find one. */
export class FaultLexerMessages extends DefaultLexerErrorMessageProvider {
    override buildUnexpectedCharactersMessage(text: string, start: number, length: number): string {
        return `${quoteName(text.slice(start, start + length))} has no meaning here.`;
    }
}
