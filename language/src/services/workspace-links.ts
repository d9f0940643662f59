// The links of one workspace while its files change: the linker of the command line, run again only where it can matter.

import { type FileLinks, linkFile, type LinkSources } from '../core/linking/linker.js';
import { globalSorts, namesOfFile } from '../core/linking/names.js';
import { resolvePath } from '../core/linking/paths.js';
import { inOrderOfPaths, type LinkedModel, makeSources } from '../core/linking/workspace-links.js';
import type { Context } from '../core/linking/scope.js';
import type { Declaration, FileModel } from '../core/model/file.js';
import type { Presence } from '../core/model/model.js';
import type { FileId, Reference } from '../core/model/written.js';
import type { Log } from './log.js';

/** The links of a file with the references that they belong to, by their numbers. */
export interface LinkedFile extends FileLinks {
    readonly references: readonly Reference[];
}

/** Hears of a reference and of what stands around it. */
export type Watch = (reference: Reference, context: Context) => void;

/** Which files a change can matter to. */
export interface Affected {
    /** Files that see the changed one: their links and all their findings may change. */
    readonly seers: readonly FileId[];
    /** Files that the changed one sees or saw: whether something in them is used may change. */
    readonly seen: readonly FileId[];
}

/** The models and links of the files of one workspace. Files are linked when somebody asks. */
export class WorkspaceLinks {
    private readonly models = new Map<FileId, FileModel>();
    private readonly linked = new Map<FileId, LinkedFile>();
    /** The files that name a file in `uses`, whether it is there or not. */
    private readonly users = new Map<FileId, Set<FileId>>();
    private sources: LinkSources = makeSources(this.models);
    private current: LinkedModel | undefined;

    constructor(
        private readonly presence: (path: string) => Presence,
        private readonly log: Log,
    ) {}

    /** The linked model as it is now. Each change makes another one, so that rules can remember answers beside it. */
    get model(): LinkedModel {
        this.current ??= this.makeModel();
        return this.current;
    }

    get(file: FileId): FileModel | undefined {
        return this.models.get(file);
    }

    links(file: FileId): LinkedFile | undefined {
        const model = this.models.get(file);
        if (!model) return undefined;
        let links = this.linked.get(file);
        if (!links) {
            links = this.link(model);
            this.linked.set(file, links);
        }
        return links;
    }

    /** Puts a new version of a file in place, or takes the file away, and says what that can matter to. */
    set(file: FileId, model: FileModel | undefined): Affected {
        const before = this.models.get(file);
        const sawBefore = before ? this.sources.visibleFiles(file).map(seen => seen.file) : [];
        for (const used of before ? usedBy(before) : []) this.users.get(used)?.delete(file);
        if (model) this.models.set(file, model);
        else this.models.delete(file);
        for (const used of model ? usedBy(model) : []) this.addUser(used, file);
        const seers = this.findSeers(file, !sameNames(before, model));
        for (const seer of [file, ...seers]) this.linked.delete(seer);
        this.invalidate();
        this.sources = makeSources(this.models);
        const sees = this.sources.visibleFiles(file).map(seen => seen.file);
        return { seers, seen: [...new Set([...sawBefore, ...sees])].filter(seen => seen !== file) };
    }

    /** Forgets what was worked out of the whole workspace, for example because a picture has come or gone. */
    invalidate(): void {
        this.current = undefined;
    }

    /**
     * Links a version of a file that is tried out and not put in place; the other files stay as they are.
     * Answers what the linker knew of the workspace then.
     */
    tryLinking(model: FileModel, watch: Watch): LinkSources {
        const { sources } = this;
        const visible = (file: FileId): readonly FileModel[] => {
            const seen = sources.visibleFiles(file).filter(other => other.file !== model.file);
            return file === model.file ? [model, ...seen] : seen;
        };
        const tried = { ...sources, visibleFiles: visible };
        linkFile(model, tried, watch);
        return tried;
    }

    private link(model: FileModel): LinkedFile {
        const references: Reference[] = [];
        try {
            const links = linkFile(model, this.sources, reference => {
                references[reference.number] = reference;
            });
            return { ...links, references };
        } catch (problem) {
            this.log.failure(`Linking ${model.file}`, problem);
            return { targets: [], problems: [], references };
        }
    }

    private makeModel(): LinkedModel {
        const { models, sources } = this;
        let referred: Set<Declaration> | undefined;
        return {
            files: inOrderOfPaths(models),
            visibleFiles: file => sources.visibleFiles(file),
            declaring: (sort, name) => sources.declaring(sort, name),
            links: file => this.links(file),
            target: reference => this.links(reference.file)?.targets[reference.number],
            problems: file => this.links(file)?.problems ?? [],
            isReferred: declaration => {
                referred ??= this.findReferred();
                return referred.has(declaration);
            },
            presence: this.presence,
        };
    }

    private findReferred(): Set<Declaration> {
        const referred = new Set<Declaration>();
        for (const file of this.models.keys()) {
            for (const target of this.links(file)?.targets ?? []) if (target) referred.add(target);
        }
        return referred;
    }

    /** The files that see a file; with `names` changed also those that look for a name in vain. */
    private findSeers(file: FileId, names: boolean): FileId[] {
        const found = new Set<FileId>([file]);
        for (const seen of found) for (const user of this.users.get(seen) ?? []) found.add(user);
        if (names) {
            for (const [other, { problems }] of this.linked) {
                if (problems.some(({ sort }) => sort === 'unknown')) found.add(other);
            }
        }
        found.delete(file);
        return [...found].filter(seer => this.models.has(seer));
    }

    private addUser(used: FileId, user: FileId): void {
        const known = this.users.get(used);
        if (known) known.add(user);
        else this.users.set(used, new Set([user]));
    }
}

/** The files that a file names in `uses`, as paths of the workspace. */
export function usedBy(model: FileModel): FileId[] {
    return model.uses.flatMap(({ path }) => resolvePath(model.file, path.value) ?? []);
}

function sameNames(one: FileModel | undefined, other: FileModel | undefined): boolean {
    if (!one || !other) return false;
    const [names, otherNames] = [namesOfFile(one), namesOfFile(other)];
    return globalSorts.every(
        sort =>
            names[sort].size === otherNames[sort].size &&
            [...names[sort].keys()].every(name => otherNames[sort].has(name)),
    );
}
