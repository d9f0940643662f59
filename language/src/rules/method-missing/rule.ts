// A test that does not say how it is done.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'method-missing',
    since: '0.1.0',
    severity: 'warning',
    group: 'structure',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
