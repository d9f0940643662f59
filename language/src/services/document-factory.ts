// Makes and refreshes Langium's documents, and remembers from which text each syntax tree was read.

import {
    type AstNode,
    DefaultLangiumDocumentFactory,
    type LangiumDocument,
    type LangiumSharedCoreServices,
    type Mutable,
    type ParseResult,
    type ParserOptions,
    type TextDocument,
    type URI,
} from 'langium';
import type { CancellationToken } from 'vscode-languageserver';
import type { FaultParseResult } from '../lower/parse/fault-parser.js';

/** A file that cannot be read any more counts as empty until its deletion is told. */
const textOfUnreadable = '';

export class FaultDocumentFactory extends DefaultLangiumDocumentFactory {
    private readonly texts = new WeakMap<AstNode, string>();

    constructor(services: LangiumSharedCoreServices) {
        super(services);
    }

    /** The text that a syntax tree was read from; undefined for a document that was never read. */
    textOf(root: AstNode): string | undefined {
        return this.texts.get(root);
    }

    /** The document's parse result with our findings and comments. */
    resultOf(document: LangiumDocument): FaultParseResult {
        const result = document.parseResult;
        return { ...result, findings: [], comments: [], ...(result as Partial<FaultParseResult>) };
    }

    /** Reads a document again where the client's text has changed since. */
    freshen(document: Mutable<LangiumDocument>): void {
        const text = this.openDocument(document.uri)?.getText();
        if (text === undefined || text === this.texts.get(document.parseResult.value)) return;
        document.parseResult = this.parse(document.uri, text);
        (document.parseResult.value as Mutable<AstNode>).$document = document;
    }

    protected override async getInitialText(uri: URI, token: CancellationToken): Promise<string> {
        return this.openDocument(uri)?.getText() ?? (await super.getInitialText(uri, token));
    }

    protected override async getUpdatedText<T extends AstNode>(
        document: LangiumDocument<T>,
        textDocument: TextDocument | undefined,
        token: CancellationToken,
    ): Promise<string> {
        try {
            return await super.getUpdatedText(document, textDocument, token);
        } catch {
            return this.texts.get(document.parseResult.value) ?? textOfUnreadable;
        }
    }

    protected override parse<T extends AstNode>(uri: URI, text: string, options?: ParserOptions): ParseResult<T> {
        return this.remember(super.parse<T>(uri, text, options), text);
    }

    protected override async parseAsync<T extends AstNode>(
        uri: URI,
        text: string,
        token: CancellationToken,
    ): Promise<ParseResult<T>> {
        return this.remember(await super.parseAsync<T>(uri, text, token), text);
    }

    private remember<T extends AstNode>(result: ParseResult<T>, text: string): ParseResult<T> {
        this.texts.set(result.value, text);
        return result;
    }

    private openDocument(uri: URI): TextDocument | undefined {
        return this.textDocuments?.get(uri);
    }
}
