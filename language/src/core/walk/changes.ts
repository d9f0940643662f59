// What actions and time do to a set of worlds with one presence: conditions, cleared faults, faults that come back.

import type { StateCondition, UnitFault, UnitSetting } from '../meaning/unit.js';
import type { FlowSets } from './flow-sets.js';
import { agedBySetting, takeReading } from './noted.js';
import type { Presence, Presences } from './presence.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, type WalkSpace } from './space.js';

/** Worlds with one presence. */
export interface Crowd {
    readonly presence: Presence;
    readonly set: WorldSet;
    /** Builds in which all of them are known to be, because they were divided by a guard before. */
    readonly within?: WorldSet;
}

/** Everything that a walk through one unit shares. */
export interface Surroundings {
    readonly space: WalkSpace;
    readonly flows: FlowSets;
    readonly presences: Presences;
    /** The tests that remember. */
    readonly remembering: readonly number[];
}

/** Sets conditions, where the build has them. */
export function applySettings(set: WorldSet, settings: readonly UnitSetting[], space: WalkSpace): WorldSet {
    const { sets, unit, variables } = space;
    let changed = set;
    for (const setting of settings) {
        const { condition, value } = setting;
        changed = agedBySetting(changed, setting, space);
        const exists = buildsWhere(unit.conditions[condition]?.guard, space);
        const variable = variables.conditions[condition] ?? 0;
        const there = sets.assign(sets.and(changed, exists), variable, value);
        changed = sets.or(there, sets.without(changed, exists));
    }
    return changed;
}

/** The worlds with everything done that an unmet need asks for, as far as a technician can set it. */
export function forceState(
    set: WorldSet,
    state: StateCondition,
    faults: readonly number[],
    around: Surroundings,
): WorldSet {
    const { space, flows } = around;
    const { sets } = space;
    switch (state.sort) {
        case 'value':
            return applySettings(set, [state], space);
        case 'all':
            return state.operands.reduce((forced, one) => forceState(forced, one, faults, around), set);
        case 'any': {
            const [first] = state.operands;
            const holds = flows.where(state, faults);
            const unmet = sets.without(set, holds);
            return first ? sets.or(sets.and(set, holds), forceState(unmet, first, faults, around)) : set;
        }
        case 'not': {
            if (state.operand.sort !== 'value') return set;
            const { condition, value } = state.operand;
            const other = { condition, value: value === 0 ? 1 : 0 };
            // A condition with one value cannot be set to another.
            if (other.value >= (space.unit.conditions[condition]?.declaration.values.length ?? 0)) return set;
            const holding = sets.and(set, flows.where(state.operand, faults));
            return sets.or(sets.without(set, holding), applySettings(holding, [other], space));
        }
        case 'isolated':
        case 'zones isolated': {
            const zones = state.sort === 'isolated' ? [] : state.zones.map(({ zone }) => space.unit.zones[zone]);
            const exposed = zones.flatMap(zone => zone?.exposures.map(({ hazard }) => hazard) ?? []);
            const holds = flows.where(state, faults);
            const unmet = sets.without(set, holds);
            const hazards = state.sort === 'isolated' ? [state.hazard] : exposed;
            return unmet === noWorlds ? set : sets.or(sets.and(set, holds), makeSafe(unmet, hazards, space));
        }
        case 'taken':
            return takeReading(set, state.test, space);
        case 'flowing':
            return set;
    }
}

/** The hazards count as safe from here on, where the build has them. */
function makeSafe(set: WorldSet, hazards: readonly number[], space: WalkSpace): WorldSet {
    const { sets, unit, variables } = space;
    return hazards.reduce((changed, hazard) => {
        const there = buildsWhere(unit.hazards[hazard]?.guard, space);
        const safe = sets.assign(sets.and(changed, there), variables.hazards[hazard] ?? 0, 1);
        return sets.or(safe, sets.without(changed, there));
    }, set);
}

