// Whether an end is right for a world that has come to it.

import type { RouteEnd } from '../meaning/route.js';
import type { Unit } from '../meaning/unit.js';
import type { Ending } from './run.js';
import { sorted, type State } from './state.js';
import { completeBuild, exists, type World } from './world.js';

/**
 * What an end says of a world. It is right for a faulty one if it names each fault of the arrival (or another fault of
 * its part, where that has been replaced on the way) and every other fault that is present; for a healthy one if it is
 * a referral that names nothing.
 */
export function endingAt(end: RouteEnd, state: State, world: World, unit: Unit): Ending {
    const named = namesOf(end, world, unit);
    const partsNamed = new Set([...named].map(fault => unit.faults[fault]?.part));
    const isAnswered = (fault: number, index: number): boolean =>
        named.has(fault) || (state.replaced[index] === true && partsNamed.has(unit.faults[fault]?.part));
    const others = [...state.present].filter(fault => !world.arrival.includes(fault));
    const isHealthy = world.arrival.length === 0;
    return {
        sort: 'end',
        end: end.number,
        right: isHealthy
            ? end.written.sort === 'referral' && named.size === 0
            : world.arrival.every(isAnswered) && others.every(fault => named.has(fault)),
        named: !isHealthy && world.arrival.every(fault => named.has(fault)),
        present: sorted(state.present),
    };
}

function namesOf(end: RouteEnd, world: World, unit: Unit): ReadonlySet<number> {
    const build = completeBuild(unit, world.build);
    return new Set(
        end.names
            .filter(({ fault, guard }) => exists(guard, build) && exists(unit.faults[fault]?.guard, build))
            .map(({ fault }) => fault),
    );
}
