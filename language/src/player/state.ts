// What is known of the unit on the way: how conditions are set, which gates are closed, what has been read.

import type { Gate, Setting, State as StateOfDocument } from '../document/types.js';
import type { Decider } from './builds.js';
import type { Readings } from './calculate.js';
import type { Tree } from './tree.js';

/** It is never changed: each action makes a new one. */
export interface State {
    /** Values that have been set; every other condition has its first value, as the unit is found. */
    readonly conditions: ReadonlyMap<string, string>;
    /** Gates that are closed, in the order in which they were. */
    readonly closed: readonly string[];
    /** Hazards that a wait has made safe. */
    readonly safe: ReadonlySet<string>;
    readonly readings: Readings;
}

export const stateAsFound: State = { conditions: new Map(), closed: [], safe: new Set(), readings: new Map() };

/** In what a state is looked at. */
export interface Surroundings {
    readonly tree: Tree;
    readonly builds: Decider;
    readonly state: State;
    /** The zones of the work, for `isolated` without a name. */
    readonly zones: readonly string[];
}

/** The value of a condition; undefined where the build does not have it. */
export function valueOfCondition(id: string, { tree, builds, state }: Surroundings): string | undefined {
    const condition = tree.conditions.get(id);
    if (!condition || !builds.holds(condition.guard)) return undefined;
    return state.conditions.get(id) ?? condition.values[0]?.id;
}

/** The hazard that a supply carries, or the hazard itself. */
export function hazardOf(energy: string, tree: Tree): string {
    return tree.supplies.get(energy)?.carries ?? energy;
}

/** Whether a state holds; undefined where it hangs on a flow, of which nothing is known here. */
export function holdsIn(wanted: StateOfDocument, surroundings: Surroundings): boolean | undefined {
    if ('condition' in wanted) return valueOfCondition(wanted.condition, surroundings) === wanted.value;
    if ('isolated' in wanted) return isIsolated(hazardOf(wanted.isolated, surroundings.tree), surroundings);
    if ('allIsolated' in wanted) return all(surroundings.zones.map(zone => isZoneIsolated(zone, surroundings)));
    if ('flowing' in wanted) return undefined;
    if ('not' in wanted) {
        const operand = holdsIn(wanted.not, surroundings);
        return operand === undefined ? undefined : !operand;
    }
    if ('all' in wanted) return all(wanted.all.map(one => holdsIn(one, surroundings)));
    const results = wanted.any.map(one => holdsIn(one, surroundings));
    return results.includes(true) ? true : results.includes(undefined) ? undefined : false;
}

function all(results: readonly (boolean | undefined)[]): boolean | undefined {
    return results.includes(false) ? false : results.includes(undefined) ? undefined : true;
}

function isIsolated(hazard: string, { tree, builds, state }: Surroundings): boolean {
    const declared = tree.hazards.get(hazard);
    if (declared && !builds.holds(declared.guard)) return true;
    if (state.safe.has(hazard)) return true;
    return state.closed.some(id =>
        (tree.gates.get(id)?.controls ?? []).some(
            control => hazardOf(control.hazard, tree) === hazard && builds.holds(control.guard),
        ),
    );
}

function isZoneIsolated(id: string, surroundings: Surroundings): boolean | undefined {
    const { tree, builds } = surroundings;
    const zone = tree.zones.get(id);
    if (!zone || !builds.holds(zone.guard)) return true;
    return all(
        (zone.exposures ?? [])
            .filter(({ guard }) => builds.holds(guard))
            .map(({ hazard, when }) => {
                const isIn = when === undefined ? true : holdsIn(when, surroundings);
                if (isIn === false || isIsolated(hazardOf(hazard, tree), surroundings)) return true;
                return isIn === undefined ? undefined : false;
            }),
    );
}

/** The state with these conditions set; those that the build lacks stay away. */
export function withSettings(settings: readonly Setting[] | undefined, surroundings: Surroundings): State {
    const { state, tree, builds } = surroundings;
    const there = (settings ?? []).filter(({ condition }) => builds.holds(tree.conditions.get(condition)?.guard));
    if (there.length === 0) return state;
    const conditions = new Map(state.conditions);
    for (const { condition, value } of there) conditions.set(condition, value);
    return { ...state, conditions };
}

/** The state in which a wanted state holds, as far as setting conditions and making safe can do it. */
export function forced(wanted: StateOfDocument, surroundings: Surroundings): State {
    const { state, tree } = surroundings;
    if ('condition' in wanted) return withSettings([wanted], surroundings);
    if ('all' in wanted) {
        return wanted.all.reduce((before, one) => forced(one, { ...surroundings, state: before }), state);
    }
    if ('any' in wanted) {
        const [first] = wanted.any;
        return first && holdsIn(wanted, surroundings) !== true ? forced(first, surroundings) : state;
    }
    if ('not' in wanted) return forcedAway(wanted.not, surroundings);
    if ('isolated' in wanted) {
        const hazard = hazardOf(wanted.isolated, tree);
        return isIsolated(hazard, surroundings) ? state : { ...state, safe: new Set([...state.safe, hazard]) };
    }
    if ('allIsolated' in wanted) {
        if (holdsIn(wanted, surroundings) === true) return state;
        const zones = surroundings.zones.flatMap(id => tree.zones.get(id)?.exposures ?? []);
        return { ...state, safe: new Set([...state.safe, ...zones.map(({ hazard }) => hazardOf(hazard, tree))]) };
    }
    return state;
}

/** Sets a condition to another value than this, where that is what is said. */
function forcedAway(unwanted: StateOfDocument, surroundings: Surroundings): State {
    const { state, tree } = surroundings;
    if (!('condition' in unwanted) || holdsIn(unwanted, surroundings) !== true) return state;
    const values = tree.conditions.get(unwanted.condition)?.values ?? [];
    const other = values.find(({ id }) => id !== unwanted.value);
    return other ? withSettings([{ condition: unwanted.condition, value: other.id }], surroundings) : state;
}

/** The state after a gate has been gone through: it stays closed if it controls anything. */
export function withGateClosed(gate: Gate, surroundings: Surroundings): State {
    const state = withElements(gate, surroundings, false);
    if (!gate.controls || state.closed.includes(gate.id)) return state;
    return { ...state, closed: [...state.closed, gate.id] };
}

/** The state after a gate has been restored: its hazards are back, also those that a wait had made safe. */
export function withGateRestored(gate: Gate, surroundings: Surroundings): State {
    const { tree } = surroundings;
    const state = withElements(gate, surroundings, true);
    const back = new Set((gate.controls ?? []).map(({ hazard }) => hazardOf(hazard, tree)));
    return {
        ...state,
        closed: state.closed.filter(id => id !== gate.id),
        safe: new Set([...state.safe].filter(hazard => !back.has(hazard))),
    };
}

function withElements({ elements }: Gate, surroundings: Surroundings, isRestoring: boolean): State {
    const sets = (elements ?? [])
        .filter(({ element, guard }) => (element === 'restore') === isRestoring && surroundings.builds.holds(guard))
        .flatMap(element => element.sets ?? []);
    return withSettings(sets, surroundings);
}
