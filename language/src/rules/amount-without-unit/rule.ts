// A number that needs a unit and has none.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'amount-without-unit',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
