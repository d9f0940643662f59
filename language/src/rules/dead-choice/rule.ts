// A choice that no build has.

import { defineRule } from '../../core/findings/rule.js';
import { deadChoices } from '../../core/questions/build-facts.js';
import { quoteName } from '../../core/text/words.js';

export default defineRule({
    code: 'dead-choice',
    since: '0.1.0',
    severity: 'warning',
    group: 'builds',
    cost: 'fast',
    messages: {
        dead: 'No build has the choice {choice} of option {option}: the exclusions leave none.',
    },
    check(model, file, report) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            for (const { option, choice, exclusions } of deadChoices(equipment, model)) {
                const values = { choice: quoteName(choice.name.text), option: quoteName(option.name.text) };
                report('dead', choice.name, values, {
                    related: exclusions.map(({ start, end }) => ({
                        file,
                        start,
                        end,
                        text: `excludes ${values.choice}`,
                    })),
                    advice: 'Take the choice out if it is not built, or let an exclusion exclude less.',
                });
            }
        }
    },
});
