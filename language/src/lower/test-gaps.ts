// Finds tests that leave out how they are done, what they can show, or what a healthy unit shows.

import type { Test } from '../core/model/tests.js';
import { quoteName } from '../core/text/words.js';
import { type Lowering, report } from './context.js';

/** Reports what every test must say and this one does not. */
export function reportTestGaps(context: Lowering, test: Test): void {
    const what = test.name.text === '' ? 'This test' : `Test ${quoteName(test.name.text)}`;
    const place = test.name.text === '' ? { file: test.file, start: test.start, end: test.name.end } : test.name;
    if (test.methods.length === 0) {
        report(context, 'method-missing', `${what} does not say how it is done.`, place, {
            advice: 'Write `measure voltage DC with multimeter`, `observe by eye`, `calculate …` or `identify OPTION` in its braces.',
        });
    }
    // The outcomes of a test that asks which build it is are the choices of its option.
    if (test.methods.some(({ sort }) => sort === 'identify')) return;
    if (test.outcomes.length === 0) {
        report(context, 'outcome-missing', `${what} does not say what it can show.`, place, {
            advice: 'Write its outcomes, that of a healthy unit as `normal`, for example `normal yes  absent no`.',
        });
    } else if (!test.outcomes.some(({ name }) => name.text === 'normal')) {
        report(context, 'normal-missing', `${what} has no outcome \`normal\`.`, place, {
            advice: 'Call the outcome that a healthy unit shows `normal`.',
        });
    }
}
