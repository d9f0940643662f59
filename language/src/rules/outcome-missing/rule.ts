// A test that does not say what it can show.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'outcome-missing',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
