/** A world of files in the language server without a client: what the tests of its features share. */
import { type FileSystemNode, type FileSystemProvider, type LangiumDocument, TextDocument, URI } from 'langium';
import type { Connection, Diagnostic, InitializeParams, Location, Position } from 'vscode-languageserver';
import { createServices, type HalfsplitContext } from '../../language/src/services/fault-module.js';
import type { Rule } from '../../language/src/core/findings/rule.js';

/** Texts by their paths. `<|>` marks the cursor in one of them. */
export type Files = Readonly<Record<string, string>>;

export const cursor = '<|>';

export interface World extends HalfsplitContext {
    /** Failures that the server survived; a test that ends with any has failed. */
    readonly failures: readonly string[];
    readonly disk: Map<string, string>;
    uriOf(file: string): URI;
    documentOf(file: string): LangiumDocument;
    /** Opens a file of the disk, or changes its text, as a client does; resolves when the server has dealt with it. */
    type(file: string, text: string): Promise<void>;
    /** The same without waiting: the server has only heard of it. */
    hear(file: string, text: string): void;
    close(file: string): Promise<void>;
    /** Tells of a change on the disk, after making it: a text, or nothing for a file that goes. */
    save(file: string, text: string | undefined): Promise<void>;
    /** Lets the checks run that wait for a pause. */
    settle(): Promise<void>;
    /** What the client was told last about a file. */
    diagnosticsOf(file: string): readonly Diagnostic[];
}

export interface WorldOptions {
    readonly rules?: readonly Rule[];
    /** The workspace folders below the disk's root; the root itself where they are left out, none for an empty list. */
    readonly folders?: readonly string[];
}

const diskRoot = URI.parse('memory:/disk');

/** Starts a server on the files and reads its workspace folders. */
export async function openWorld(files: Files, options: WorldOptions = {}): Promise<World> {
    const disk = new Map(Object.entries(files).map(([file, text]) => [file, text.replace(cursor, '')]));
    const told = new Map<string, readonly Diagnostic[]>();
    const failures: string[] = [];
    const context = createServices({
        connection: fakeConnection(told, failures),
        fileSystemProvider: () => new MemoryFileSystem(disk),
        ...(options.rules ? { rules: options.rules } : {}),
    });
    const { shared } = context;
    const uriOf = (file: string): URI => diskRoot.with({ path: `${diskRoot.path}/${file}` });
    const folders = (options.folders ?? ['']).map(folder => ({
        uri: (folder === '' ? diskRoot : uriOf(folder)).toString(),
        name: folder,
    }));
    const manager = shared.workspace.WorkspaceManager;
    manager.initialize({ workspaceFolders: folders, capabilities: {} } as unknown as InitializeParams);
    await manager.initialized({});
    const handler = shared.lsp.DocumentUpdateHandler;
    const hear = (file: string, text: string): void => {
        const uri = uriOf(file);
        const version = (shared.workspace.TextDocuments.get(uri)?.version ?? 0) + 1;
        const document = TextDocument.create(uri.toString(), 'fault', version, text);
        shared.workspace.TextDocuments.set(document);
        if (version === 1) handler.didOpenDocument?.({ document });
        handler.didChangeContent?.({ document });
    };
    const idle = async (): Promise<void> => {
        await manager.ready;
        for (let turn = 0; turn < 5; turn += 1) await shared.workspace.WorkspaceLock.read(() => undefined);
    };
    return {
        ...context,
        failures,
        disk,
        uriOf,
        documentOf: file => documentOf(context, uriOf(file)),
        hear,
        type: async (file, text) => {
            hear(file, text);
            await idle();
        },
        close: async file => {
            const document = shared.workspace.TextDocuments.get(uriOf(file));
            shared.workspace.TextDocuments.delete(uriOf(file));
            if (document) handler.didCloseDocument?.({ document });
            await idle();
        },
        save: async (file, text) => {
            const type = text === undefined ? 3 : disk.has(file) ? 2 : 1;
            if (text === undefined) disk.delete(file);
            else disk.set(file, text);
            handler.didChangeWatchedFiles?.({ changes: [{ uri: uriOf(file).toString(), type }] });
            await idle();
        },
        settle: async () => {
            await idle();
            await shared.halfsplit.SettledChecks.finish();
        },
        diagnosticsOf: file => told.get(uriOf(file).toString()) ?? [],
    };
}

