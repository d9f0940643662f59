// What a repair opens: it takes off the cover that stands before its part, whether or not a step has done so.

import { conditionsIn } from '../meaning/conditions-in.js';
import type { StateCondition } from '../meaning/unit.js';
import type { FlowSets } from './flow-sets.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere } from './space.js';

/** The worlds in which a state holds, or in which a repair may bring it about. What a closed gate has set stays as it is. */
export function whereOpened(state: StateCondition | undefined, flows: FlowSets): WorldSet {
    const { sets, unit, variables } = flows.space;
    return conditionsIn(state).reduce(
        (where, condition) => {
            const opened = sets.forget(where, [variables.conditions[condition] ?? 0]);
            const held = unit.gates.reduce<WorldSet>((any, { number, closing }) => {
                const closed = sets.is(variables.gates[number] ?? 0, 1);
                return closing
                    .filter(({ settings }) => settings.some(one => one.condition === condition))
                    .reduce(
                        (found, { guard }) => sets.or(found, sets.and(closed, buildsWhere(guard, flows.space))),
                        any,
                    );
            }, noWorlds);
            return sets.or(where, sets.without(opened, held));
        },
        flows.where(state, []),
    );
}
