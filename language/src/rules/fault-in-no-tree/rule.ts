// Faults that bring the complaint of no tree, so that nothing is said of how they are found.

import { defineRule } from '../../core/findings/rule.js';
import { outOfScope } from '../../core/questions/out-of-scope.js';
import { listOf, quoteName } from '../../core/text/words.js';

/** So many names are told; the rest is counted. */
const mostNames = 5;

export default defineRule({
    code: 'fault-in-no-tree',
    since: '0.1.0',
    severity: 'information',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        nowhere: 'No tree has a complaint that {names} can bring.',
        builds: 'In some builds no tree has a complaint that {names} can bring.',
    },
    check(model, file, report, signal) {
        for (const equipment of model.files.get(file)?.equipment ?? []) {
            const out = outOfScope(equipment, model, signal);
            const faults = [...(out?.nowhere ?? []), ...(out?.inSomeBuilds ?? [])];
            if (!out || faults.length === 0) continue;
            const names = listOf(
                faults.map(({ name }) => quoteName(name)),
                'or',
                mostNames,
            );
            report(
                out.nowhere.length > 0 ? 'nowhere' : 'builds',
                equipment.name,
                { names },
                {
                    related: faults.map(({ declaration: { name } }) => ({
                        file: name.file,
                        start: name.start,
                        end: name.end,
                        text: 'nobody looks for this fault',
                    })),
                    advice: 'Write a tree for the complaint that they bring, or say in their flow or tests how they show.',
                },
            );
        }
    },
});
