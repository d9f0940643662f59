// Reads the workspace folders when the editor starts, and again when they change.

import {
    DefaultWorkspaceManager,
    type FileSystemNode,
    type LangiumDocument,
    URI,
    UriUtils,
    type WorkspaceFolder,
} from 'langium';
import type { InitializeParams } from 'vscode-languageserver';
import type { HalfsplitSharedServices } from './fault-module.js';
import { findFiles, findSettingsFolder, isLeftOut, relativePathOf } from './files.js';

export class FaultWorkspaceManager extends DefaultWorkspaceManager {
    constructor(private readonly services: HalfsplitSharedServices) {
        super(services);
        this.initialBuildOptions = { validation: { categories: ['built-in', 'fast'] } };
    }

    /** Whether a file stands in a folder that the client has opened. */
    isInFolder(uri: URI): boolean {
        return (this.folders ?? []).some(folder => relativePathOf(this.getRootFolder(folder), uri) !== undefined);
    }

    /** Takes other workspace folders and reads everything again. */
    async changeFolders(added: readonly WorkspaceFolder[], removed: readonly WorkspaceFolder[]): Promise<void> {
        const gone = new Set(removed.map(({ uri }) => UriUtils.normalize(uri)));
        const kept = (this.folders ?? []).filter(({ uri }) => !gone.has(UriUtils.normalize(uri)));
        this.folders = [...kept, ...added];
        await this.reload();
    }

    /** Reads all folders again, as when the editor starts. */
    async reload(): Promise<void> {
        await this.mutex.write(async token => {
            const known = this.langiumDocuments.all.map(({ uri }) => uri).toArray();
            await this.documentBuilder.update([], known);
            await this.initializeWorkspace(this.folders ?? [], token);
        });
    }

    override initialize(params: InitializeParams): void {
        super.initialize(params);
        // Older clients name one folder and no list.
        const { rootUri } = params as { readonly rootUri?: string | null };
        if (!params.workspaceFolders && rootUri) this.folders = [{ uri: rootUri, name: rootUri }];
    }

    protected override async performStartup(folders: WorkspaceFolder[]): Promise<LangiumDocument[]> {
        const { Workspaces, SettingsFiles, SourceLoader } = this.services.halfsplit;
        const roots: URI[] = [];
        const sources: URI[] = [];
        for (const folder of folders.map(one => this.getRootFolder(one))) {
            // A folder below a settings file is a part of that file's workspace.
            const root = (await findSettingsFolder(folder, this.fileSystemProvider)) ?? folder;
            const found = await findFiles(root, SourceLoader.searchOptions());
            roots.push(root, ...found.settled);
            sources.push(...found.sources);
        }
        Workspaces.setRoots(roots);
        await SettingsFiles.readAll();
        const open = this.services.workspace.TextDocuments.keys().map(key => URI.parse(key));
        // Requests are answered from now on, and some of them look at every file.
        const documents = await SourceLoader.loadFiles([...sources, ...open]);
        await SourceLoader.load([...sources, ...open]);
        this._ready.resolve();
        return [...new Set([...documents, ...this.langiumDocuments.all])];
    }

    protected override getRootFolder({ uri }: WorkspaceFolder): URI {
        return URI.parse(UriUtils.normalize(uri));
    }

    // Asked about folders that come while the editor runs.
    override shouldIncludeEntry({ uri, isDirectory, isFile }: FileSystemNode): boolean {
        const name = UriUtils.basename(uri);
        return isDirectory
            ? !isLeftOut(name)
            : isFile && !name.startsWith('.') && this.serviceRegistry.hasServices(uri);
    }
}
