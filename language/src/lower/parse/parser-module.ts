// The parts of Langium that read a file, as one module: the command line and the language server use the same.

import {
    createDefaultCoreModule,
    createDefaultSharedCoreModule,
    EmptyFileSystem,
    inject,
    type LangiumCoreServices,
    type LanguageMetaData,
    type Module,
    type PartialLangiumCoreServices,
} from 'langium';
import {
    HalfsplitGeneratedModule,
    HalfsplitGeneratedSharedModule,
    HalfsplitLanguageMetaData,
} from '../../generated/module.js';
import { FaultLexer } from './fault-lexer.js';
import { makeParser } from './make-parser.js';
import { FaultLexerMessages, FaultParserMessages } from './messages.js';
import { FaultTokenBuilder } from './token-builder.js';

/** Our lexer, parser and messages, to be put behind the generated module. */
export const faultParserModule: Module<LangiumCoreServices, PartialLangiumCoreServices> = {
    // The checks of the development mode are for whoever changes the grammar: they cost time and need a newer Node.
    LanguageMetaData: (): LanguageMetaData => ({ ...HalfsplitLanguageMetaData, mode: 'production' }),
    parser: {
        LangiumParser: services => makeParser(services),
        Lexer: services => new FaultLexer(services),
        TokenBuilder: () => new FaultTokenBuilder(),
        ParserErrorMessageProvider: services => new FaultParserMessages(services),
        LexerErrorMessageProvider: () => new FaultLexerMessages(),
    },
};

/** Services that can read files and do nothing else. `changes` come last and win. */
export function createParserServices(
    changes: Module<LangiumCoreServices, PartialLangiumCoreServices> = {},
): LangiumCoreServices {
    const shared = inject(createDefaultSharedCoreModule(EmptyFileSystem), HalfsplitGeneratedSharedModule);
    const services = inject(createDefaultCoreModule({ shared }), HalfsplitGeneratedModule, faultParserModule, changes);
    shared.ServiceRegistry.register(services);
    return services;
}
