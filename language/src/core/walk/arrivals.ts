// Who arrives at the start of a tree: every fault that can show the complaint, and the healthy unit.

import type { Route, RouteComplaint } from '../meaning/route.js';
import { type Crowd, forceState, type Surroundings } from './changes.js';
import type { Presence } from './presence.js';
import { readingsOf } from './readings.js';
import type { TestAnswers } from './shows.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, changedByActions, isPossible, type WalkSpace } from './space.js';

/** Every crowd at the first station. Two faults at once where `pair` is given, else each fault alone and the healthy unit. */
export function arrivalsOf(route: Route, around: Surroundings, answers: TestAnswers): Crowd[] {
    const { unit } = around.space;
    const arrivals: Crowd[] = [];
    const healthy = around.presences.of(nobody(around));
    addPossible(arrivals, { presence: healthy, set: foundIn(route, around.space) }, around.space);
    for (const { number } of unit.faults) {
        for (const crowd of arrivalsWith([number], route, around, answers)) addPossible(arrivals, crowd, around.space);
    }
    return arrivals;
}

function addPossible(arrivals: Crowd[], crowd: Crowd, space: WalkSpace): void {
    if (isPossible(crowd.set, space)) arrivals.push(crowd);
}

function nobody({ remembering }: Surroundings): Omit<Presence, 'number'> {
    const memory = new Map(remembering.map(test => [test, []]));
    return { arrival: [], present: [], cleared: [], memory, replaced: false };
}

/** The worlds of a tree's builds as a unit is found: every condition at its first value, every gate open. */
export function foundIn(route: Route, space: WalkSpace): WorldSet {
    return asFound(buildsWhere(route.guard, space), space);
}

/** The same builds with every condition at its first value, every gate open, nothing made safe. */
export function asFound(set: WorldSet, { sets, variables }: WalkSpace): WorldSet {
    let found = set;
    for (const variable of [
        ...variables.conditions,
        ...variables.gates,
        ...variables.hazards,
        variables.guessed,
        ...variables.taken.filter(variable => variable >= 0),
    ].reverse()) {
        found = sets.assign(found, variable, 0);
    }
    return found;
}

/** The crowds that arrive with these faults; which faults they cause depends on the build. */
export function arrivalsWith(
    faults: readonly number[],
    route: Route,
    around: Surroundings,
    answers: TestAnswers,
): Crowd[] {
    const { space } = around;
    const { sets, unit } = space;
    let alone: WorldSet = buildsWhere(route.guard, space);
    for (const number of faults) {
        const fault = unit.faults[number];
        alone = sets.and(alone, buildsWhere(fault?.guard, space));
        for (const { guard } of fault?.onlyWhenCaused ?? []) alone = sets.without(alone, buildsWhere(guard, space));
    }
    if (alone === noWorlds) return [];
    const crowds: Crowd[] = [];
    for (const { present, set } of withCaused(faults, alone, space)) {
        const memory = new Map(around.remembering.map(test => [test, present]));
        const presence = around.presences.of({ arrival: faults, present, cleared: [], memory, replaced: false });
        const complaining = route.complaints.reduce<WorldSet>(
            (any, complaint) => sets.or(any, showsComplaint(complaint, presence, set, around, answers)),
            noWorlds,
        );
        if (complaining === noWorlds) continue;
        crowds.push({ presence, set: asFound(complaining, space) });
    }
    return crowds;
}

/** The faults with all that they cause, for the builds in which they cause it. */
function withCaused(
    faults: readonly number[],
    builds: WorldSet,
    space: WalkSpace,
): { present: readonly number[]; set: WorldSet }[] {
    const { sets, unit } = space;
    const done: { present: readonly number[]; set: WorldSet }[] = [];
    const open: { present: readonly number[]; absent: readonly number[]; set: WorldSet }[] = [
        { present: [...faults].sort((one, other) => one - other), absent: [], set: builds },
    ];
    for (let one = open.pop(); one; one = open.pop()) {
        const { present, absent, set } = one;
        const next = present
            .flatMap(number => unit.faults[number]?.causes ?? [])
            .find(({ fault }) => !present.includes(fault) && !absent.includes(fault));
        if (!next) {
            done.push({ present, set });
            continue;
        }
        let caused: WorldSet = noWorlds;
        for (const number of present) {
            for (const { fault, guard } of unit.faults[number]?.causes ?? []) {
                if (fault === next.fault) caused = sets.or(caused, buildsWhere(guard, space));
            }
        }
        caused = sets.and(caused, buildsWhere(unit.faults[next.fault]?.guard, space));
        const [withIt, withoutIt] = [sets.and(set, caused), sets.without(set, caused)];
        const more = [...present, next.fault].sort((a, b) => a - b);
        // What was not caused by those present may be caused by the one that joins them.
        if (withIt !== noWorlds) open.push({ present: more, absent: [], set: withIt });
        if (withoutIt !== noWorlds) open.push({ present, absent: [...absent, next.fault], set: withoutIt });
    }
    return done;
}

function showsComplaint(
    complaint: RouteComplaint,
    presence: Presence,
    builds: WorldSet,
    around: Surroundings,
    answers: TestAnswers,
): WorldSet {
    const { space } = around;
    const { sets, unit, variables } = space;
    const test = unit.tests[complaint.test];
    if (!test) return noWorlds;
    const here = sets.and(builds, sets.and(buildsWhere(complaint.guard, space), buildsWhere(test.guard, space)));
    if (here === noWorlds) return noWorlds;
    const faults = presence.memory.get(test.number) ?? presence.present;
    let set = asFound(here, space);
    if (complaint.when) set = forceState(set, complaint.when, faults, around);
    for (const { needs, where } of readingsOf(test, space)) {
        for (const { guard, state } of needs) {
            // Whoever complains has read it.
            if (state.sort === 'taken') continue;
            const needing = sets.and(where, buildsWhere(guard, space));
            set = sets.or(sets.without(set, needing), forceState(sets.and(set, needing), state, faults, around));
        }
    }
    const shown = answers.answer(test, faults);
    const complaining = complaint.outcomes.reduce<WorldSet>(
        (any, outcome) => sets.or(any, sets.and(set, shown.outcomes[outcome] ?? noWorlds)),
        noWorlds,
    );
    return complaining === noWorlds ? noWorlds : sets.forget(complaining, changedByActions(variables));
}
