// How a question and its branches are named in messages.

import type { Branch } from '../model/trees.js';
import type { TestReference } from '../model/tests.js';
import { listOf, quoteName } from '../text/words.js';
import type { PassedQuestion } from './passages.js';

/** The test that is asked, as the author names it. */
export function testWords({ statement }: PassedQuestion): string {
    return referenceWords(statement.test);
}

/** A test as a reference names it: `k1.coil-voltage`. */
export function referenceWords({ owner, test }: TestReference): string {
    return quoteName(test ? `${owner.text}.${test.text}` : owner.text);
}

/** The outcomes of a branch. */
export function branchWords(branch: Branch): string {
    return branch.otherwise
        ? 'any other outcome'
        : listOf(
              branch.outcomes.map(({ text }) => quoteName(text)),
              'or',
          );
}
