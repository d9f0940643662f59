// A step or an end to which no unit comes.

import { defineRule } from '../../core/findings/rule.js';
import { unreachedIn } from '../../core/questions/unreached.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'unreachable-step',
    since: '0.1.0',
    severity: 'warning',
    group: 'structure',
    cost: 'slow',
    asks: 'walked',
    messages: {
        step: 'No unit comes to step {name}.',
        end: 'No unit comes to {sort} {name}.',
    },
    check(model, file, report, signal) {
        const fileModel = model.files.get(file);
        if (!fileModel) return;
        for (const { what, leading } of unreachedIn(fileModel, model, signal)) {
            const values = { name: quoteName(what.name.text), sort: what.sort };
            report(what.sort === 'step' ? 'step' : 'end', what.name, values, {
                related: leading.map(({ written, text }) => ({
                    file: written.file,
                    start: written.start,
                    end: written.end,
                    text,
                })),
                advice:
                    leading.length === 0
                        ? 'Lead a way here, or take it out.'
                        : 'Look why nobody goes the way that would lead here, and correct it, or take this out.',
                unnecessary: true,
            });
        }
    },
});
