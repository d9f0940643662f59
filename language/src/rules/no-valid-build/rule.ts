// Exclusions that leave no build at all.

import { defineRule } from '../../core/findings/rule.js';
import { conflictingExclusions, hasBuild } from '../../core/questions/build-facts.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'no-valid-build',
    since: '0.1.0',
    severity: 'error',
    group: 'builds',
    cost: 'fast',
    messages: {
        excluded: 'The exclusions of {name} leave no build that can be made.',
        guards: 'The `for` of the options of {name} contradict each other, so that no build can be made.',
    },
    check(model, file, report) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            if (hasBuild(equipment, model) !== 'no') continue;
            const exclusions = conflictingExclusions(equipment, model);
            const last = exclusions.at(-1);
            const name = quoteName(equipment.name.text);
            if (!last) {
                report(
                    'guards',
                    equipment.name,
                    { name },
                    { advice: 'Take one `for` out, or name other choices in it.' },
                );
                continue;
            }
            report(
                'excluded',
                last,
                { name },
                {
                    related: exclusions.slice(0, -1).map(({ start, end }) => ({
                        file,
                        start,
                        end,
                        text: 'this exclusion leaves the others too few builds',
                    })),
                    advice: 'Take one of these exclusions out, or add a choice to it so that it excludes less.',
                },
            );
        }
    },
});
