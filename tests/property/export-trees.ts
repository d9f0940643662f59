/** Exports every tree of a workspace: texts in, the documents' texts out. It reads nothing else, so any process can run it. */
import { prettyJson, sha256 } from '../../language/src/document/canonical.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { writeTreeDocument } from '../../language/src/document/writing/write-tree-document.js';
import { readWorkspace } from '../../language/src/workspace/read-workspace.js';
import type { GivenFile } from './orders.js';

/** The documents of all trees, by the tree's file and name. */
export async function writeAll(given: readonly GivenFile[]): Promise<ReadonlyMap<string, TreeDocument>> {
    const sources = given.flatMap(([file, text]) => (file.endsWith('.fault') ? [{ file, text }] : []));
    const paths = new Set(given.map(([file]) => file));
    const { model } = readWorkspace(sources, { presence: path => (paths.has(path) ? 'present' : 'missing') });
    const digests = new Map<string, string>();
    for (const [file, text] of given) digests.set(file, await sha256(text));
    const documents = new Map<string, TreeDocument>();
    for (const { file, trees } of model.files.values()) {
        for (const tree of trees) {
            const written = writeTreeDocument(model, tree, { tool: { name: 'test', version: '1' }, digests });
            const { document, problems } = written;
            if (!document) throw new Error(problems.map(({ message }) => message).join('\n'));
            documents.set(`${file} ${tree.name.text}`, document);
        }
    }
    return documents;
}

/** The documents as they would stand in files, in the order of the trees' names. */
export async function exportAll(given: readonly GivenFile[]): Promise<readonly GivenFile[]> {
    const documents = await writeAll(given);
    const files = [...documents].map(([tree, document]) => [tree, prettyJson(document)] as const);
    return files.sort(([one], [other]) => (one < other ? -1 : 1));
}
