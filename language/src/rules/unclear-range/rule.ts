// A range of readings of which it is not clear on which side of its first limit they are.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'unclear-range',
    since: '0.1.0',
    severity: 'error',
    group: 'readings',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
