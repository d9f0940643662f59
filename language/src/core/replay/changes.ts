// What actions do to the state of a world.

import type { PartialBuild } from '../builds/evaluate.js';
import type { DoAction } from '../meaning/route.js';
import type { GuardedTime, Milliseconds, StateCondition, Unit, UnitElement, UnitSetting } from '../meaning/unit.js';
import { withAgedReadings, withReading, withReadingsBeforeRepair } from './noted.js';
import { situationOf } from './situation.js';
import { holds, isDeadAtEnd, isRunning } from './standing.js';
import type { State } from './state.js';
import { exists } from './world.js';

/** The unit and build in which a state changes. */
export interface Surroundings {
    readonly unit: Unit;
    readonly build: PartialBuild;
    /** The faults that the world arrived with. */
    readonly arrival: readonly number[];
}

/** Sets conditions; those that the build lacks stay away. */
export function withSettings(state: State, settings: readonly UnitSetting[], unit: Unit): State {
    if (settings.length === 0) return state;
    const conditions = [...state.conditions];
    let aged = state;
    for (const { condition, value } of settings) {
        const before = conditions[condition];
        if (before === undefined || before < 0 || value < 0) continue;
        if (before !== value) aged = withAgedReadings(aged, condition, unit);
        conditions[condition] = value;
    }
    // What stays the same stays the same object, so that what is known of the state can be remembered.
    const isSame = conditions.every((value, number) => value === state.conditions[number]);
    return aged === state && isSame ? state : { ...aged, conditions };
}

/** Makes a state hold, as far as setting conditions can do it. */
export function forced(condition: StateCondition, state: State, surroundings: Surroundings): State {
    switch (condition.sort) {
        case 'value':
            return withSettings(state, [condition], surroundings.unit);
        case 'all':
            return condition.operands.reduce((before, operand) => forced(operand, before, surroundings), state);
        case 'any': {
            const [first] = condition.operands;
            const { unit, build } = surroundings;
            return first && !holds(condition, situationOf(unit, build, state))
                ? forced(first, state, surroundings)
                : state;
        }
        case 'not': {
            const { operand } = condition;
            if (operand.sort !== 'value' || state.conditions[operand.condition] !== operand.value) return state;
            const values = surroundings.unit.conditions[operand.condition]?.declaration.values.length ?? 0;
            const other = operand.value === 0 ? 1 : 0;
            return other < values
                ? withSettings(state, [{ condition: operand.condition, value: other }], surroundings.unit)
                : state;
        }
        case 'isolated':
        case 'zones isolated': {
            if (holds(condition, situationOf(surroundings.unit, surroundings.build, state))) return state;
            if (condition.sort === 'isolated') return withSafe(state, [condition.hazard], surroundings);
            const zones = condition.zones.map(({ zone }) => surroundings.unit.zones[zone]);
            const hazards = zones.flatMap(zone => zone?.exposures.map(({ hazard }) => hazard) ?? []);
            return withSafe(state, hazards, surroundings);
        }
        case 'taken':
            return state.readings.has(condition.test) ? state : withReading(state, condition.test, surroundings.unit);
        case 'flowing':
            return state;
    }
}

/** The hazards count as safe from here on, where the build has them. */
function withSafe(state: State, hazards: readonly number[], { unit, build }: Surroundings): State {
    const there = hazards.filter(hazard => exists(unit.hazards[hazard]?.guard, build));
    return { ...state, safe: new Set([...state.safe, ...there]) };
}

/** Does an action that can be done: settings, then what it puts right, then its time. */
export function done(action: DoAction, state: State, surroundings: Surroundings): State {
    const { unit, arrival } = surroundings;
    const replacedFaults = action.replaces.flatMap(part => unit.parts[part]?.faults ?? []);
    const set = atWorstIfStarted(state, withSettings(state, action.settings, unit), surroundings);
    const isRepair = action.replaces.length > 0 || action.clearsFaults.length > 0;
    const right = withoutFaults(
        isRepair ? withReadingsBeforeRepair(set) : set,
        [...action.clearsFaults, ...replacedFaults],
        surroundings,
    );
    const memory = new Map(right.memory);
    for (const test of action.clearsTests) if (memory.has(test)) memory.set(test, right.present);
    const replaced = arrival.map(
        (fault, index) => right.replaced[index] === true || action.replaces.includes(unit.faults[fault]?.part ?? -1),
    );
    return afterTime({ ...right, memory, replaced }, action.time, surroundings);
}

