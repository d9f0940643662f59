// Where hands are, and what can hurt them there in one build and state.
//
// Whether a hazard is under control depends on the build, conditions, gates and waits: no fault counts, because a fault
// that happens to keep a hazard away keeps nobody safe.

import type { AskAction, DoAction, ReadAction, RouteEnd } from '../meaning/route.js';
import { conditionsIn } from '../meaning/conditions-in.js';
import { openedZones } from '../meaning/covers.js';
import { permitsTest } from '../meaning/permitted.js';
import type { Limited, StateCondition, UnitRepair } from '../meaning/unit.js';
import { type Surroundings, withGateClosed, withSettings } from './changes.js';
import { situationOf } from './situation.js';
import { holds, holdsIfSaid } from './standing.js';
import type { State } from './state.js';
import { exists } from './world.js';

/** A hazard in a zone where somebody works. */
export interface Exposed {
    readonly hazard: number;
    readonly zone: number;
}

/** What a gate allows beside a hazard until the end of the step. */
export interface Permit {
    readonly hazard: number;
    readonly activity: string;
}

/** The state with no fault counted. */
export function withoutFaults(state: State): State {
    return {
        ...state,
        present: new Set(),
        cleared: new Map(),
        memory: new Map(),
        replaced: state.replaced.map(() => false),
        guessed: false,
    };
}

/** What somebody meets who does something: in the zone that is said, else at the part; and at the parts replaced. */
export function exposedByDoing(action: DoAction, state: State, surroundings: Surroundings): readonly Exposed[] {
    const { parts } = surroundings.unit;
    const atPart = action.at === undefined ? [] : (parts[action.at]?.zones ?? []);
    const where = action.zone === undefined ? atPart : [{ zone: action.zone, guard: undefined }];
    const replaced = action.replaces.flatMap(part => parts[part]?.zones ?? []);
    return exposedIn([...where, ...replaced], state, surroundings);
}

/** What somebody meets who has just opened a cover: in the zone behind it. Whoever may work beside a hazard may open it for that. */
export function exposedByOpening(
    action: DoAction,
    state: State,
    permits: readonly Permit[],
    surroundings: Surroundings,
): readonly Exposed[] {
    return openedZones(action, surroundings.unit).flatMap(({ zone, hazards }) => {
        const found = exposedIn([{ zone, guard: undefined }], state, surroundings);
        return found.filter(({ hazard }) => hazards.has(hazard) && !permits.some(permit => permit.hazard === hazard));
    });
}

/** What somebody meets in the zones of a test that is asked or read. */
export function exposedByAsking(
    action: AskAction | ReadAction,
    state: State,
    permits: readonly Permit[],
    surroundings: Surroundings,
): readonly Exposed[] {
    const { unit, build } = surroundings;
    const test = unit.tests[action.test];
    if (!test || !exists(test.guard, build)) return [];
    const allowed = permits.filter(({ activity }) => permitsTest(activity, test));
    const found = exposedIn(test.zones, state, surroundings);
    return found.filter(({ hazard }) => !allowed.some(permit => permit.hazard === hazard));
}

/** What somebody meets who repairs what a conclusion names, each part under the gates of its repair. */
export function exposedByRepairing(
    end: RouteEnd,
    state: State,
    surroundings: Surroundings,
): readonly (Exposed & { readonly part: number })[] {
    const { unit, build } = surroundings;
    return end.names.flatMap(({ fault: number, guard }) => {
        const fault = unit.faults[number];
        const part = unit.parts[fault?.part ?? -1];
        if (!fault || !part || !exists(guard, build) || !exists(fault.guard, build)) return [];
        const repairs: readonly UnitRepair[] = [...end.repairs, ...fault.repairs, ...part.repairs];
        const repair = repairs.find(one => exists(one.guard, build));
        if (!repair) return [];
        const gates = repair.gates.filter(gate => exists(unit.gates[gate]?.guard, build));
        const under = gates.reduce((before, gate) => withGateClosed(before, gate, surroundings), state);
        const found = exposedIn(part.zones, under, surroundings, cover => mayBeOpened(cover, under, surroundings));
        return found.map(exposed => ({ ...exposed, part: part.number }));
    });
}

/** Whether a state holds once a repair has opened what covers its part. What a closed gate has set stays so. */
function mayBeOpened(condition: StateCondition | undefined, state: State, { unit, build }: Surroundings): boolean {
    const isHeld = (number: number) =>
        [...state.closed].some(gate =>
            unit.gates[gate]?.closing.some(
                ({ guard, settings }) => exists(guard, build) && settings.some(one => one.condition === number),
            ),
        );
    const free = conditionsIn(condition).filter(number => (state.conditions[number] ?? -1) >= 0 && !isHeld(number));
    const opened = free.reduce(
        (states, number) => {
            const values = unit.conditions[number]?.declaration.values ?? [];
            return states.flatMap(one =>
                values.map((_, value) => withSettings(one, [{ condition: number, value }], unit)),
            );
        },
        [withoutFaults(state)],
    );
    return opened.some(one => holdsIfSaid(condition, situationOf(unit, build, one)));
}

/** The hazards that zones expose and nothing controls. `isSo` says whether what an exposure is limited to is so. */
function exposedIn(
    zones: readonly (Limited & { readonly zone: number })[],
    state: State,
    { unit, build }: Surroundings,
    isSo?: (condition: StateCondition | undefined) => boolean,
): readonly Exposed[] {
    const situation = situationOf(unit, build, withoutFaults(state));
    const holdsHere = isSo ?? ((condition: StateCondition | undefined) => holdsIfSaid(condition, situation));
    return zones.flatMap(({ zone: number, guard }) => {
        const zone = unit.zones[number];
        if (!zone || !exists(guard, build) || !exists(zone.guard, build)) return [];
        const bare = zone.exposures.filter(
            exposure =>
                exists(exposure.guard, build) &&
                holdsHere(exposure.while) &&
                !holds({ sort: 'isolated', hazard: exposure.hazard }, situation),
        );
        return bare.map(({ hazard }) => ({ hazard, zone: number }));
    });
}

/** What a referral leaves closed or changed without saying so. */
export function leftAt(
    end: RouteEnd,
    state: State,
    { unit, build }: Surroundings,
): readonly ({ readonly gate: number } | { readonly condition: number; readonly value: number })[] {
    const gates = [...state.closed].filter(
        closed => !end.leavesGates.some(({ gate, guard }) => gate === closed && exists(guard, build)),
    );
    const conditions = unit.conditions.flatMap(({ number: condition }) => {
        const value = state.conditions[condition] ?? 0;
        const isSaid = end.leavesConditions.some(
            one => one.condition === condition && one.value === value && exists(one.guard, build),
        );
        return value <= 0 || isSaid ? [] : [{ condition, value }];
    });
    return [...gates.map(gate => ({ gate })), ...conditions];
}
