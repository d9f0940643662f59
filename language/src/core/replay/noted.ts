// Which readings have been taken, in one world.

import { notTaken, taken, takenBeforeChange, takenBeforeRepair } from '../meaning/noted.js';
import type { Unit } from '../meaning/unit.js';
import type { State } from './state.js';

/** A reading is taken: those of before that are used with it are worth nothing any more. */
export function withReading(state: State, test: number, unit: Unit): State {
    const noted = unit.tests[test]?.noted;
    if (!noted) return state;
    const readings = new Map(state.readings);
    for (const { test: other, shares } of noted.beside) {
        const was = readings.get(other) ?? notTaken;
        if (was === takenBeforeRepair || (shares && was === takenBeforeChange)) readings.delete(other);
    }
    return { ...state, readings: readings.set(test, taken) };
}

/** A condition has been set to another value: the readings that it changes are those of before. */
export function withAgedReadings(state: State, condition: number, unit: Unit): State {
    const aged = [...state.readings].map(([test, was]): [number, number] => {
        const changes = unit.tests[test]?.noted?.dependsOn.includes(condition) ?? false;
        return [test, changes && was === taken ? takenBeforeChange : was];
    });
    return aged.length === 0 ? state : { ...state, readings: new Map(aged) };
}

/** Something is put right or replaced: every reading is one of before. */
export function withReadingsBeforeRepair(state: State): State {
    if (state.readings.size === 0) return state;
    return { ...state, readings: new Map([...state.readings.keys()].map(test => [test, takenBeforeRepair])) };
}
