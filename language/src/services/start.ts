// Starts the language server on a connection.

import { DocumentState } from 'langium';
import { startLanguageServer } from 'langium/lsp';
import { createServices, type HostContext } from './fault-module.js';
import { refusingOutdated } from './outdated.js';

/** Starts to listen. Returns at once; the server runs until the client ends it. */
export function startServer(context: HostContext & Required<Pick<HostContext, 'connection'>>): void {
    const connection = refusingOutdated(context.connection, () => shared.workspace.TextDocuments);
    const { shared } = createServices({ ...context, connection });
    // Every feature reads what it needs from the newest text by itself, so none has to wait for a build.
    const needs = DocumentState.Changed;
    startLanguageServer(shared, {
        CodeActionProvider: needs,
        CompletionProvider: needs,
        DefinitionProvider: needs,
        DocumentHighlightProvider: needs,
        DocumentSymbolProvider: needs,
        FoldingRangeProvider: needs,
        Formatter: needs,
        HoverProvider: needs,
        ReferencesProvider: needs,
        RenameProvider: needs,
        WorkspaceSymbolProvider: { type: 'workspace', state: needs },
    });
}
