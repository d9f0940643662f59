// One workspace in the editor: its files as they were read, its links, its settings, and which other files are there.

import { type URI, UriUtils } from 'langium';
import type { Finding } from '../core/findings/finding.js';
import { defaultSettings, type Settings } from '../core/findings/settings.js';
import type { Presence } from '../core/model/model.js';
import type { FileId } from '../core/model/written.js';
import { type LinkedFiles, presenceOf } from './files.js';
import type { Log } from './log.js';
import type { SourceFile } from './source-file.js';
import type { TextOf } from './to-lsp.js';
import { type Affected, WorkspaceLinks } from './workspace-links.js';

/** The files below one folder. Paths are relative to it. */
export class EditorWorkspace {
    readonly links: WorkspaceLinks;
    /** Whether everything was read that belongs to files that were opened alone. */
    isComplete = false;
    settings: Settings = defaultSettings;
    /** What is wrong with the settings file. */
    settingsFindings: readonly Finding[] = [];
    private readonly sources = new Map<FileId, SourceFile>();
    private readonly presences = new Map<string, Presence>();
    private readonly wanted = new Set<string>();

    constructor(
        readonly root: URI,
        /** Whether the files were opened one by one, and not with the folder that they stand in. */
        readonly loose: boolean,
        private readonly files: LinkedFiles,
        log: Log,
    ) {
        this.links = new WorkspaceLinks(path => this.presence(path), log);
    }

    get(file: FileId): SourceFile | undefined {
        return this.sources.get(file);
    }

    all(): IterableIterator<SourceFile> {
        return this.sources.values();
    }

    set(source: SourceFile): Affected {
        this.sources.set(source.file, source);
        this.presences.delete(source.file);
        return this.links.set(source.file, source.model);
    }

    delete(file: FileId): Affected {
        this.sources.delete(file);
        this.presences.delete(file);
        return this.links.set(file, undefined);
    }

    uriOf(file: FileId): URI {
        return UriUtils.joinPath(this.root, file);
    }

    /** Gives the texts of this workspace to whoever turns places into ranges. */
    readonly textOf: TextOf = file => {
        const source = this.sources.get(file);
        return source && { uri: source.uri.toString(), text: source.text };
    };

    /** Forgets whether a file, or a file in this folder, is there; says whether anybody had asked. */
    forgetPresence(path: string): boolean {
        const asked = [...this.presences.keys()].filter(known => known === path || known.startsWith(`${path}/`));
        for (const known of asked) this.presences.delete(known);
        if (asked.length > 0) this.links.invalidate();
        return asked.length > 0;
    }

    /** Looks for the files that were asked about and not known; says whether that changes any answer. */
    async lookForWanted(): Promise<boolean> {
        const paths = [...this.wanted];
        this.wanted.clear();
        let changed = false;
        for (const path of paths) {
            const presence = await presenceOf(this.root, path, this.files);
            this.presences.set(path, presence);
            changed ||= presence !== 'present';
        }
        if (changed) this.links.invalidate();
        return changed;
    }

    // Rules ask at once and a disk answers later: until then a file counts as present.
    private presence(path: string): Presence {
        const known = this.presences.get(path);
        if (known === undefined) this.wanted.add(path);
        return known ?? 'present';
    }
}
