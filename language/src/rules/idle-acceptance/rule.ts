// An acceptance that accepts nothing; whoever applies the acceptances reports it with the words from here.

import { defineRule } from '../../core/findings/rule.js';

export default defineRule({
    code: 'idle-acceptance',
    since: '0.1.0',
    severity: 'warning',
    group: 'names',
    // Slow rules have not spoken as you type, so nothing can be said of their acceptances then.
    cost: 'slow',
    messages: {
        unknown: '`accept {code}` accepts nothing: no finding has the code `{code}`.',
        reason: '`accept {code}` does not hold, because it gives no reason.',
        error: '`accept {code}` does not hold: `{code}` is an error, and errors cannot be accepted.',
        nothing: '`accept {code}` accepts nothing: there is no such finding here.',
    },
});
