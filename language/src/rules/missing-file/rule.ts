// A `uses` that names a file that is not there.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { relativePath } from '../../core/linking/paths.js';
import { type NamedFile, namedFilesOf, sourcesLike } from '../../core/questions/named-files.js';
import { listOf, quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'missing-file',
    since: '0.1.0',
    severity: 'error',
    group: 'names',
    cost: 'fast',
    messages: {
        missing: 'There is no file {path}.',
        notRead: 'The file {path} is there, but it is not read: a source has a name that ends in `.fault`.',
        empty: 'This `uses` names no file.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const named of namedFilesOf(fileModel, model)) {
            if (named.by !== 'uses') continue;
            const values = { path: quoteName(named.path.value) };
            if (named.problem === 'empty') {
                report('empty', named.path, values, { advice: 'Write the path of a file between the quotes.' });
            } else if (named.problem === 'not-read') {
                report('notRead', named.path, values, { advice: 'Name a file that ends in `.fault`.' });
            } else if (named.problem === 'missing') {
                const like = sourcesLike(named, model).map(other => relativePath(file, other));
                report('missing', named.path, values, {
                    advice: adviceFor(like),
                    mends: like.map(path => pathMend(named, path)),
                });
            }
        }
    },
});

function adviceFor(like: readonly string[]): string {
    if (like.length === 0) return 'Name a file of the workspace, as seen from the folder of this file.';
    const names = like.map(quoteName);
    return like.length === 1
        ? `There is a file with a similar name: ${names.join('')}.`
        : `There are files with similar names: ${listOf(names, 'and')}.`;
}

function pathMend({ path }: NamedFile, text: string): Mend {
    const { file, start, end } = path;
    return { title: `Use \`${text}\``, safety: 'suggestion', edits: [{ file, start, end, text: `"${text}"` }] };
}
