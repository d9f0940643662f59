// Starts the language server as a process of its own and connects the editor with it.

import { type ExtensionContext, l10n, window } from 'vscode';
import {
    LanguageClient,
    type LanguageClientOptions,
    type ServerOptions,
    TransportKind,
} from 'vscode-languageclient/node';

// The client's name in the settings: `halfsplit.trace.server`.
const clientId = 'halfsplit';

let client: LanguageClient | undefined;

/** Starts the client. A server that cannot be started is told to the writer, and the editor goes on without it. */
export async function startClient(context: ExtensionContext): Promise<void> {
    const module = context.asAbsolutePath('dist/server.cjs');
    const serverOptions: ServerOptions = { module, transport: TransportKind.ipc };
    const clientOptions: LanguageClientOptions = {
        documentSelector: ['file', 'untitled'].map(scheme => ({ language: 'fault', scheme })),
    };
    client = new LanguageClient(clientId, 'Halfsplit', serverOptions, clientOptions);
    try {
        await client.start();
    } catch (problem) {
        const words = problem instanceof Error ? problem.message : String(problem);
        void window.showErrorMessage(
            l10n.t('The language server of Halfsplit could not be started, so findings are not shown: {0}', words),
        );
    }
}

/** Ends the server. */
export async function stopClient(): Promise<void> {
    if (client?.isRunning()) await client.stop();
    client = undefined;
}
