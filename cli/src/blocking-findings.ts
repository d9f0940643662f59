// The errors that stand in the way of a tree: in any file that it reaches, or in the settings.

import { type FileId, type Finding, settingsFile, type Tree, type Verdict, verifyWorkspace } from 'halfsplit-language';
import type { Io } from './io.js';
import type { OpenedWorkspace } from './open-workspace.js';
import { showProgress } from './progress.js';

/** Verifies the files, and those that they use. */
export async function verifyReached(files: Iterable<FileId>, opened: OpenedWorkspace, io: Io): Promise<Verdict> {
    const { workspace, settings } = opened;
    const reached = new Set<FileId>();
    for (const file of files) for (const seen of workspace.model.visibleFiles(file)) reached.add(seen.file);
    const progress = showProgress(io, 'Checking', reached.size);
    const verdict = await verifyWorkspace(workspace, settings, [...reached], () => progress.step());
    progress.end();
    return verdict;
}

/** The errors that each tree meets. */
export function blockingFindings(
    trees: readonly Tree[],
    verdict: Verdict,
    { workspace }: OpenedWorkspace,
): ReadonlyMap<Tree, readonly Finding[]> {
    const errors = verdict.findings.filter(({ severity }) => severity === 'error');
    return new Map(
        trees.map(tree => {
            const reached = new Set<FileId>(workspace.model.visibleFiles(tree.file).map(({ file }) => file));
            reached.add(settingsFile);
            return [tree, errors.filter(({ file }) => reached.has(file))];
        }),
    );
}
