// Temperatures that are taken for differences of temperatures, and the other way round.

import { defineRule } from '../../core/findings/rule.js';
import { mismatchMessages, reportMismatches } from '../../core/readings/report-mismatches.js';

export default defineRule({
    code: 'difference-or-value',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: mismatchMessages,
    check(model, file, report) {
        reportMismatches('difference', model, file, report);
    },
});
