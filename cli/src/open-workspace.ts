// Opens a workspace: its settings, the sources that are asked for, and whatever these use.

import { realpathSync } from 'node:fs';
import { join } from 'node:path';
import {
    defaultSettings,
    type FileId,
    type Finding,
    longestText,
    readSettings,
    readWorkspace,
    type Settings,
    settingsFile,
    type SourceText,
    type Workspace,
} from 'halfsplit-language';
import { isFaultFile, isWithin } from './files/find-files.js';
import { presenceOf } from './files/presence.js';
import { decodeText, readWholeFile } from './files/read-file.js';
import { toFileId } from './files/workspace-root.js';
import { findSources, type FoundSources, pathFinding } from './find-sources.js';
import type { Io } from './io.js';
import { showProgress } from './progress.js';

/** A workspace as opened from the disk. */
export interface OpenedWorkspace {
    readonly found: FoundSources;
    readonly settings: Settings;
    /** The model, with the findings of everything that was read, the settings among them. */
    readonly workspace: Workspace;
    /** The files that were asked for; the others are there because they say something of these. */
    readonly given: ReadonlySet<FileId>;
    /** SHA-256 of the bytes of every file that was read, the settings among them, in hexadecimal; empty where nobody asked for it. */
    readonly digests: ReadonlyMap<FileId, string>;
    /** How many files or folders could not be opened. */
    readonly unopened: number;
}

/** A text that comes from standard input instead of the disk. */
export interface InputText {
    /** Where it would lie, absolute. */
    readonly path: string;
    readonly bytes: Uint8Array;
}

/** More bytes than this cannot be a text that is read: no character takes more than three for each of its UTF-16 units. */
export const mostBytes = longestText * 3;

const mostSettingsBytes = 1024 * 1024;

/** What else to open, and what to find out on the way. */
export interface OpenOptions {
    readonly input?: InputText;
    /** Whether the digests of the files are wanted: working them out takes time. */
    readonly digests?: boolean;
}

/** Opens the workspace of the paths, as they were written, and of the text from standard input. */
export async function openWorkspace(
    paths: readonly string[],
    io: Io,
    { input, digests = false }: OpenOptions = {},
): Promise<OpenedWorkspace> {
    const found = findSources(paths, io, input?.path);
    const { root, problems } = found;
    const reading: Reading = {
        root,
        findings: problems.map(problem => pathFinding(problem, root)),
        digests: digests ? new Map() : undefined,
        failed: new Set(
            problems.filter(({ code }) => code === 'unreadable-file').map(({ path }) => toFileId(path, root)),
        ),
    };
    const { settings, text } = await openSettings(found.settingsFolder, reading);
    const given = new Set<FileId>();
    const progress = showProgress(io, 'Reading');
    const workspace = await readWorkspace(sources(reading, found, given, input), {
        presence: path => presenceOf(path, root),
        used: file => readUsed(reading, file),
        onFile: () => progress.step(),
    });
    progress.end();
    const texts = text === undefined ? workspace.texts : new Map([...workspace.texts, [settingsFile, text]]);
    const findings = [...reading.findings, ...workspace.findings];
    return {
        found,
        settings,
        workspace: { ...workspace, findings, texts },
        given,
        digests: reading.digests ?? new Map(),
        unopened: reading.failed.size,
    };
}

/** What grows while files are read. */
interface Reading {
    readonly root: string;
    readonly findings: Finding[];
    /** Undefined where nobody wants them. */
    readonly digests: Map<FileId, string> | undefined;
    /** What could not be opened. */
    readonly failed: Set<FileId>;
}

/** Reads the files one by one, as they are asked for. */
function* sources(
    reading: Reading,
    found: FoundSources,
    given: Set<FileId>,
    input: InputText | undefined,
): Generator<SourceText> {
    if (input) {
        const file = toFileId(input.path, reading.root);
        given.add(file);
        yield { file, text: keep(reading, file, input.bytes) };
    }
    for (const path of found.files) {
        const file = toFileId(path, reading.root);
        if (given.has(file)) continue;
        given.add(file);
        const text = open(reading, file, path);
        if (text !== undefined) yield { file, text };
    }
    for (const path of found.others()) {
        const file = toFileId(path, reading.root);
        if (given.has(file)) continue;
        // Nobody has asked for it, so a failure matters only where something given uses it.
        const read = readWholeFile(path, mostBytes);
        if (read.sort === 'read') yield { file, text: keep(reading, file, read.bytes) };
    }
}

/** The text of a file; where it cannot be opened, that is a finding, once. */
function open(reading: Reading, file: FileId, path: string): string | undefined {
    if (reading.failed.has(file)) return undefined;
    const read = readWholeFile(path, mostBytes);
    if (read.sort === 'read') return keep(reading, file, read.bytes);
    reading.failed.add(file);
    reading.findings.push(pathFinding({ path, code: 'unreadable-file', message: read.message }, reading.root));
    return undefined;
}

function keep(reading: Reading, file: FileId, bytes: Uint8Array): string {
    reading.digests?.set(file, sha256(bytes));
    return decodeText(bytes);
}

/** SHA-256 in hexadecimal. */
export function sha256(bytes: Uint8Array): string {
    // Loading this takes as long as checking a small file, so it is loaded only for whoever needs it.
    const { createHash } = process.getBuiltinModule('node:crypto');
    return createHash('sha256').update(bytes).digest('hex');
}

/** The text of a file that a source uses, where it lies in the workspace and is a source itself. */
function readUsed(reading: Reading, file: FileId): string | undefined {
    if (!isFaultFile(file) || presenceOf(file, reading.root) !== 'present') return undefined;
    return open(reading, file, join(reading.root, file));
}

async function openSettings(
    folder: string | undefined,
    { root, findings, digests }: Reading,
): Promise<{ readonly settings: Settings; readonly text?: string }> {
    if (folder === undefined) return { settings: defaultSettings };
    const path = realpathSync(join(folder, settingsFile));
    const read = isWithin(path, root)
        ? readWholeFile(path, mostSettingsBytes)
        : ({ sort: 'unreadable', message: 'This link leads out of the workspace.' } as const);
    if (read.sort === 'unreadable') {
        const message = `The settings are not read. ${read.message}`;
        findings.push(pathFinding({ path: join(folder, settingsFile), code: 'settings-invalid', message }, root));
        return { settings: defaultSettings };
    }
    digests?.set(settingsFile, sha256(read.bytes));
    const text = decodeText(read.bytes);
    const reading = await readSettings(text, settingsFile);
    for (const finding of reading.findings) findings.push(finding);
    return { settings: reading.settings, text };
}
