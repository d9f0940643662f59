// Where the editor starts and ends the extension; it only puts the parts together.

import type { ExtensionContext } from 'vscode';
import { startClient, stopClient } from './client.js';

/** Called by the editor when the first `.fault` file is opened. */
export async function activate(context: ExtensionContext): Promise<void> {
    await startClient(context);
}

/** Called by the editor when it closes; the language server is ended. */
export async function deactivate(): Promise<void> {
    await stopClient();
}
