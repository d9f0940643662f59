// Brings texts into the workspaces: those of the folders, those that the client opened alone, and what they use.

import { type LangiumDocument, type LangiumDocuments, type URI, UriUtils } from 'langium';
import type { FileId } from '../core/model/written.js';
import type { EditorWorkspace } from './editor-workspace.js';
import type { HalfsplitSharedServices } from './fault-module.js';
import { findFiles, findSettingsFolder, type LinkedFiles, presenceOf, type SearchOptions } from './files.js';
import { usedBy } from './workspace-links.js';
import type { Located, Workspaces } from './workspaces.js';

/** So many files are read at the same time. */
const batch = 32;

/** So many files can one file bring in that were not found in the workspace folders. */
const mostUsedFiles = 500;

export class SourceLoader {
    private readonly documents: LangiumDocuments;
    private readonly workspaces: Workspaces;
    private readonly files: LinkedFiles;

    constructor(private readonly services: HalfsplitSharedServices) {
        this.documents = services.workspace.LangiumDocuments;
        this.workspaces = services.halfsplit.Workspaces;
        this.files = services.workspace.FileSystemProvider;
    }

    searchOptions(): SearchOptions {
        return {
            files: this.files,
            isSource: uri => this.services.ServiceRegistry.hasServices(uri),
            unreadable: (folder, problem) =>
                this.services.halfsplit.Log.failure(`Reading the folder ${folder.toString(true)}`, problem),
        };
    }

    /** Makes a document of a text that the client has opened, so that requests find one. */
    openDocument(uri: URI): LangiumDocument | undefined {
        const known = this.documents.getDocument(uri);
        const text = this.services.workspace.TextDocuments.get(uri);
        if (known || !text) return known;
        const document = this.services.workspace.LangiumDocumentFactory.fromTextDocument(text, uri);
        this.documents.addDocument(document);
        return document;
    }

    /** Makes documents of files, a few at a time. A file that cannot be read is left out. */
    async loadFiles(uris: readonly URI[]): Promise<LangiumDocument[]> {
        const unique = [...new Map(uris.map(uri => [uri.toString(), uri])).values()];
        const documents: LangiumDocument[] = [];
        for (let start = 0; start < unique.length; start += batch) {
            const some = unique.slice(start, start + batch);
            const loaded = await Promise.all(some.map(uri => this.loadOne(uri)));
            documents.push(...loaded.filter(document => document !== undefined));
        }
        for (const document of documents) this.workspaces.read(document);
        return documents;
    }

    /** Reads the documents at these addresses, as far as there are any, and what belongs to them. */
    async load(uris: readonly URI[]): Promise<void> {
        for (const uri of uris) {
            const document = this.openDocument(uri);
            if (document) await this.bringIn(uri);
            const located = document && this.workspaces.read(document);
            if (located) await this.loadUsed(located);
        }
    }

    /** What can be forgotten once a file that was opened alone is closed: all that it brought in, if it is the last. */
    unused(uri: URI): URI[] {
        const { workspace } = this.workspaces.place(uri);
        const sources = [...workspace.all()].map(source => source.uri);
        const isOpen = (other: URI): boolean => this.services.workspace.TextDocuments.get(other) !== undefined;
        if (!workspace.loose || sources.some(isOpen)) return [];
        workspace.isComplete = false;
        return sources;
    }

    // As the command line does it: with a settings file above, the whole workspace counts, otherwise what stands beside.
    private async bringIn(uri: URI): Promise<void> {
        const { workspace } = this.workspaces.place(uri);
        if (!workspace.loose || workspace.isComplete || uri.scheme === 'untitled') return;
        workspace.isComplete = true;
        const folder = UriUtils.dirname(uri);
        const settled = await findSettingsFolder(folder, this.files);
        if (settled) {
            const moved = this.workspaces.addRoot(settled);
            await this.services.halfsplit.SettingsFiles.readAll();
            const found = await findFiles(settled, this.searchOptions());
            await this.loadFiles([...moved, ...found.sources]);
        } else {
            await this.loadFiles(await this.filesBeside(folder));
        }
    }

    private async filesBeside(folder: URI): Promise<URI[]> {
        try {
            const entries = await this.files.readDirectory(folder);
            const isSource = this.searchOptions().isSource;
            const names = entries.filter(({ isFile, uri }) => isFile && isSource(uri));
            return names.map(({ uri }) => uri).slice(0, mostUsedFiles);
        } catch {
            return [];
        }
    }

    /** Reads what a file uses, and what that uses in turn, as far as it was not read yet. */
    private async loadUsed(located: Located): Promise<void> {
        const { workspace } = located;
        const pending = [located.source.model];
        const asked = new Set<string>();
        let loaded = 0;
        for (let model = pending.pop(); model && loaded < mostUsedFiles; model = pending.pop()) {
            for (const file of usedBy(model)) {
                if (asked.has(file) || workspace.get(file)) continue;
                asked.add(file);
                const used = await this.loadUsedFile(workspace, file);
                if (!used) continue;
                loaded += 1;
                pending.push(used.source.model);
            }
        }
    }

    private async loadUsedFile(workspace: EditorWorkspace, file: FileId): Promise<Located | undefined> {
        const uri = workspace.uriOf(file);
        if (!this.services.ServiceRegistry.hasServices(uri)) return undefined;
        if ((await presenceOf(workspace.root, file, this.files)) !== 'present') return undefined;
        this.workspaces.adopt(uri, workspace);
        const document = await this.loadOne(uri);
        return document && this.workspaces.read(document);
    }

    private async loadOne(uri: URI): Promise<LangiumDocument | undefined> {
        try {
            return await this.documents.getOrCreateDocument(uri);
        } catch (problem) {
            this.services.halfsplit.Log.failure(`Reading ${uri.toString(true)}`, problem);
            return undefined;
        }
    }
}
