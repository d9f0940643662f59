// A sign that the language does not know.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'unexpected-character',
    since: '0.1.0',
    severity: 'error',
    group: 'text',
    cost: 'fast',
    // The reader of texts finds it and has the words; see the page.
    messages: {},
});
