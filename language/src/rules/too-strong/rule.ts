// A conclusion that leaves out faults that are still possible where it is drawn.

import { defineRule } from '../../core/findings/rule.js';
import { reportWrongEnds } from '../../core/questions/report-ends.js';

export default defineRule({
    code: 'too-strong',
    since: '0.1.0',
    severity: 'error',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        fault: 'Conclusion {end} leaves out what is still possible here: {faults}.',
        effect: 'Conclusion {end} names a fault, but not what it has caused: {effects}.',
    },
    check(model, file, report, signal) {
        reportWrongEnds(model, file, signal, 'too strong', (wrong, values, extrasWith) => {
            const onlyEffects = wrong.faults.length === 0;
            const advice = onlyEffects
                ? `Name ${values.effects} in the conclusion too: cause and effect must both be put right.`
                : 'Ask one more test that tells it apart, or name it in the conclusion too.';
            report(onlyEffects ? 'effect' : 'fault', wrong.end.name, values, extrasWith(advice));
        });
    },
});
