// Refuses an answer that was worked out for another text than the one that the client asked about.

import type { TextDocuments } from 'langium/lsp';
import type { TextDocument } from 'langium';
import { type Connection, LSPErrorCodes, ResponseError } from 'vscode-languageserver';

interface RequestParams {
    readonly textDocument?: { readonly uri: string };
}

type Handler = (params: RequestParams | undefined, ...more: unknown[]) => unknown;

/**
 * The same connection, whose requests are answered with `ContentModified` where the text has changed
 * between the question and the answer, as when somebody types while the server still starts.
 */
export function refusingOutdated(connection: Connection, texts: () => TextDocuments<TextDocument>): Connection {
    return new Proxy(connection, {
        get(target, property, receiver) {
            const value: unknown = Reflect.get(target, property, receiver);
            if (typeof value !== 'function' || !isRequest(property)) return value;
            const register = value as (handler: Handler) => unknown;
            return (handler: Handler) => register.call(target, watched(handler, texts));
        },
    });
}

const requests = new Set<string | symbol>([
    'onCodeAction',
    'onCompletion',
    'onDefinition',
    'onDocumentFormatting',
    'onDocumentHighlight',
    'onDocumentRangeFormatting',
    'onDocumentSymbol',
    'onFoldingRanges',
    'onHover',
    'onPrepareRename',
    'onReferences',
    'onRenameRequest',
]);

function isRequest(property: string | symbol): boolean {
    return requests.has(property);
}

function watched(handler: Handler, texts: () => TextDocuments<TextDocument>): Handler {
    return async (params, ...more) => {
        const uri = params?.textDocument?.uri;
        const version = (): number | undefined => (uri === undefined ? undefined : texts().get(uri)?.version);
        const asked = version();
        const answer = await handler(params, ...more);
        if (version() === asked) return answer;
        return new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed since it was asked about.');
    };
}
