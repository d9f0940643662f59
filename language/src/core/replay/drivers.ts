// Which flows bring the energy of a hazard in one build, and whether all of them still do.

import type { PartialBuild } from '../builds/evaluate.js';
import { upstreamOf } from '../meaning/upstream.js';
import type { UnitFlow, UnitPlace } from '../meaning/unit.js';
import type { Surroundings } from './changes.js';
import { withoutFaults } from './exposed.js';
import { placesIn } from './layout.js';
import { situationOf } from './situation.js';
import { holds, isDeadAtEnd } from './standing.js';
import type { State } from './state.js';
import { exists } from './world.js';

const known = new WeakMap<PartialBuild, Map<number, readonly UnitFlow[]>>();

/**
 * The flows that drive a hazard: those that a supply which carries it or the hazard itself stands in. Where no flow has such a
 * place in any build, those through the parts in the zones that expose it. Of several, those that feed no other of them.
 */
export function driversOf(hazard: number, surroundings: Surroundings): readonly UnitFlow[] {
    const inBuild = known.get(surroundings.build) ?? new Map<number, readonly UnitFlow[]>();
    known.set(surroundings.build, inBuild);
    let drivers = inBuild.get(hazard);
    if (!drivers) {
        drivers = findDrivers(hazard, surroundings);
        inBuild.set(hazard, drivers);
    }
    return drivers;
}

function findDrivers(hazard: number, surroundings: Surroundings): readonly UnitFlow[] {
    const { unit, build } = surroundings;
    if (!exists(unit.hazards[hazard]?.guard, build)) return [];
    const isNamed = ({ part, hazard: own }: UnitPlace) => own === hazard || unit.parts[part ?? -1]?.carries === hazard;
    const isNamedAnywhere = unit.flows.some(flow => everyPlaceIn(flow).some(isNamed));
    const drives = isNamedAnywhere ? isNamed : (place: UnitPlace) => isExposedAt(place, hazard, surroundings);
    const found = unit.flows.filter(
        flow => exists(flow.guard, build) && placesIn(flow.chain, build).some(place => drives(place)),
    );
    const upstream = upstreamOf(unit);
    return found.filter(
        ({ number }) =>
            !found.some(
                other =>
                    (upstream[other.number]?.has(number) ?? false) && !(upstream[number]?.has(other.number) ?? false),
            ),
    );
}

function everyPlaceIn({ chain }: Pick<UnitFlow, 'chain'>): UnitPlace[] {
    return chain.flatMap(element => {
        if (element.sort === 'place') return [element];
        return element.sort === 'group' ? element.chains.flatMap(inner => everyPlaceIn({ chain: inner })) : [];
    });
}

function isExposedAt({ part }: UnitPlace, hazard: number, { unit, build }: Surroundings): boolean {
    return (unit.parts[part ?? -1]?.zones ?? []).some(({ zone, guard }) => {
        const declared = unit.zones[zone];
        if (!declared || !exists(guard, build) || !exists(declared.guard, build)) return false;
        return declared.exposures.some(one => one.hazard === hazard && exists(one.guard, build));
    });
}

/** Whether energy still comes into a hazard: it is not isolated, and all that drives it carries something, with no fault counted. */
export function isStillDriven(hazard: number, state: State, surroundings: Surroundings): boolean {
    const { unit, build } = surroundings;
    const situation = situationOf(unit, build, withoutFaults(state));
    if (holds({ sort: 'isolated', hazard }, situation)) return false;
    const drivers = driversOf(hazard, surroundings);
    return drivers.length > 0 && drivers.every(flow => !isDeadAtEnd(flow, situation));
}

/** The hazards that some flow drives which carried nothing in the first state and carries something in the second. */
export function startedBetween(before: State, after: State, surroundings: Surroundings): readonly number[] {
    const { unit, build } = surroundings;
    const then = situationOf(unit, build, withoutFaults(before));
    const now = situationOf(unit, build, withoutFaults(after));
    return unit.hazards.flatMap(({ number }) =>
        driversOf(number, surroundings).some(flow => isDeadAtEnd(flow, then) && !isDeadAtEnd(flow, now))
            ? [number]
            : [],
    );
}
