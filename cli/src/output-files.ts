// Decides where the results for trees go: into a folder, into one file, or to standard output.

import { Buffer } from 'node:buffer';
import { statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { listOf, type Tree } from 'halfsplit-language';
import { Refusal } from './command.js';
import type { Io } from './io.js';
import { sha256 } from './open-workspace.js';
import { visible } from './visible.js';

/** Where the result for one tree goes. */
export interface OutputFile {
    readonly tree: Tree;
    /** Absolute. */
    readonly path: string;
    /** As the person who called the program would write it. */
    readonly shown: string;
}

/** The files, one for each tree, or standard output for a single tree. */
export type OutputPlace =
    { readonly sort: 'files'; readonly files: readonly OutputFile[] } | { readonly sort: 'output' };

/**
 * `out` is `-` for standard output, a name with the ending for one file, or a folder, which need not be there yet;
 * without it the files go into the current folder. `ending` is that of the files, such as `.json`. `builds` are the
 * choices of the build that each tree is for, where it is for one.
 */
export function placeOutputs(
    trees: readonly Tree[],
    out: string | undefined,
    ending: string,
    io: Io,
    builds: ReadonlyMap<Tree, readonly string[]> = new Map(),
): OutputPlace {
    const [tree, ...others] = trees;
    const single = others.length === 0 ? tree : undefined;
    if (out === '-') {
        if (single === undefined) throw onlyOne('Standard output takes one tree.', trees);
        return { sort: 'output' };
    }
    if (out !== undefined && out.toLowerCase().endsWith(ending) && !isFolder(resolve(io.folder, out))) {
        if (single === undefined) throw onlyOne(`The file \`${visible(out)}\` takes one tree.`, trees);
        return { sort: 'files', files: [{ tree: single, path: resolve(io.folder, out), shown: visible(out) }] };
    }
    const folder = out ?? '';
    const files = trees.map((one): OutputFile => {
        const name = fileNameOf(one.name.text, builds.get(one)) + ending;
        return { tree: one, path: resolve(io.folder, folder, name), shown: visible(join(folder, name)) };
    });
    refuseSameNames(files);
    return { sort: 'files', files };
}

/**
 * A name that every common file system takes, and that cannot lead out of its folder: that of the tree, with the choices
 * of its build behind it.
 */
export function fileNameOf(name: string, build: readonly string[] = []): string {
    const safe = safeName(name).slice(0, 80);
    // Names of devices on some systems (common practice there, from memory).
    const own = safe === '' || /^(con|prn|aux|nul|com\d|lpt\d)$/i.test(safe) ? `tree-${safe}` : safe;
    const choices = build.map(choice => `.${safeName(choice)}`).join('');
    if (Buffer.byteLength(own + choices) <= mostNameBytes) return own + choices;
    // Cut names of two builds must still differ.
    return `${safeName(own.slice(0, 40))}.${sha256(new TextEncoder().encode(build.join())).slice(0, 32)}`;
}

/** Common file systems take names of 255 bytes; the ending needs some. */
const mostNameBytes = 245;

function safeName(name: string): string {
    return name.normalize('NFC').replace(/[^\p{L}\p{N}\p{M}_-]/gu, '-');
}

/** Two files whose names differ in large and small letters only are one file on some systems. */
function refuseSameNames(files: readonly OutputFile[]): void {
    const known = new Map<string, OutputFile>();
    for (const file of files) {
        const key = file.path.toLowerCase();
        const other = known.get(key);
        if (other) {
            throw new Refusal(
                `Two trees would be written to \`${file.shown}\`: \`${other.tree.name.text}\` of \`${visible(other.tree.file)}\` and \`${file.tree.name.text}\` of \`${visible(file.tree.file)}\`.`,
                'Write them one after the other, each with its own `--out FILE`.',
            );
        }
        known.set(key, file);
    }
}

function onlyOne(sentence: string, trees: readonly Tree[]): Refusal {
    const names = trees.map(tree => `\`${tree.name.text}\``);
    return new Refusal(`${sentence} There are ${trees.length}: ${listOf(names, 'and', 6)}.`, 'Name one of them.');
}

function isFolder(path: string): boolean {
    try {
        return statSync(path).isDirectory();
    } catch {
        return false;
    }
}
