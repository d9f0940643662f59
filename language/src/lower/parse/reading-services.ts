// The few services of Langium that reading a file takes. All others would only have to be loaded at every start.

import type { CstNode, LangiumCoreServices } from 'langium';
import { parserTables } from '../../generated/parser-tables.js';
import { FaultLexer } from './fault-lexer.js';
import type { FaultParser } from './fault-parser.js';
import { loadGrammar } from './load-grammar.js';
import { makeParser } from './make-parser.js';
import { FaultParserMessages } from './messages.js';
import { FaultTokenBuilder } from './token-builder.js';

/**
 * A parser that reads what the parser of the language server reads (a test compares the two). References in its trees
 * lead nowhere: whoever needs their targets asks the linker of the core model.
 */
export function makeReadingParser(): FaultParser {
    const parts: Record<string, unknown> = {
        TokenBuilder: new FaultTokenBuilder(),
        // What is written is kept as it is written.
        ValueConverter: { convert: (written: string) => written },
    };
    const services = {
        Grammar: loadGrammar(),
        LanguageMetaData: { mode: 'production' },
        parser: parts,
        references: { Linker: { buildReference } },
        shared: { AstReflection: { getTypeMetaData: knownProperties() }, profilers: {} },
    } as unknown as LangiumCoreServices;
    parts['Lexer'] = new FaultLexer(services);
    parts['ParserErrorMessageProvider'] = new FaultParserMessages(services);
    const parser = makeParser(services);
    parts['LangiumParser'] = parser;
    return parser;
}

function buildReference(_node: unknown, _property: string, place: CstNode | undefined, text: string): unknown {
    return { $refNode: place, $refText: text, ref: undefined };
}

// The parser asks for the properties of a type only for their default values.
function knownProperties(): (type: string) => unknown {
    const types = new Map(
        Object.entries(parserTables().defaults).map(([type, defaults]) => [
            type,
            { properties: defaults.map(([name, defaultValue]) => ({ name, defaultValue })) },
        ]),
    );
    return type => types.get(type) ?? { properties: [] };
}
