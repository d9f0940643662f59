// Finds the trees that the person who called the program means, by their names or by the paths of their files.

import { existsSync, realpathSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { listOf, nearNames, type Tree } from 'halfsplit-language';
import { Refusal } from './command.js';
import { isWithin } from './files/find-files.js';
import { shownPath } from './find-sources.js';
import type { Io } from './io.js';
import { openWorkspace, type OpenedWorkspace } from './open-workspace.js';
import { visible } from './visible.js';

export interface ChosenTrees {
    readonly opened: OpenedWorkspace;
    /** At least one, in the order of files and places. */
    readonly trees: readonly Tree[];
}

/**
 * An operand is a path where there is a file or folder of that name, or where it is written like one; otherwise it is
 * the name of a tree in the current folder. Without operands all trees of the current folder are meant.
 */
export async function chooseTrees(operands: readonly string[], io: Io): Promise<ChosenTrees> {
    const paths = operands.length === 0 ? ['.'] : operands.filter(operand => isPath(operand, io));
    const names = operands.filter(operand => !paths.includes(operand));
    const opened = await openWorkspace(names.length > 0 ? ['.', ...paths] : paths, io, { digests: true });
    const chosen = new Set<Tree>();
    for (const path of paths) for (const tree of treesUnder(path, opened, io)) chosen.add(tree);
    for (const name of names) chosen.add(treeNamed(name, opened, io));
    if (chosen.size === 0 && opened.unopened === 0) {
        throw new Refusal(
            `There is no tree in ${listOf(
                paths.map(path => `\`${visible(path)}\``),
                'or',
            )}.`,
        );
    }
    const trees = allTrees(opened).filter(tree => chosen.has(tree));
    return { opened, trees };
}

/**
 * Finds one tree in the sources, which are the current folder where none are given. `operand` is the name of a tree, or the
 * path of a file that holds only one.
 */
export async function chooseTree(operand: string, sources: readonly string[], io: Io): Promise<ChosenTree> {
    const isFile = sources.length === 0 && operand.endsWith('.fault') && isPath(operand, io);
    const paths = isFile ? [operand] : sources.length === 0 ? ['.'] : sources;
    const opened = await openWorkspace(paths, io);
    const [unopened] = opened.workspace.findings.filter(({ code }) => code === 'unreadable-file');
    if (unopened && allTrees(opened).length === 0) {
        throw new Refusal(
            `\`${shownPath(unopened.file, opened.found.root, io)}\` cannot be opened. ${unopened.message}`,
        );
    }
    if (!isFile) {
        return { opened, tree: treeNamed(operand, opened, io, sources.length === 0 ? undefined : 'these sources') };
    }
    const [tree, second] = allTrees(opened);
    if (tree === undefined) throw new Refusal(`There is no tree in \`${visible(operand)}\`.`);
    if (second === undefined) return { opened, tree };
    const names = listOf(
        allTrees(opened).map(one => `\`${one.name.text}\``),
        'and',
        8,
    );
    throw new Refusal(`\`${visible(operand)}\` holds several trees.`, `Give the name of one: there are ${names}.`);
}

export interface ChosenTree {
    readonly opened: OpenedWorkspace;
    readonly tree: Tree;
}

function isPath(operand: string, io: Io): boolean {
    return /[/\\.]/.test(operand) || existsSync(resolve(io.folder, operand));
}

function allTrees({ workspace, given }: OpenedWorkspace): readonly Tree[] {
    return [...given].sort().flatMap(file => workspace.model.files.get(file)?.trees ?? []);
}

function treesUnder(path: string, opened: OpenedWorkspace, io: Io): readonly Tree[] {
    const full = resolve(io.folder, path);
    if (!existsSync(full)) return [];
    const real = realpathSync(full);
    return allTrees(opened).filter(tree => isWithin(join(opened.found.root, tree.file), real));
}

function treeNamed(name: string, opened: OpenedWorkspace, io: Io, where = 'this folder'): Tree {
    const trees = allTrees(opened);
    const [tree, second] = trees.filter(one => one.name.text === name);
    if (tree === undefined) {
        const names = trees.map(one => one.name.text);
        const near = nearNames(name, names).map(one => `\`${one}\``);
        const known = [...new Set(names)].map(one => `\`${one}\``);
        const message = `There is no tree called \`${visible(name)}\` in ${where}.`;
        if (near.length > 0) throw new Refusal(message, `There is a tree with a similar name: ${listOf(near, 'or')}.`);
        throw new Refusal(message, known.length === 0 ? undefined : `There are the trees ${listOf(known, 'and', 8)}.`);
    }
    if (second !== undefined) {
        const { root } = opened.found;
        const files = [tree, second].map(one => `\`${shownPath(one.file, root, io)}\``);
        throw new Refusal(`There are two trees called \`${name}\`.`, `Give the file instead: ${listOf(files, 'or')}.`);
    }
    return tree;
}