/** Takes faults away; those that a fault which stays causes may come back. */
function withoutFaults(state: State, faults: readonly number[], surroundings: Surroundings): State {
    const taken = new Set(faults.filter(fault => state.present.has(fault)));
    const present = new Set([...state.present].filter(fault => !taken.has(fault)));
    const cleared = new Map(state.cleared);
    for (const fault of taken) {
        if (causesOf(fault, present, surroundings).length > 0) cleared.set(fault, 0);
    }
    return { ...state, present, cleared };
}

interface Cause {
    readonly part: number;
    readonly after: Milliseconds;
}

/** How the faults that are present cause another. */
function causesOf(caused: number, present: ReadonlySet<number>, { unit, build }: Surroundings): readonly Cause[] {
    return [...present].flatMap(number => {
        const fault = unit.faults[number];
        const clauses = fault?.causes.filter(cause => cause.fault === caused && exists(cause.guard, build)) ?? [];
        return clauses.map(({ after }) => ({ part: fault?.part ?? -1, after }));
    });
}

/** Lets time pass: faults that were cleared come back once a cause of theirs has run long enough. */
export function afterTime(state: State, time: Milliseconds, surroundings: Surroundings): State {
    if (state.cleared.size === 0) return state;
    const situation = situationOf(surroundings.unit, surroundings.build, state);
    const cleared = new Map<number, Milliseconds>();
    const back: number[] = [];
    for (const [fault, ran] of state.cleared) {
        const causes = causesOf(fault, state.present, surroundings);
        if (causes.length === 0) continue;
        const running = causes.filter(({ part }) => isRunning(part, situation));
        const runs = running.length > 0 ? ran + time : ran;
        if (running.some(({ after }) => runs >= after)) back.push(fault);
        else cleared.set(fault, runs);
    }
    const memory = new Map([...state.memory].map(([test, faults]) => [test, new Set([...faults, ...back])]));
    return { ...state, cleared, present: new Set([...state.present, ...back]), memory };
}

/** Closes a gate: what its elements set; it stays closed if it controls anything. */
export function withGateClosed(state: State, gate: number, { unit, build }: Surroundings): State {
    const declared = unit.gates[gate];
    if (!declared) return state;
    const set = withSettings(state, settingsIn(declared.closing, build), unit);
    return declared.controls.length > 0 ? { ...set, closed: new Set([...set.closed, gate]) } : set;
}

/**
 * Restores a gate: its hazards are back at their worst, also those that a wait had made safe; so are all others where the
 * equipment starts by it. A gate that controls nothing starts nothing.
 */
export function withGateRestored(state: State, gate: number, surroundings: Surroundings): State {
    const { unit, build } = surroundings;
    const declared = unit.gates[gate];
    if (!declared) return state;
    const closed = new Set([...state.closed].filter(other => other !== gate));
    const opened = withSettings({ ...state, closed }, settingsIn(declared.restoring, build), unit);
    if (declared.controls.length === 0) return opened;
    const started = atWorstIfStarted(state, opened, surroundings);
    const back = new Set(declared.controls.filter(({ guard }) => exists(guard, build)).map(({ hazard }) => hazard));
    return { ...started, safe: new Set([...started.safe].filter(hazard => !back.has(hazard))) };
}

/**
 * The state after an action, with every hazard that a wait had made safe at its worst again if the equipment has started:
 * if some flow that carried nothing before carries something now, whatever the faults do to it.
 */
function atWorstIfStarted(before: State, after: State, { unit, build }: Surroundings): State {
    if (after.safe.size === 0) return after;
    const present = new Set<number>();
    const then = situationOf(unit, build, { ...before, present });
    const now = situationOf(unit, build, { ...after, present });
    const hasStarted = unit.flows.some(
        flow => exists(flow.guard, build) && isDeadAtEnd(flow, then) && !isDeadAtEnd(flow, now),
    );
    return hasStarted ? { ...after, safe: new Set() } : after;
}

function settingsIn(elements: readonly UnitElement[], build: PartialBuild): readonly UnitSetting[] {
    return elements.filter(({ guard }) => exists(guard, build)).flatMap(({ settings }) => settings);
}

/** The time of those elements that the build has. */
export function timeOfElements(elements: readonly UnitElement[], build: PartialBuild): Milliseconds {
    return elements.filter(({ guard }) => exists(guard, build)).reduce((sum, { time }) => sum + time, 0);
}

/** The first time whose guard holds, or none. */
export function timeIn(times: readonly GuardedTime[], build: PartialBuild): Milliseconds {
    return times.find(({ guard }) => exists(guard, build))?.time ?? 0;
}
