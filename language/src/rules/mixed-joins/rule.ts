// Branches of a flow that are joined by different words in one pair of brackets.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'mixed-joins',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
