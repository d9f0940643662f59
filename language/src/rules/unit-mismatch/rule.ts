// Units and quantities that do not fit each other.

import { defineRule } from '../../core/findings/rule.js';
import { mismatchMessages, reportMismatches } from '../../core/readings/report-mismatches.js';

export default defineRule({
    code: 'unit-mismatch',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: mismatchMessages,
    check(model, file, report) {
        reportMismatches('unit', model, file, report);
    },
});
