/** Runs the command line inside the test: words in; exit status, results and messages out. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, onTestFinished } from 'vitest';
import type { Disk, Io } from '../../cli/src/io.js';
import { processDisk } from '../../cli/src/files/disk.js';
import { linesOf } from '../../cli/src/lines-of.js';
import { runProgram } from '../../cli/src/program.js';
import { safetyNotice } from '../../language/src/core/safety/notice.js';
import { wrap } from '../../language/src/core/text/width.js';

export interface Ran {
    readonly status: number;
    /** What went to standard output. */
    readonly output: string;
    /** What went to standard error. */
    readonly messages: string;
}

export interface RunOptions {
    readonly folder: string;
    readonly input?: string | Uint8Array;
    readonly environment?: Readonly<Record<string, string>>;
    /** Whether both streams are terminals. */
    readonly terminal?: boolean;
    readonly columns?: number;
    /** Milliseconds that pass between two looks at the clock. */
    readonly slowness?: number;
    /** Replaces some of the changes to the disk, to let them fail. */
    readonly disk?: Partial<Disk>;
}

/** Runs `halfsplit` with these words. Whatever happens, nobody may get to see a stack trace. */
export async function run(words: readonly string[], options: RunOptions): Promise<Ran> {
    const written = { output: '', messages: '' };
    const stream = (name: keyof typeof written): Io['output'] => ({
        write: text => {
            written[name] += text;
        },
        isTerminal: options.terminal ?? false,
        columns: options.columns,
    });
    let clock = 0;
    const input = options.input ?? '';
    const bytes = typeof input === 'string' ? new TextEncoder().encode(input) : input;
    const status = await runProgram(words, {
        folder: options.folder,
        environment: options.environment ?? {},
        output: stream('output'),
        messages: stream('messages'),
        readInput: async limit => bytes.slice(0, limit),
        readLines: () => linesOf(inPieces(bytes)),
        now: () => (clock += options.slowness ?? 0),
        disk: { ...processDisk, ...options.disk },
        uninterrupted: async work => work(),
    });
    expectNoStack(written.output + written.messages);
    return { status, ...written };
}

/** What `check` writes that has nothing else to tell: its verdict, and what the verdict does not replace. */
export function verdict(...lines: readonly string[]): string {
    return `${[...lines, '', ...wrap(safetyNotice(), 100)].join('\n')}\n`;
}

/** A stream gives bytes in pieces that end anywhere. */
async function* inPieces(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
    for (let start = 0; start < bytes.length; start += 7) yield bytes.slice(start, start + 7);
}

/** Fails on a stack trace. */
export function expectNoStack(text: string): void {
    expect(text).not.toMatch(/^ {4}at /m);
    expect(text).not.toContain('mistake of the program');
}

/** Makes a folder with these files, removed after the test; gives its path without links. */
export function makeFolder(files: Readonly<Record<string, string | Uint8Array>> = {}): string {
    const folder = realpathSync(mkdtempSync(join(tmpdir(), 'halfsplit-cli-')));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    for (const [path, content] of Object.entries(files)) {
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        writeFileSync(join(folder, path), content);
    }
    return folder;
}

/** Every file below a folder, hidden ones too, by path. */
export function listAll(folder: string): readonly string[] {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter(entry => !entry.isDirectory())
        .map(entry => join(entry.parentPath, entry.name).slice(folder.length + 1))
        .sort();
}

export function read(folder: string, path: string): string {
    return readFileSync(join(folder, path), 'utf8');
}

/** An invented door bell, without any finding. */
export const bell = `equipment bell "Door bell" {
  part battery "Battery" {
    replace "Fit a new battery." takes 2 min
    fault flat "Flat" rate 50 per 1e6 h
  }

  test ring "Does the bell ring?" {
    checks battery.flat as absent
    observe by ear
    takes 1 min
    normal yes
    absent no
  }
}
`;

/** The tree of the door bell, without any finding. It uses `bell.fault`. */
export const silent = `uses "bell.fault"

tree silent "The bell does not ring" of bell {
  complaint ring absent

  step press "Press the button" {
    test ring { normal -> no-fault  absent -> flat-battery }
  }

  conclude flat-battery "The battery is flat" { battery.flat }
  refer no-fault "No fault found" because "the bell rings"
}
`;

/** A workspace without any finding. */
export const cleanFiles = { 'halfsplit.json': '{}\n', 'bell.fault': bell, 'silent.fault': silent };

/** The tree of the door bell with one error: a branch to a step that is not there. */
export const wrongSilent = silent.replace('-> flat-battery', '-> flat-batery');
