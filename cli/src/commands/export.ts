// The verb `export`: writes verified trees as JSON documents.

import { existsSync } from 'node:fs';
import {
    documentText,
    type Finding,
    listOf,
    listRules,
    loadKeyParts,
    plural,
    type PrivateKey,
    signDocument,
    type Tree,
    type TreeDocument,
} from 'halfsplit-language';
import { blockingFindings, verifyReached } from '../blocking-findings.js';
import { chooseTrees } from '../choose-trees.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import { readPrivateKey } from '../files/read-key.js';
import { type NewFile, writeFiles } from '../files/write-files.js';
import type { Io } from '../io.js';
import type { OpenedWorkspace } from '../open-workspace.js';
import { type OutputFile, placeOutputs } from '../output-files.js';
import { plainReport } from '../report/report.js';
import { textFindings } from '../report/text.js';
import { signatureFileOf } from '../signature-file.js';
import { choicesIn, withShortBuild, writeDocuments } from '../write-documents.js';

export const exportTrees: Command = {
    name: 'export',
    summary: 'writes verified trees as JSON documents',
    usage: ['halfsplit export [TREE|PATH…] [--out FOLDER|FILE.json|-] [--build CHOICES] [--sign KEY]'],
    help: [
        'A TREE is the name of a tree in the current folder; a PATH is a `.fault` file or a folder, and means all trees in it.',
        'Without either, all trees of the current folder are exported.',
        'Each tree becomes a file `TREE.json` in the current folder, or in the FOLDER of `--out`, which is made where needed.',
        'A tree is verified first. While errors stand in the files that it reaches, nothing is written.',
        'With `--build` a document holds only what that one build has, and its file is called after the build too: `TREE.CHOICE.CHOICE.json`. Every option that the build has needs one choice.',
        'With `--sign` a signature is written beside each document: `TREE.jws`, a detached JWS (RFC 7515) over its canonical form, so it holds for the pretty form as well. `halfsplit verify` checks it.',
    ],
    examples: [
        ['halfsplit export no-airflow', 'writes no-airflow.json'],
        ['halfsplit export trees --out out', 'writes every tree in the folder trees into the folder out'],
        ['halfsplit export no-airflow --canonical --out -', 'gives the bytes that digests and signatures are made of'],
        ['halfsplit export no-airflow --build single-phase,bag', 'writes no-airflow.single-phase.bag.json'],
        ['halfsplit export --out out --sign private.pem', 'writes all trees, each with its signature'],
    ],
    options: {
        out: {
            value: 'PLACE',
            summary: 'a folder, a file that ends in .json for a single tree, or - for standard output',
        },
        pretty: { summary: 'write JSON that people can read (the default)' },
        canonical: { summary: 'write canonical JSON (RFC 8785)' },
        build: {
            value: 'CHOICES',
            summary: 'only what one build has: its choices, with commas between them, CHOICE or OPTION.CHOICE',
        },
        sign: {
            value: 'KEY',
            summary: 'sign with this Ed25519 private key: a file with a JWK or PEM (PKCS #8), or env:NAME',
        },
        time: {
            value: 'TIME',
            summary: 'put this time into the documents, in UTC such as 2026-01-31T09:30:00Z; otherwise there is none',
        },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runExport,
};

async function runExport(words: Words, io: Io): Promise<number> {
    if (words.has('pretty') && words.has('canonical')) {
        throw new Refusal('A document is written either `--pretty` or `--canonical`, not both.');
    }
    const form = words.has('canonical') ? 'canonical' : 'pretty';
    const key = await keyOf(words, io);
    const { opened, trees } = await chooseTrees(words.operands, io);
    const early = placeOutputs(trees, words.value('out'), '.json', io);
    const status = await refuseErrors(trees, opened, io);
    if (status !== nothingFound) return status;
    const choices = words.value('build');
    const documents = await writeDocuments(trees, choicesIn(choices), words.value('time'), opened);
    if (early.sort === 'output') {
        for (const document of documents.values()) io.output.write(await documentText(document, form));
        return nothingFound;
    }
    const place =
        choices === undefined
            ? early
            : placeOutputs(trees, words.value('out'), '.json', io, new Map([...documents].map(withShortBuild)));
    const files = place.sort === 'files' ? place.files : [];
    await writeAll(files, documents, form, key, io);
    return nothingFound;
}

/** The key to sign with; undefined where nobody wants to. */
async function keyOf(words: Words, io: Io): Promise<PrivateKey | undefined> {
    const written = words.value('sign');
    if (written === undefined) return undefined;
    if (words.value('out') === '-') {
        throw new Refusal(
            'A signature is a file beside its document, so `--sign` does not go with `--out -`.',
            'Give a folder or a file with `--out`.',
        );
    }
    return readPrivateKey(written, io);
}

/** Writes the documents with their signatures, and tells of signatures that may no longer fit. */
async function writeAll(
    files: readonly OutputFile[],
    documents: ReadonlyMap<Tree, TreeDocument>,
    form: 'pretty' | 'canonical',
    key: PrivateKey | undefined,
    io: Io,
): Promise<void> {
    const written: NewFile[] = [];
    const stale: string[] = [];
    for (const { tree, path, shown } of files) {
        const document = documents.get(tree);
        if (!document) continue;
        written.push({ path, shown, text: await documentText(document, form) });
        const beside = { path: signatureFileOf(path), shown: signatureFileOf(shown) };
        if (key) written.push({ ...beside, text: await signDocument(document, key) });
        else if (existsSync(beside.path)) stale.push(beside.shown);
    }
    await writeFiles(written, io);
    for (const { shown } of written) io.messages.write(`Wrote \`${shown}\`.\n`);
    if (key) io.messages.write(`Signed with the key ${await (await loadKeyParts()).keyThumbprint(key)}.\n`);
    for (const shown of stale) {
        io.messages.write(`\`${shown}\` was there before and need not fit any more: \`--sign\` makes a new one.\n`);
    }
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
