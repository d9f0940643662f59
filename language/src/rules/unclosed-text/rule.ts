// A text, comment or block without its end.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'unclosed-text',
    since: '0.1.0',
    severity: 'error',
    group: 'text',
    cost: 'fast',
    // The reader of texts finds it and has the words; see the page.
    messages: {},
});
