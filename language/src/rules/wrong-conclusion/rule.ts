// A conclusion that is right for nobody who comes to it.

import { defineRule } from '../../core/findings/rule.js';
import { reportWrongEnds } from '../../core/questions/report-ends.js';

export default defineRule({
    code: 'wrong-conclusion',
    since: '0.1.0',
    severity: 'error',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        wrong: 'Conclusion {end} is right for nobody who comes to it: it does not name {noFaults}.',
        effect: 'Conclusion {end} names a fault, but not what it has caused: {effects}.',
    },
    check(model, file, report, signal) {
        reportWrongEnds(model, file, signal, 'wrong', (wrong, values, extrasWith) => {
            const onlyEffects = wrong.faults.length === 0;
            const advice = onlyEffects
                ? `Name ${values.effects} in the conclusion too: cause and effect must both be put right.`
                : 'Look where the path of the example takes the wrong way, or name the fault here.';
            report(onlyEffects ? 'effect' : 'wrong', wrong.end.name, values, extrasWith(advice));
        });
    },
});