/** Opens the file that has the cursor, and gives what a request at the cursor needs. */
export async function openAtCursor(files: Files): Promise<{
    readonly world: World;
    readonly document: LangiumDocument;
    readonly position: Position;
    readonly textDocument: { readonly uri: string };
}> {
    const [file, text] = Object.entries(files).find(([, marked]) => marked.includes(cursor)) ?? [];
    if (file === undefined || text === undefined) throw new Error(`No text has the cursor ${cursor}`);
    const world = await openWorld(files);
    await world.type(file, text.replace(cursor, ''));
    const document = world.documentOf(file);
    const position = document.textDocument.positionAt(text.indexOf(cursor));
    return { world, document, position, textDocument: { uri: document.uri.toString() } };
}

/** Tells places as `file: the line with the <|stretch|> marked`. */
export function tellPlaces(world: World, places: readonly Pick<Location, 'uri' | 'range'>[]): string[] {
    return places.map(({ uri, range }) => {
        const text = documentOf(world, URI.parse(uri)).textDocument;
        const [start, end] = [text.offsetAt(range.start), text.offsetAt(range.end)];
        const before = text.getText().slice(text.offsetAt({ line: range.start.line, character: 0 }), start);
        const after = text.getText().slice(end).split(/\r?\n/, 1)[0] ?? '';
        const line = `${before}<|${text.getText().slice(start, end)}|>${after}`.trim();
        return `${fileOf(uri)}: ${line.replace(/\s+/g, ' ')}`;
    });
}

/** The words of a diagnostic, which our server always writes as plain text. */
export function messageOf({ message }: Diagnostic): string {
    return typeof message === 'string' ? message : message.value;
}

/** The path of an address below the disk's root. */
export function fileOf(uri: string): string {
    return URI.parse(uri).path.slice(diskRoot.path.length + 1);
}

function documentOf({ shared }: HalfsplitContext, uri: URI): LangiumDocument {
    const document = shared.workspace.LangiumDocuments.getDocument(uri);
    if (!document) throw new Error(`There is no document ${uri.toString()}`);
    return document;
}

function fakeConnection(told: Map<string, readonly Diagnostic[]>, failures: string[]): Connection {
    const connection = {
        console: { error: (words: string) => failures.push(words) },
        sendDiagnostics: async ({ uri, diagnostics }: { uri: string; diagnostics: Diagnostic[] }) => {
            told.set(uri, diagnostics);
        },
    };
    return connection as unknown as Connection;
}

/** Files that stand in a map. */
class MemoryFileSystem implements FileSystemProvider {
    constructor(private readonly disk: ReadonlyMap<string, string>) {}

    async stat(uri: URI): Promise<FileSystemNode> {
        return this.statSync(uri);
    }

    statSync(uri: URI): FileSystemNode {
        const isFile = this.disk.has(fileOf(uri.toString()));
        if (!isFile && this.readDirectorySync(uri).length === 0) throw new Error(`There is no ${uri.path}`);
        return { isFile, isDirectory: !isFile, uri };
    }

    async exists(uri: URI): Promise<boolean> {
        return this.existsSync(uri);
    }

    existsSync(uri: URI): boolean {
        return this.disk.has(fileOf(uri.toString()));
    }

    async readFile(uri: URI): Promise<string> {
        return this.readFileSync(uri);
    }

    readFileSync(uri: URI): string {
        const text = this.disk.get(fileOf(uri.toString()));
        if (text === undefined) throw new Error(`There is no ${uri.path}`);
        return text;
    }

    async readBinary(uri: URI): Promise<Uint8Array> {
        return this.readBinarySync(uri);
    }

    readBinarySync(uri: URI): Uint8Array {
        return new TextEncoder().encode(this.readFileSync(uri));
    }

    async readDirectory(uri: URI): Promise<FileSystemNode[]> {
        return this.readDirectorySync(uri);
    }

    readDirectorySync(uri: URI): FileSystemNode[] {
        const folder = uri.path === diskRoot.path ? '' : `${fileOf(uri.toString())}/`;
        const nodes = new Map<string, FileSystemNode>();
        for (const file of this.disk.keys()) {
            if (!file.startsWith(folder)) continue;
            const [name = '', ...inner] = file.slice(folder.length).split('/');
            const isFile = inner.length === 0;
            nodes.set(name, { isFile, isDirectory: !isFile, uri: uri.with({ path: `${uri.path}/${name}` }) });
        }
        return [...nodes.values()];
    }
}
