// What is no danger by itself, but what rules ask about: somebody measures where that is only permitted, waits for a hazard,
// starts the equipment, gives energy back, or resets a trip.

import { isThermalTrip } from '../meaning/thermal-trips.js';
import type { Action, AskAction, DoAction, ReadAction } from '../meaning/route.js';
import { type Surroundings, withSettings } from './changes.js';
import type { OccasionSort } from './danger-path.js';
import { driversOf, isStillDriven, startedBetween } from './drivers.js';
import { exposedByAsking, type Permit, withoutFaults } from './exposed.js';
import { situationOf } from './situation.js';
import { holds } from './standing.js';
import type { State } from './state.js';
import { exists } from './world.js';

/** A hazard at an occasion. */
export interface Occasion {
    readonly occasion: OccasionSort;
    readonly hazard: number;
}

/** The occasions of an action, in the state before it. */
export function occasionsAt(
    action: Action,
    state: State,
    permits: readonly Permit[],
    surroundings: Surroundings,
): readonly Occasion[] {
    switch (action.sort) {
        case 'do':
            return atDo(action, state, surroundings);
        case 'wait':
            return action.hazard === undefined ? [] : atWait(action.hazard, state, surroundings);
        case 'gate':
            return atGate(action.gate, surroundings);
        case 'restore':
            return atRestore(action.gate, state, surroundings);
        case 'ask':
        case 'read':
            return atTest(action, state, permits, surroundings);
        default:
            return [];
    }
}

function atTest(
    action: AskAction | ReadAction,
    state: State,
    permits: readonly Permit[],
    surroundings: Surroundings,
): readonly Occasion[] {
    const met = new Set(exposedByAsking(action, state, permits, surroundings).map(({ hazard }) => hazard));
    const all = new Set(exposedByAsking(action, state, [], surroundings).map(({ hazard }) => hazard));
    return [...all].filter(hazard => !met.has(hazard)).map(hazard => ({ occasion: 'permitted', hazard }));
}

function atWait(hazard: number, state: State, surroundings: Surroundings): readonly Occasion[] {
    if (isIsolated(hazard, state, surroundings)) return [];
    const waited: Occasion = { occasion: 'waited', hazard };
    return isStillDriven(hazard, state, surroundings) ? [waited, { occasion: 'driven', hazard }] : [waited];
}

function atGate(gate: number, { unit, build }: Surroundings): readonly Occasion[] {
    const declared = unit.gates[gate];
    if (!declared || !exists(declared.guard, build)) return [];
    return declared.closing.flatMap(({ declaration, guard, hazards }) => {
        if (declaration.element !== 'prove' || !declaration.instrument || !exists(guard, build)) return [];
        const there = hazards.filter(hazard => exists(unit.hazards[hazard]?.guard, build));
        return there.map(hazard => ({ occasion: 'proved' as const, hazard }));
    });
}

function atRestore(gate: number, state: State, surroundings: Surroundings): readonly Occasion[] {
    const { unit, build } = surroundings;
    const declared = unit.gates[gate];
    if (!declared || !exists(declared.guard, build) || declared.controls.length === 0) return [];
    const held = state.closed.has(gate) ? declared.controls.filter(({ guard }) => exists(guard, build)) : [];
    // What a wait has made safe stays so here: whether it is lost depends on what starts.
    const closed = new Set([...state.closed].filter(other => other !== gate));
    const settings = declared.restoring.filter(({ guard }) => exists(guard, build)).flatMap(one => one.settings);
    const opened = withSettings({ ...state, closed }, settings, unit);
    return [
        ...held.map(({ hazard }) => ({ occasion: 'restored' as const, hazard })),
        ...startedBetween(state, opened, surroundings).map(hazard => ({ occasion: 'started' as const, hazard })),
    ];
}

function atDo(action: DoAction, state: State, surroundings: Surroundings): readonly Occasion[] {
    const { unit, build } = surroundings;
    const after = withSettings(state, action.settings, unit);
    const started = action.settings.length > 0 ? startedBetween(state, after, surroundings) : [];
    const reset = unit.hazards.filter(({ number: hazard }) => {
        const drivers = driversOf(hazard, surroundings).map(({ number }) => number);
        const protects = (fault: number) => {
            const part = unit.parts[unit.faults[fault]?.part ?? -1];
            if (!part || !exists(part.guard, build)) return false;
            return part.protects.some(({ flow, guard }) => drivers.includes(flow) && exists(guard, build));
        };
        const isReset = action.clearsFaults.some(fault => isThermalTrip(fault, hazard, unit) && protects(fault));
        return isReset && !isIsolated(hazard, state, surroundings);
    });
    return [
        ...started.map(hazard => ({ occasion: 'started' as const, hazard })),
        ...reset.map(({ number: hazard }) => ({ occasion: 'reset' as const, hazard })),
    ];
}

function isIsolated(hazard: number, state: State, { unit, build }: Surroundings): boolean {
    return holds({ sort: 'isolated', hazard }, situationOf(unit, build, withoutFaults(state)));
}
