// Which conditions a state names.

import type { StateCondition } from './unit.js';

/** The numbers of the conditions that a state names itself, each once; not those that a flow in it hangs on. */
export function conditionsIn(state: StateCondition | undefined): readonly number[] {
    switch (state?.sort) {
        case 'value':
            return [state.condition];
        case 'not':
            return conditionsIn(state.operand);
        case 'all':
        case 'any':
            return [...new Set(state.operands.flatMap(conditionsIn))];
        default:
            return [];
    }
}
