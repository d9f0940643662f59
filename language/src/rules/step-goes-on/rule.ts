// Something to do in a step that has been left before it.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'step-goes-on',
    since: '0.1.0',
    severity: 'warning',
    group: 'structure',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