/** Takes faults out of a presence; those that a fault still present causes may come back. */
export function clearFaults(crowd: Crowd, faults: readonly number[], around: Surroundings): readonly Crowd[] {
    const { presence, set } = crowd;
    const gone = presence.present.filter(fault => faults.includes(fault));
    if (gone.length === 0) return [crowd];
    const { space, presences } = around;
    const { sets } = space;
    const present = presence.present.filter(fault => !gone.includes(fault));
    // Which of them may come back depends on the build, and so does what becomes of those that were cleared before.
    const candidates = [...presence.cleared, ...gone.map(fault => ({ fault, time: 0 }))];
    let cases: { readonly set: WorldSet; readonly cleared: readonly { fault: number; time: number }[] }[] = [
        { set, cleared: [] },
    ];
    for (const candidate of candidates.sort((one, other) => one.fault - other.fault)) {
        const caused = causedBy(candidate.fault, present, space);
        cases = cases
            .flatMap(one => [
                { set: sets.and(one.set, caused), cleared: [...one.cleared, candidate] },
                { set: sets.without(one.set, caused), cleared: one.cleared },
            ])
            .filter(one => one.set !== noWorlds);
    }
    return cases.map(one => ({ set: one.set, presence: presences.of({ ...presence, present, cleared: one.cleared }) }));
}

/** The builds in which one of these faults causes another. */
function causedBy(fault: number, causes: readonly number[], space: WalkSpace): WorldSet {
    const { sets, unit } = space;
    let caused: WorldSet = noWorlds;
    for (const cause of causes) {
        for (const one of unit.faults[cause]?.causes ?? []) {
            if (one.fault === fault) caused = sets.or(caused, buildsWhere(one.guard, space));
        }
    }
    return caused;
}

/** Lets time pass: cleared faults whose cause is there come back when the equipment has run long enough. */
export function passTime(crowd: Crowd, time: number, around: Surroundings): readonly Crowd[] {
    const { presence } = crowd;
    if (presence.cleared.length === 0) return [crowd];
    let cases: { set: WorldSet; back: readonly number[]; cleared: readonly { fault: number; time: number }[] }[] = [
        { set: crowd.set, back: [], cleared: [] },
    ];
    const { sets } = around.space;
    for (const one of presence.cleared) {
        const { running, returning } = whereItReturns(one, time, presence, around);
        cases = cases
            .flatMap(({ set, back, cleared }) => {
                const runs = sets.and(set, running);
                return [
                    { set: sets.without(set, running), back, cleared: [...cleared, one] },
                    {
                        set: sets.without(runs, returning),
                        back,
                        cleared: [...cleared, { fault: one.fault, time: one.time + time }],
                    },
                    { set: sets.and(runs, returning), back: [...back, one.fault], cleared },
                ];
            })
            .filter(({ set }) => set !== noWorlds);
    }
    return cases.map(({ set, back, cleared }) => ({
        set,
        presence: around.presences.of({ ...withFaults(presence, back), cleared }),
    }));
}

/** A presence to which faults have come back; tests that remember remember them. */
function withFaults(presence: Presence, back: readonly number[]): Presence {
    if (back.length === 0) return presence;
    const add = (faults: readonly number[]) => [...new Set([...faults, ...back])].sort((one, other) => one - other);
    const memory = new Map([...presence.memory].map(([test, faults]) => [test, add(faults)]));
    return { ...presence, present: add(presence.present), memory };
}

/** The worlds in which a cause of a cleared fault acts, and those in which it has acted for long enough. */
function whereItReturns(
    cleared: { readonly fault: number; readonly time: number },
    time: number,
    presence: Presence,
    { space, flows }: Surroundings,
): { running: WorldSet; returning: WorldSet } {
    const { sets, unit } = space;
    let running: WorldSet = noWorlds;
    let returning: WorldSet = noWorlds;
    for (const number of presence.present) {
        const cause: UnitFault | undefined = unit.faults[number];
        for (const { fault, guard, after } of cause?.causes ?? []) {
            if (!cause || fault !== cleared.fault) continue;
            const acts = sets.and(buildsWhere(guard, space), flows.running(cause.part, presence.present));
            running = sets.or(running, acts);
            if (cleared.time + time >= after) returning = sets.or(returning, acts);
        }
    }
    return { running, returning };
}

/** A test that remembers forgets what is no longer there. */
export function clearMemory(presence: Presence, test: number, presences: Presences): Presence {
    if (!presence.memory.has(test)) return presence;
    const memory = new Map(presence.memory);
    memory.set(test, presence.present);
    return presences.of({ ...presence, memory });
}

/** The faults that a test looks at: those that it remembers, else those present. */
export function faultsSeen(presence: Presence, test: number): readonly number[] {
    return presence.memory.get(test) ?? presence.present;
}
