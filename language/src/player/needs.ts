// What a test needs before it is made.

import type { State as StateOfDocument, Test } from '../document/types.js';
import type { Decider } from './builds.js';
import { forced, type State, type Surroundings } from './state.js';

/** The zones in which a test is made in this build. */
export function zonesOfTest({ zones }: Test, { builds }: { readonly builds: Decider }): readonly string[] {
    return (zones ?? []).filter(({ guard }) => builds.holds(guard)).map(({ zone }) => zone);
}

/** The states that a test needs in this build. */
export function needsOf({ needs }: Test, { builds }: { readonly builds: Decider }): readonly StateOfDocument[] {
    return (needs ?? []).filter(({ guard }) => builds.holds(guard)).map(({ state }) => state);
}

/**
 * The state in which a test is made: whoever answers it has set the unit up as it is said beside the question, as far as that can
 * be done with conditions.
 */
export function forcedFor(test: Test, surroundings: Surroundings): State {
    return needsOf(test, surroundings).reduce(
        (state, wanted) => forced(wanted, { ...surroundings, state }),
        surroundings.state,
    );
}
