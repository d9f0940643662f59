// What happens when the client opens, changes or closes a text, and when files change on the disk.

import { type TextDocument, URI, UriUtils } from 'langium';
import { DefaultDocumentUpdateHandler } from 'langium/lsp';
import { type DidChangeWatchedFilesParams, FileChangeType, type TextDocumentChangeEvent } from 'vscode-languageserver';
import type { HalfsplitSharedServices } from './fault-module.js';

export class FaultDocumentUpdateHandler extends DefaultDocumentUpdateHandler {
    constructor(private readonly services: HalfsplitSharedServices) {
        super(services);
    }

    didOpenDocument({ document }: TextDocumentChangeEvent<TextDocument>): void {
        // Requests may come before the first build, so the document has to be there at once.
        void this.workspaceManager.ready.then(() =>
            this.services.halfsplit.SourceLoader.openDocument(URI.parse(document.uri)),
        );
    }

    /** The text on the disk counts again, or none where there is no such file. */
    didCloseDocument({ document }: TextDocumentChangeEvent<TextDocument>): void {
        void this.close(URI.parse(document.uri)).catch((problem: unknown) => this.tell('Closing a file', problem));
    }

    override didChangeWatchedFiles({ changes }: DidChangeWatchedFilesParams): void {
        const changed: URI[] = [];
        const deleted: URI[] = [];
        for (const { uri: address, type } of changes) {
            const uri = URI.parse(address);
            const placed = this.services.halfsplit.Workspaces.placeKnown(uri);
            if (!placed) continue;
            if (this.services.halfsplit.SettingsFiles.isSettingsFile(uri)) this.settingsChanged(type);
            if (type === FileChangeType.Deleted) {
                deleted.push(uri);
                // An editor keeps the text of a file that was deleted under it.
                changed.push(...this.openBelow(uri));
            } else if (type === FileChangeType.Created ? this.isOursOrFolder(uri) : this.isOurs(uri)) {
                changed.push(uri);
            }
            if (placed.workspace.forgetPresence(placed.file)) this.services.halfsplit.SettledChecks.schedule(true);
        }
        if (changed.length + deleted.length > 0) this.fireDocumentUpdate(changed, deleted);
    }

    protected override fireDocumentUpdate(changed: URI[], deleted: URI[]): void {
        void this.update(changed, deleted).catch((problem: unknown) => this.tell('Reading a change', problem));
    }

    private async update(changed: URI[], deleted: URI[]): Promise<void> {
        await this.workspaceManager.ready;
        await this.workspaceLock.write(token => this.documentBuilder.update(changed, deleted, token));
    }

    private async close(uri: URI): Promise<void> {
        const { FileSystemProvider } = this.services.workspace;
        const kept = await FileSystemProvider.exists(uri).catch(() => false);
        await this.workspaceManager.ready;
        const unused = this.services.halfsplit.SourceLoader.unused(uri);
        const isUnused = unused.some(other => UriUtils.equals(other, uri));
        await this.update(kept && !isUnused ? [uri] : [], kept ? unused : [uri, ...unused]);
    }

    private isOurs(uri: URI): boolean {
        return this.serviceRegistry.hasServices(uri);
    }

    // A folder has no ending that tells what it holds.
    private isOursOrFolder(uri: URI): boolean {
        return UriUtils.extname(uri) === '' || this.isOurs(uri);
    }

    private openBelow(uri: URI): URI[] {
        const open = this.services.workspace.TextDocuments.keys().map(key => URI.parse(key));
        return open.filter(other => UriUtils.contains(uri, other));
    }

    private settingsChanged(type: FileChangeType): void {
        const { SettingsFiles, SettledChecks } = this.services.halfsplit;
        // A settings file that comes or goes makes a workspace or ends one.
        const read =
            type === FileChangeType.Changed
                ? SettingsFiles.readAll()
                : this.services.workspace.WorkspaceManager.reload();
        void read
            .then(() => SettledChecks.schedule(true))
            .catch((problem: unknown) => this.tell('Reading the settings', problem));
    }

    private tell(feature: string, problem: unknown): void {
        this.services.halfsplit.Log.failure(feature, problem);
    }
}
