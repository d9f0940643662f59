// Which flows bring the energy of a hazard, and where all of them still do.
//
// A flow drives a hazard that a supply in it carries or that stands in it. A hazard that no flow names so is driven by the
// flows through the parts in the zones that expose it. Of several, those that feed no other of them count: the motor's power
// drives the heat, and not the control voltage before it.

import type { UnitPlace } from '../meaning/unit.js';
import { upstreamOf } from '../meaning/upstream.js';
import type { FlowSets } from './flow-sets.js';
import { placesIn, placesWithBuilds } from './flow-places.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere } from './space.js';

/** A flow, with the builds in which it drives a hazard. */
export interface Driver {
    readonly flow: number;
    readonly where: WorldSet;
}

const known = new WeakMap<FlowSets, Map<number, readonly Driver[]>>();

/** The flows that drive a hazard. */
export function driversOf(hazard: number, flows: FlowSets): readonly Driver[] {
    const ofUnit = known.get(flows) ?? new Map<number, readonly Driver[]>();
    known.set(flows, ofUnit);
    let drivers = ofUnit.get(hazard);
    if (!drivers) {
        drivers = findDrivers(hazard, flows);
        ofUnit.set(hazard, drivers);
    }
    return drivers;
}

function findDrivers(hazard: number, flows: FlowSets): Driver[] {
    const { sets, unit } = flows.space;
    const isNamed = unit.flows.some(({ chain }) => placesIn(chain).some(place => names(place, hazard, flows)));
    const found = drivenBy(place => (isNamed ? namedAt : exposedAt)(place, hazard, flows), flows);
    const upstream = upstreamOf(unit);
    const isBefore = (one: Driver, other: Driver) =>
        (upstream[other.flow]?.has(one.flow) ?? false) && !(upstream[one.flow]?.has(other.flow) ?? false);
    return found
        .map(one => ({
            flow: one.flow,
            where: found
                .filter(other => isBefore(one, other))
                .reduce((left, other) => sets.without(left, other.where), one.where),
        }))
        .filter(({ where }) => where !== noWorlds);
}

/** The flows with a place of which this holds, in the builds in which it does. */
function drivenBy(whereAt: (place: UnitPlace) => WorldSet, flows: FlowSets): Driver[] {
    const { space } = flows;
    const { sets } = space;
    return space.unit.flows.flatMap(({ number, chain }) => {
        const any = placesWithBuilds(chain, space).reduce<WorldSet>((found, { place, exists }) => {
            const at = whereAt(place);
            return at === noWorlds ? found : sets.or(found, sets.and(exists, at));
        }, noWorlds);
        const where = sets.and(any, flows.exists(number));
        return where === noWorlds ? [] : [{ flow: number, where }];
    });
}

/** Whether a place names a hazard: a supply that carries it stands there, or the hazard itself. */
function names({ part, hazard: own }: UnitPlace, hazard: number, { space: { unit } }: FlowSets): boolean {
    return own === hazard || unit.parts[part ?? -1]?.carries === hazard;
}

function namedAt(place: UnitPlace, hazard: number, flows: FlowSets): WorldSet {
    const { space } = flows;
    return names(place, hazard, flows) ? buildsWhere(space.unit.hazards[hazard]?.guard, space) : noWorlds;
}

/** The builds in which the part of a place stands in a zone that exposes a hazard, in whatever state. */
function exposedAt({ part }: UnitPlace, hazard: number, { space }: FlowSets): WorldSet {
    const { sets, unit } = space;
    let where: WorldSet = noWorlds;
    for (const { zone, guard } of unit.parts[part ?? -1]?.zones ?? []) {
        const declared = unit.zones[zone];
        for (const exposure of declared?.exposures ?? []) {
            if (exposure.hazard !== hazard) continue;
            const here = sets.and(buildsWhere(guard, space), buildsWhere(declared?.guard, space));
            where = sets.or(where, sets.and(here, buildsWhere(exposure.guard, space)));
        }
    }
    return sets.and(where, buildsWhere(unit.hazards[hazard]?.guard, space));
}

const running = new WeakMap<FlowSets, Map<number, WorldSet>>();

/** The worlds in which energy still comes into a hazard: it is not isolated, and all that drives it carries something. */
export function stillDriven(hazard: number, flows: FlowSets): WorldSet {
    const ofUnit = running.get(flows) ?? new Map<number, WorldSet>();
    running.set(flows, ofUnit);
    let driven = ofUnit.get(hazard);
    if (driven === undefined) {
        driven = findDriven(hazard, flows);
        ofUnit.set(hazard, driven);
    }
    return driven;
}

function findDriven(hazard: number, flows: FlowSets): WorldSet {
    const { sets } = flows.space;
    let any: WorldSet = noWorlds;
    let stopped: WorldSet = noWorlds;
    for (const { flow, where } of driversOf(hazard, flows)) {
        any = sets.or(any, where);
        stopped = sets.or(stopped, sets.and(where, flows.deadEnd(flow, [])));
    }
    return sets.without(any, sets.or(stopped, flows.isolated(hazard)));
}
