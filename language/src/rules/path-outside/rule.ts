// The path of a file that does not lie in the workspace.

import type { Mend } from '../../core/findings/finding.js';
import { defineRule } from '../../core/findings/rule.js';
import { relativePath } from '../../core/linking/paths.js';
import { namedFilesOf, sourcesLike } from '../../core/questions/named-files.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'path-outside',
    since: '0.1.0',
    severity: 'error',
    group: 'names',
    cost: 'fast',
    messages: {
        absolute: 'The path {path} begins at the top of a drive, which is another one on each computer.',
        scheme: '{path} is an address and not a file of the workspace.',
        outside: 'The path {path} leads out of the workspace.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const named of namedFilesOf(fileModel, model)) {
            const { path, problem } = named;
            if (problem !== 'absolute' && problem !== 'scheme' && problem !== 'outside') continue;
            report(
                problem,
                path,
                { path: quoteName(path.value) },
                {
                    advice: 'Put the file into the workspace, and write its path as seen from the folder of this file.',
                    mends: sourcesLike(named, model).map((other): Mend => {
                        const text = relativePath(file, other);
                        const edits = [{ file, start: path.start, end: path.end, text: `"${text}"` }];
                        return { title: `Write \`${text}\``, safety: 'suggestion', edits };
                    }),
                },
            );
        }
    },
});
