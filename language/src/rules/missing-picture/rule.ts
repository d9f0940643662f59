// A picture that is not there.

import { defineRule } from '../../core/findings/rule.js';
import { namedFilesOf } from '../../core/questions/named-files.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'missing-picture',
    since: '0.1.0',
    severity: 'warning',
    group: 'wording',
    cost: 'fast',
    messages: {
        missing: 'There is no picture {path}.',
        empty: 'This `picture` names no file.',
    },
    check(model, file, report) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { by, path, problem } of namedFilesOf(fileModel, model)) {
            if (by !== 'picture') continue;
            if (problem === 'empty') {
                report('empty', path, {}, { advice: 'Write the path of a picture between the quotes.' });
            } else if (problem === 'missing') {
                report(
                    'missing',
                    path,
                    { path: quoteName(path.value) },
                    {
                        advice: 'Put the picture there, or write its path as seen from the folder of this file.',
                    },
                );
            }
        }
    },
});
