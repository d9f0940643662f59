// Who comes with the complaint of a tree, and in what state.

import type { PartialBuild } from '../builds/evaluate.js';
import type { Route, RouteComplaint } from '../meaning/route.js';
import type { Unit } from '../meaning/unit.js';
import { forced, type Surroundings } from './changes.js';
import { needsOfComplaint, showsIn } from './shows.js';
import type { State } from './state.js';
import { completeBuild, exists, type World } from './world.js';

/** Whether a world comes with a complaint of this tree. A complaint can be mistaken, so the healthy unit always comes. */
export function arrives(route: Route, world: World): boolean {
    const { unit } = route;
    const build = completeBuild(unit, world.build);
    if (!exists(route.guard, build)) return false;
    const canArrive = world.arrival.every(number => {
        const fault = unit.faults[number];
        if (!fault || !exists(fault.guard, build)) return false;
        const others = world.arrival.filter(other => other !== number);
        const isCaused = withEffects(others, unit, build).has(number);
        return isCaused || !fault.onlyWhenCaused.some(({ guard }) => exists(guard, build));
    });
    if (!canArrive || world.arrival.length === 0) return canArrive;
    return route.complaints.some(complaint => exists(complaint.guard, build) && canComplain(complaint, unit, world));
}

/** Whether a world shows a complaint, in the state in which it is noticed. */
function canComplain(complaint: RouteComplaint, unit: Unit, world: World): boolean {
    const surroundings: Surroundings = { unit, build: completeBuild(unit, world.build), arrival: world.arrival };
    const test = unit.tests[complaint.test];
    if (!test || !exists(test.guard, surroundings.build)) return false;
    const states = [...(complaint.when ? [complaint.when] : []), ...needsOfComplaint(test, unit, surroundings.build)];
    const noticed = states.reduce((state, wanted) => forced(wanted, state, surroundings), stateOnArrival(unit, world));
    return showsIn(unit, test.number, world, noticed).some(({ outcome }) => complaint.outcomes.includes(outcome));
}

/** The state in which a world comes: as the unit is found, with its faults and all that they cause. */
export function stateOnArrival(unit: Unit, world: World): State {
    const build = completeBuild(unit, world.build);
    const present = withEffects(world.arrival, unit, build);
    const remembering = unit.tests.filter(({ remembers }) => remembers);
    return {
        conditions: unit.conditions.map(({ guard }) => (exists(guard, build) ? 0 : -1)),
        closed: new Set(),
        safe: new Set(),
        present,
        cleared: new Map(),
        memory: new Map(remembering.map(({ number }) => [number, present])),
        readings: new Map(),
        replaced: world.arrival.map(() => false),
        guessed: false,
    };
}

/** Faults with all that they cause. */
function withEffects(faults: readonly number[], unit: Unit, build: PartialBuild): ReadonlySet<number> {
    const present = new Set(faults);
    // The loop also visits what it adds.
    for (const fault of present) {
        for (const { fault: caused, guard } of unit.faults[fault]?.causes ?? []) {
            if (exists(guard, build) && exists(unit.faults[caused]?.guard, build)) present.add(caused);
        }
    }
    return present;
}
