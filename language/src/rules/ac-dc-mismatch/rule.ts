// Voltages and currents that are AC on one side and DC on the other, or effective values and peak values.

import { defineRule } from '../../core/findings/rule.js';
import { mismatchMessages, reportMismatches } from '../../core/readings/report-mismatches.js';

export default defineRule({
    code: 'ac-dc-mismatch',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: mismatchMessages,
    check(model, file, report) {
        reportMismatches('form', model, file, report);
    },
});
