// Settings of the workspace that cannot be used.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'settings-invalid',
    since: '0.1.0',
    severity: 'error',
    group: 'text',
    cost: 'fast',
    // The reader of the settings finds it and has the words; see the page.
    messages: {},
});
