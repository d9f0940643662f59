// The verb `export`: writes verified trees as JSON documents.

import { join } from 'node:path';
import {
    documentText,
    type Finding,
    listOf,
    listRules,
    plural,
    type Tree,
    writeTreeDocument,
} from 'halfsplit-language';
import { blockingFindings, verifyReached } from '../blocking-findings.js';
import { chooseTrees } from '../choose-trees.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import { presenceOf } from '../files/presence.js';
import { readWholeFile } from '../files/read-file.js';
import { writeFiles } from '../files/write-files.js';
import type { Io } from '../io.js';
import { type OpenedWorkspace, sha256 } from '../open-workspace.js';
import { placeOutputs } from '../output-files.js';
import { plainReport } from '../report/report.js';
import { textFindings } from '../report/text.js';
import { programName, programVersion } from '../version.js';

export const exportTrees: Command = {
    name: 'export',
    summary: 'writes verified trees as JSON documents',
    usage: ['halfsplit export [TREE|PATH…] [--out FOLDER|FILE.json|-] [--pretty|--canonical]'],
    help: [
        'A TREE is the name of a tree in the current folder; a PATH is a `.fault` file or a folder, and means all trees in it.',
        'Without either, all trees of the current folder are exported.',
        'Each tree becomes a file `TREE.json` in the current folder, or in the FOLDER of `--out`, which is made where needed.',
        'A tree is verified first. While errors stand in the files that it reaches, nothing is written.',
    ],
    examples: [
        ['halfsplit export no-airflow', 'writes no-airflow.json'],
        ['halfsplit export trees --out out', 'writes every tree in the folder trees into the folder out'],
        ['halfsplit export no-airflow --canonical --out -', 'gives the bytes that digests and signatures are made of'],
    ],
    options: {
        out: {
            value: 'PLACE',
            summary: 'a folder, a file that ends in .json for a single tree, or - for standard output',
        },
        pretty: { summary: 'write JSON that people can read (the default)' },
        canonical: { summary: 'write canonical JSON (RFC 8785)' },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runExport,
};

async function runExport(words: Words, io: Io): Promise<number> {
    if (words.has('pretty') && words.has('canonical')) {
        throw new Refusal('A document is written either `--pretty` or `--canonical`, not both.');
    }
    const form = words.has('canonical') ? 'canonical' : 'pretty';
    const { opened, trees } = await chooseTrees(words.operands, io);
    const place = placeOutputs(trees, words.value('out'), '.json', io);
    const status = await refuseErrors(trees, opened, io);
    if (status !== nothingFound) return status;
    const texts = new Map<Tree, string>();
    for (const tree of trees) texts.set(tree, await writeTree(tree, form, opened));
    if (place.sort === 'output') {
        for (const text of texts.values()) io.output.write(text);
        return nothingFound;
    }
    await writeFiles(
        place.files.map(({ tree, path, shown }) => ({ path, shown, text: texts.get(tree) ?? '' })),
        io,
    );
    for (const { shown } of place.files) io.messages.write(`Wrote \`${shown}\`.\n`);
    return nothingFound;
}

/** Shows the errors that stand in the way, each once, and says which trees they keep from being written. */
async function refuseErrors(trees: readonly Tree[], opened: OpenedWorkspace, io: Io): Promise<number> {
    const verdict = await verifyReached(
        trees.map(tree => tree.file),
        opened,
        io,
    );
    const blocking = blockingFindings(trees, verdict, opened);
    const unopened = opened.unopened > 0 ? verdict.findings.filter(({ code }) => code === 'unreadable-file') : [];
    const shown = new Set<Finding>([...unopened, ...[...blocking.values()].flat()]);
    if (shown.size === 0) return nothingFound;
    const codes = new Set((await listRules()).map(rule => rule.code));
    const report = plainReport([...shown], opened.found.root, opened.workspace.texts);
    io.messages.write(textFindings(report, io.messages, io, codes));
    const names = trees.filter(tree => (blocking.get(tree)?.length ?? 0) > 0).map(tree => `\`${tree.name.text}\``);
    const why = plural(shown.size, 'error stands', 'errors stand');
    const of = names.length === 0 ? '' : ` of ${listOf(names, 'and', 6)}`;
    io.messages.write(`Nothing is written: ${why} in the way${of}.\n`);
    return opened.unopened > 0 ? wrongUse : somethingFound;
}

async function writeTree(tree: Tree, form: 'pretty' | 'canonical', opened: OpenedWorkspace): Promise<string> {
    const { workspace, settings, digests, found } = opened;
    const options = { tool: { name: programName, version: programVersion }, locale: settings.locale };
    const first = await writeTreeDocument(workspace.model, tree, { ...options, digests });
    // Which pictures a tree shows is known once it is written; only then can their digests be taken.
    const pictures = first.document?.pictures.map(({ path }) => path) ?? [];
    const all = new Map([...digests, ...pictures.flatMap(path => pictureDigest(path, found.root))]);
    const written = await writeTreeDocument(workspace.model, tree, { ...options, digests: all });
    if (written.document === undefined) {
        const reasons = written.problems.map(({ message }) => message).join(' ');
        throw new Refusal(`\`${tree.name.text}\` cannot be exported. ${reasons}`);
    }
    return documentText(written.document, form);
}

const mostPictureBytes = 64 * 1024 * 1024;

function pictureDigest(path: string, root: string): readonly (readonly [string, string])[] {
    if (presenceOf(path, root) !== 'present') return [];
    const read = readWholeFile(join(root, path), mostPictureBytes);
    return read.sort === 'read' ? [[path, sha256(read.bytes)]] : [];
}
