// Makes the documents of verified trees: with the record of the verification, and cut down to one build where one is asked for.

import { join } from 'node:path';
import {
    coverTrees,
    listOf,
    listRules,
    nearNames,
    quoteName,
    sliceDocument,
    type Tree,
    type TreeDocument,
    writeTreeDocument,
    type WritingOptions,
} from 'halfsplit-language';
import { Refusal } from './command.js';
import { presenceOf } from './files/presence.js';
import { readWholeFile } from './files/read-file.js';
import { type OpenedWorkspace, sha256 } from './open-workspace.js';
import { programName, programVersion } from './version.js';
import { visible } from './visible.js';

/** The choices of `--build`, which stand behind commas or spaces; undefined where it is not given. */
export function choicesIn(written: string | undefined): readonly string[] | undefined {
    return written?.split(/[\s,]+/).filter(name => name !== '');
}

/** The documents of the trees. `choices` are those of the one build to cut them down to. */
export async function writeDocuments(
    trees: readonly Tree[],
    choices: readonly string[] | undefined,
    time: string | undefined,
    opened: OpenedWorkspace,
): Promise<ReadonlyMap<Tree, TreeDocument>> {
    const { workspace, settings } = opened;
    const tool = { name: programName, version: programVersion };
    const options = { tool, locale: settings.locale, ...(time === undefined ? {} : { time }) };
    const drafts = new Map<Tree, WritingOptions>();
    for (const tree of trees) {
        const draft = await write(tree, { ...options, digests: opened.digests }, opened);
        // Whether there is such a build is known only now, and it must be before anything is walked in it.
        if (choices) await cutDown(draft, choices);
        // Which pictures a tree shows is known once it is written; only then can their digests be taken.
        const pictures = draft.pictures.flatMap(({ path }) => pictureDigest(path, opened.found.root));
        drafts.set(tree, { ...options, digests: new Map([...opened.digests, ...pictures]) });
    }
    const rules = await listRules();
    const covered = await coverTrees(workspace, trees, choices ?? []);
    const documents = new Map<Tree, TreeDocument>();
    for (const [tree, draft] of drafts) {
        const coverage = covered.find(one => one.trees.includes(tree));
        const verified = { rules, severities: settings.severities, coverage };
        const document = await write(tree, { ...draft, verified }, opened);
        documents.set(tree, choices ? await cutDown(document, choices) : document);
    }
    return documents;
}

async function write(tree: Tree, options: WritingOptions, { workspace }: OpenedWorkspace): Promise<TreeDocument> {
    const written = await writeTreeDocument(workspace.model, tree, options);
    if (written.document !== undefined) return written.document;
    const reasons = written.problems.map(({ message }) => message).join(' ');
    throw new Refusal(`\`${tree.name.text}\` cannot be exported. ${visible(reasons)}`);
}

async function cutDown(document: TreeDocument, choices: readonly string[]): Promise<TreeDocument> {
    const slice = await sliceDocument(document, choices);
    if (slice.document !== undefined) return slice.document;
    throw new Refusal(
        `\`${document.tree.id}\` cannot be exported for this build. ${visible(slice.problem)}`,
        adviceFor(document.equipment, choices),
    );
}

/** What could be written instead: a similar choice for one that is not there, else all there are. */
function adviceFor({ options }: TreeDocument['equipment'], choices: readonly string[]): string {
    const ids = options.flatMap(option => option.choices.map(({ id }) => id));
    const names = new Set([...ids, ...ids.map(shortName)]);
    const unknown = choices.find(name => !names.has(name));
    const near = unknown === undefined ? [] : nearNames(unknown, [...names]).map(quoteName);
    if (near.length > 0) return `There is a choice with a similar name: ${listOf(near, 'or')}.`;
    if (ids.length === 0) return 'The equipment has no options, so it has one build only: leave `--build` out.';
    const all = options.map(
        option =>
            `${option.id} (${listOf(
                option.choices.map(({ id }) => shortName(id)),
                'or',
            )})`,
    );
    return `A build has one choice of each option that it has: ${listOf(all, 'and', 12)}.`;
}

/** A tree with its build as people would say it: with the option only where several options have a choice of that name. */
export function withShortBuild([tree, document]: readonly [Tree, TreeDocument]): readonly [Tree, readonly string[]] {
    const all = document.equipment.options.flatMap(option => option.choices.map(({ id }) => shortName(id)));
    const isShared = (id: string) => all.filter(name => name === shortName(id)).length > 1;
    return [tree, (document.build ?? []).map(id => (isShared(id) ? id : shortName(id)))];
}

function shortName(choice: string): string {
    return choice.slice(choice.indexOf('.') + 1);
}

const mostPictureBytes = 64 * 1024 * 1024;

function pictureDigest(path: string, root: string): readonly (readonly [string, string])[] {
    if (presenceOf(path, root) !== 'present') return [];
    const read = readWholeFile(join(root, path), mostPictureBytes);
    return read.sort === 'read' ? [[path, sha256(read.bytes)]] : [];
}
