// A fault that brings the complaint and ends nowhere that names it.

import { defineRule } from '../../core/findings/rule.js';
import { reportWrongEnds } from '../../core/questions/report-ends.js';

export default defineRule({
    code: 'fault-not-found',
    since: '0.1.0',
    severity: 'error',
    group: 'diagnosis',
    cost: 'slow',
    asks: 'walked',
    messages: {
        unnamed: 'No end names {noFaults} in any tree that {comes} to; here {ends} at {end}.',
        missed: 'In some builds no way leads to an end that names {noFaults}; here {ends} at {end}.',
    },
    check(model, file, report, signal) {
        reportWrongEnds(model, file, signal, 'unnamed', (wrong, values, extrasWith) => {
            const advice = 'Name it at the end where it belongs; a referral that names it hands it over.';
            report('unnamed', wrong.end.name, values, extrasWith(advice));
        });
        reportWrongEnds(model, file, signal, 'missed', (wrong, values, extrasWith) => {
            const advice = 'Name it at this end, or ask a test that finds it in those builds too.';
            report('missed', wrong.end.name, values, extrasWith(advice));
        });
    },
});
