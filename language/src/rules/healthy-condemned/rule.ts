// A healthy unit that ends at a repair.

import { defineRule } from '../../core/findings/rule.js';
import { reportWrongEnds } from '../../core/questions/report-ends.js';

export default defineRule({
    code: 'healthy-condemned',
    since: '0.1.0',
    severity: 'error',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        condemned: 'A healthy unit ends at conclusion {end}: a good part would be repaired or replaced.',
        referred: 'A healthy unit ends at referral {end}, which names a fault that it does not have.',
    },
    check(model, file, report, signal) {
        const advice = 'Ask the complaint first, and lead its normal answer to a referral that names no fault.';
        reportWrongEnds(model, file, signal, 'condemned', (wrong, values, extrasWith) => {
            report('condemned', wrong.end.name, values, extrasWith(advice));
        });
        reportWrongEnds(model, file, signal, 'handed over', (wrong, values, extrasWith) => {
            report('referred', wrong.end.name, values, { ...extrasWith(advice), severity: 'warning' });
        });
    },
});
