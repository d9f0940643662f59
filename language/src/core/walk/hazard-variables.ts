// Which variables make no difference to any hazard on the ways of a tree.

import type { Action, Route } from '../meaning/route.js';
import type { InBuilds, Unit } from '../meaning/unit.js';
import { driversOf } from './drivers.js';
import { buildsWhere } from './space.js';
import type { RouteWalk } from './walk-route.js';

/** Draws, guesses, and options that nothing asks for which a hazard, or the way to one on a detour, depends on. */
export function variablesToForget({ route, around }: RouteWalk): number[] {
    const { unit, variables, sets } = around.space;
    const asked = new Set<number>();
    const seen = new Set<InBuilds>();
    const ask = (guard: InBuilds) => {
        if (!guard || seen.has(guard)) return;
        seen.add(guard);
        for (const variable of sets.variablesOf(buildsWhere(guard, around.space))) asked.add(variable);
    };
    for (const guard of [...guardsOfUnit(unit), ...guardsOfRoute(route)]) ask(guard);
    for (const state of unit.zones.flatMap(({ exposures }) => exposures.map(exposure => exposure.while))) {
        if (!state) continue;
        for (const variable of sets.variablesOf(around.flows.where(state, []))) asked.add(variable);
    }
    // Whether an action starts the equipment.
    for (const { number, guard } of unit.flows) {
        ask(guard);
        for (const variable of sets.variablesOf(around.flows.deadEnd(number, []))) asked.add(variable);
    }
    // Which flows drive a hazard.
    for (const { where } of unit.hazards.flatMap(({ number }) => driversOf(number, around.flows))) {
        for (const variable of sets.variablesOf(where)) asked.add(variable);
    }
    const options = [...variables.options.values()].filter(variable => !asked.has(variable));
    const more = [...variables.taken, ...variables.draws].filter(variable => variable >= 0);
    return [...options, variables.guessed, ...more];
}

function guardsOfUnit(unit: Unit): InBuilds[] {
    const { hazards, zones, conditions, gates, parts, tests, faults } = unit;
    const limited = [
        ...[...hazards, ...zones, ...conditions, ...gates, ...tests],
        ...zones.flatMap(({ exposures }) => exposures),
        ...gates.flatMap(({ controls, permits, closing, restoring }) => [
            ...controls,
            ...permits,
            ...closing,
            ...restoring,
        ]),
        ...[...parts, ...tests].flatMap(one => one.zones),
        ...parts,
        ...parts.flatMap(({ protects }) => protects),
        ...[...parts, ...faults].flatMap(({ repairs }) => repairs),
    ];
    return limited.map(({ guard }) => guard);
}

function guardsOfRoute({ stations, exits, ends, unit }: Route): InBuilds[] {
    const limited = [
        ...[...stations, ...exits, ...ends],
        ...ends.flatMap(({ leavesGates, leavesConditions, repairs, names }) => [
            ...[...leavesGates, ...leavesConditions, ...repairs, ...names],
            ...names.map(({ fault }) => ({ guard: unit.faults[fault]?.guard })),
        ]),
    ];
    const actions = stations.flatMap(station => station.actions);
    return [...limited.map(({ guard }) => guard), ...actions.flatMap(guardsOfAction)];
}

function guardsOfAction(action: Action): InBuilds[] {
    return action.sort === 'follow' ? [action.guard, action.guardOfProcedure] : [action.guard];
}
