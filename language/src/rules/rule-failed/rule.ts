// A rule that failed while it looked at a file.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'rule-failed',
    since: '0.1.0',
    severity: 'error',
    group: 'text',
    cost: 'fast',
    // Whoever runs the rules reports it and has the words; see the page.
    messages: {},
});
