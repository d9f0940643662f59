// Which workspace a document belongs to, and the files of all workspaces as they were read from the newest texts.

import type { LangiumDocument, URI } from 'langium';
import type { FileId } from '../core/model/written.js';
import type { FaultDocumentFactory } from './document-factory.js';
import { EditorWorkspace } from './editor-workspace.js';
import { isLeftOut, type LinkedFiles, relativePathOf } from './files.js';
import type { Log } from './log.js';
import { makeSourceFile, type SourceFile } from './source-file.js';
import type { Affected } from './workspace-links.js';

/** A document's place: its workspace and its path there. */
export interface Placed {
    readonly workspace: EditorWorkspace;
    readonly file: FileId;
}

/** A file with the workspace that it belongs to. */
export interface Located extends Placed {
    readonly source: SourceFile;
}

/** Hears that a file was read anew or taken away, and what that can matter to. */
export type SourceListener = (placed: Placed, affected: Affected) => void;

/** All workspaces: one a root, and one for each folder out of which files are opened that belong to no root. */
export class Workspaces {
    /** The innermost root comes first. */
    private roots: EditorWorkspace[] = [];
    private readonly loose = new Map<string, EditorWorkspace>();
    private readonly listeners: SourceListener[] = [];
    /** Files that a workspace has only because one of its files uses them: from a folder that is left out or lies deeper. */
    private readonly adopted = new Map<string, EditorWorkspace>();

    constructor(
        private readonly documents: FaultDocumentFactory,
        private readonly files: LinkedFiles,
        private readonly log: Log,
    ) {}

    /** Sets the roots anew; every file has to be read again afterwards. */
    setRoots(roots: Iterable<URI>): void {
        this.roots = [];
        this.loose.clear();
        this.adopted.clear();
        for (const root of roots) this.addRoot(root);
    }

    /** Adds a root; answers the files that were opened alone and belong to it now, which have to be read again. */
    addRoot(root: URI): URI[] {
        if (this.roots.some(known => known.root.toString() === root.toString())) return [];
        this.roots.push(new EditorWorkspace(root, false, this.files, this.log));
        this.roots.sort((one, other) => other.root.path.length - one.root.path.length);
        const alone = [...this.loose.values()].flatMap(workspace =>
            [...workspace.all()].map(source => ({ workspace, source })),
        );
        const moved = alone.filter(({ source }) => this.placeInRoot(source.uri) !== undefined);
        for (const { workspace, source } of moved) {
            this.tell({ workspace, file: source.file }, workspace.delete(source.file));
            this.adopted.delete(source.uri.toString());
        }
        return moved.map(({ source }) => source.uri);
    }

    all(): EditorWorkspace[] {
        return [...this.roots, ...this.loose.values()];
    }

    onSourceChange(listener: SourceListener): void {
        this.listeners.push(listener);
    }

    /** The place of a file that belongs to a root, or that one of its files uses; undefined for what stands elsewhere. */
    placeKnown(uri: URI): Placed | undefined {
        return this.placeAdopted(uri) ?? this.placeInRoot(uri);
    }

    /** Takes a file into a workspace that would not have it otherwise. */
    adopt(uri: URI, workspace: EditorWorkspace): void {
        if (this.place(uri).workspace === workspace) return;
        this.remove(uri);
        this.adopted.set(uri.toString(), workspace);
    }

    place(uri: URI): Placed {
        return this.placeKnown(uri) ?? this.placeAlone(uri);
    }

    /** The file as read from the document's newest text, reading it now where that has changed. */
    read(document: LangiumDocument): Located | undefined {
        this.documents.freshen(document);
        const { value } = document.parseResult;
        const text = this.documents.textOf(value);
        if (text === undefined) return undefined;
        const { workspace, file } = this.place(document.uri);
        const known = workspace.get(file);
        if (known?.root === value) return { workspace, file, source: known };
        const parsed = this.documents.resultOf(document);
        const source = makeSourceFile({ uri: document.uri, file, text, parsed }, this.log);
        this.tell({ workspace, file }, workspace.set(source));
        return { workspace, file, source };
    }

    remove(uri: URI): void {
        const { workspace, file } = this.place(uri);
        if (workspace.get(file)) this.tell({ workspace, file }, workspace.delete(file));
        this.adopted.delete(uri.toString());
    }

    private placeAdopted(uri: URI): Placed | undefined {
        const workspace = this.adopted.get(uri.toString());
        const file = workspace && relativePathOf(workspace.root, uri);
        return workspace && file !== undefined ? { workspace, file } : undefined;
    }

    private placeInRoot(uri: URI): Placed | undefined {
        for (const workspace of this.roots) {
            const file = relativePathOf(workspace.root, uri);
            if (file === undefined) continue;
            return file.split('/').slice(0, -1).some(isLeftOut) ? undefined : { workspace, file };
        }
        return undefined;
    }

    private placeAlone(uri: URI): Placed {
        const split = uri.path.lastIndexOf('/') + 1;
        const folder = uri.with({ path: uri.path.slice(0, Math.max(0, split - 1)), query: '', fragment: '' });
        const key = folder.toString();
        let workspace = this.loose.get(key);
        if (!workspace) {
            workspace = new EditorWorkspace(folder, true, this.files, this.log);
            this.loose.set(key, workspace);
        }
        return { workspace, file: uri.path.slice(split) };
    }

    private tell(placed: Placed, affected: Affected): void {
        for (const listener of this.listeners) listener(placed, affected);
    }
}
