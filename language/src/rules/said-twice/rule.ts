// A clause that may stand once for the same builds and stands twice.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'said-twice',
    since: '0.1.0',
    severity: 'error',
    group: 'text',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
