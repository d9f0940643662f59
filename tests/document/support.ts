/** Reads a small workspace out of texts and exports one of its trees: text in, document out. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { treeDocumentSchema } from '../../language/src/document/schema/tree-document.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { writeTreeDocument, type WrittenTree } from '../../language/src/document/writing/write-tree-document.js';
import { sha256 } from '../../language/src/document/canonical.js';
import type { Model } from '../../language/src/core/model/model.js';
import { readWorkspace, type Workspace } from '../../language/src/workspace/read-workspace.js';
import { root } from '../house/project.mjs';

export const tool = { name: 'halfsplit', version: '0.1.0' };

/** Texts by the path of their file. */
export type Files = Readonly<Record<string, string>>;

/** Reads the `.fault` files in the order given, whatever is wrong with them. */
export function readAnyFiles(files: Files): Workspace {
    const sources = Object.entries(files).map(([file, text]) => ({ file, text }));
    const faultFiles = sources.filter(({ file }) => file.endsWith('.fault'));
    return readWorkspace(faultFiles, { presence: path => (path in files ? 'present' : 'missing') });
}

/** Reads the `.fault` files in the order given; what cannot be read fails the test. */
export function readFiles(files: Files): Model {
    const { model, findings } = readAnyFiles(files);
    const wrong = findings.filter(({ code }) => code !== 'amount-without-unit' && code !== 'reason-missing');
    if (wrong.length > 0) throw new Error(wrong.map(({ code, message }) => `${code}: ${message}`).join('\n'));
    return model;
}

/** Exports the tree with this name. */
export async function writeFrom(files: Files, name: string, locale?: string): Promise<WrittenTree> {
    const model = readFiles(files);
    const tree = [...model.files.values()].flatMap(file => file.trees).find(each => each.name.text === name);
    if (!tree) throw new Error(`The files have no tree ${name}.`);
    const digests = new Map<string, string>();
    for (const [file, text] of Object.entries(files)) digests.set(file, await sha256(text));
    return writeTreeDocument(model, tree, { tool, digests, ...(locale === undefined ? {} : { locale }) });
}

/** Exports the tree with this name; what stands in the way of it fails the test. */
export async function exportFrom(files: Files, name: string, locale?: string): Promise<TreeDocument> {
    const { document, problems } = await writeFrom(files, name, locale);
    if (!document) {
        throw new Error(problems.map(({ message, file, start }) => `${file} ${start} ${message}`).join('\n'));
    }
    return document;
}

/** Reads every `.fault` file and picture of a folder of the repository. */
export function filesOf(folder: string): Files {
    const names = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).sort();
    const files = names.filter(name => /\.(fault|svg)$/.test(name));
    return Object.fromEntries(
        files.map(name => [
            name.replaceAll('\\', '/'),
            readFileSync(join(root, folder, name), 'utf8').replaceAll('\r\n', '\n'),
        ]),
    );
}

/** What JSON Schema says against a document; empty where it is valid. Every keyword of the schema must be known. */
export function schemaErrors(document: unknown): readonly string[] {
    validate(document);
    return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message ?? ''}`);
}

const validate = new Ajv2020({ strict: true, allErrors: true }).compile(treeDocumentSchema);
