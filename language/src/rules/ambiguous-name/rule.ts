// Choices that two options have, written without their option.

import { defineRule } from '../../core/findings/rule.js';
import type { Mend } from '../../core/findings/finding.js';
import { namesOfEquipment } from '../../core/linking/names.js';
import type { Choice, Option } from '../../core/model/equipment.js';
import type { Declaration } from '../../core/model/file.js';
import type { Model } from '../../core/model/model.js';
import { listOf } from '../../core/text/words.js';

export default defineRule({
    code: 'ambiguous-name',
    since: '0.1.0',
    severity: 'error',
    group: 'names',
    cost: 'fast',
    messages: {
        ambiguous: '`{name}` is a choice of several options: {options}.',
    },
    check(model, file, report) {
        for (const problem of model.problems(file)) {
            if (problem.sort !== 'ambiguous') continue;
            const { reference, candidates } = problem;
            const found = candidates.flatMap(candidate => optionsOf(candidate, model));
            const names = found.map(({ option }) => `\`${option.name.text}.${reference.text}\``);
            report(
                'ambiguous',
                reference,
                {
                    name: reference.text,
                    options: listOf(
                        found.map(({ option }) => `\`${option.name.text}\``),
                        'and',
                    ),
                },
                {
                    related: found.map(({ choice, option }) => ({
                        file: choice.file,
                        start: choice.name.start,
                        end: choice.name.end,
                        text: `choice of option \`${option.name.text}\``,
                    })),
                    advice: `Write the option before it: ${listOf(names, 'or')}.`,
                    mends: found.map(({ option }): Mend => {
                        const text = `${option.name.text}.${reference.text}`;
                        const { file: place, start, end } = reference;
                        return {
                            title: `Write \`${text}\``,
                            safety: 'suggestion',
                            edits: [{ file: place, start, end, text }],
                        };
                    }),
                },
            );
        }
    },
});

/** The option that a choice belongs to. */
function optionsOf(choice: Declaration, model: Model): { choice: Choice; option: Option }[] {
    if (choice.sort !== 'choice-declared') return [];
    return (model.files.get(choice.file)?.equipment ?? []).flatMap(equipment => {
        const option = namesOfEquipment(equipment).optionOfChoice.get(choice);
        return option ? [{ choice, option }] : [];
    });
}
