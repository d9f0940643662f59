// Pressures of which it is not said, or not the same on both sides, whether they are gauge, absolute or a difference.

import { defineRule } from '../../core/findings/rule.js';
import { mismatchMessages, reportMismatches } from '../../core/readings/report-mismatches.js';

export default defineRule({
    code: 'gauge-or-absolute',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    messages: mismatchMessages,
    check(model, file, report) {
        reportMismatches('reference', model, file, report);
    },
});
