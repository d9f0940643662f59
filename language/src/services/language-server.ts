// What the server tells the client that it can do, and what it listens to beside the usual requests.

import { DefaultLanguageServer } from 'langium/lsp';
import type { InitializeParams, InitializeResult } from 'vscode-languageserver';
import type { HalfsplitSharedServices } from './fault-module.js';

export class FaultLanguageServer extends DefaultLanguageServer {
    constructor(private readonly own: HalfsplitSharedServices) {
        super(own);
        this.onInitialize(({ capabilities }) => {
            if (capabilities.workspace?.workspaceFolders === true) this.onInitialized(() => this.listen());
        });
    }

    // Only what has to hear of the start; the rest is made when it is first asked for.
    protected override eagerLoadServices(): void {
        void this.own.lsp.DocumentUpdateHandler;
    }

    protected override buildInitializeResult(params: InitializeParams): InitializeResult {
        const { capabilities, ...result } = super.buildInitializeResult(params);
        return {
            ...result,
            capabilities: {
                ...capabilities,
                workspace: {
                    ...capabilities.workspace,
                    workspaceFolders: { supported: true, changeNotifications: true },
                },
            },
            serverInfo: { name: 'halfsplit' },
        };
    }

    private listen(): void {
        const { workspace, halfsplit, lsp } = this.own;
        lsp.Connection?.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
            workspace.WorkspaceManager.changeFolders(added, removed).catch((problem: unknown) =>
                halfsplit.Log.failure('Changing the workspace folders', problem),
            );
        });
    }
}
