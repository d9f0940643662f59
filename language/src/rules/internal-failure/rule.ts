// The tool failed while it read a file.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'internal-failure',
    since: '0.1.0',
    severity: 'error',
    group: 'text',
    cost: 'fast',
    // The reader of texts finds it and has the words; see the page.
    messages: {},
});
