// A file that cannot be read at all: too large, no text, or not there any more.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'unreadable-file',
    since: '0.1.0',
    severity: 'error',
    group: 'text',
    cost: 'fast',
    // The reader of texts finds it and has the words; see the page.
    messages: {},
});
