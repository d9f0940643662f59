// A test without the outcome that a healthy unit shows.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'normal-missing',
    since: '0.1.0',
    severity: 'error',
    group: 'structure',
    cost: 'fast',
    // It is found while a file is made into the model, which has the words; see the page.
    messages: {},
});
