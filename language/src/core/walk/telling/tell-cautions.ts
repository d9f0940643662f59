// Tells what can hurt where the technician stands: statements of all that is touched, hazards that are met, what holds them.

import { conditionsIn } from '../../meaning/conditions-in.js';
import type { Action, Route, RouteEnd, Station } from '../../meaning/route.js';
import type { InBuilds, StateCondition } from '../../meaning/unit.js';
import type { SafetyStatement } from '../../model/remarks.js';
import { buildsWords, gateChangeWords, stateWords } from '../../questions/caution-words.js';
import {
    type Cautions,
    cautionsAt,
    cautionsAtEnd,
    type GateChange,
    type HazardControl,
    type HazardMet,
} from '../../questions/cautions.js';
import type { Held } from '../../questions/held-hazards.js';
import type { Visit } from '../go-through.js';
import { isPossible } from '../space.js';
import type { ToldControl, ToldHazard, ToldLine } from './told.js';
import { isIn, nameOf, type Telling } from './words.js';

/** What is met at a station, up to the action by which it is left. */
export function cautionsOfVisit({ station, route, last }: Visit, telling: Telling): Cautions {
    const index = last ? station.actions.findIndex(({ written }) => written === last.written) : -1;
    const actions = index < 0 ? station.actions : station.actions.slice(0, index + 1);
    const done: Station = { ...station, actions };
    const cautions = cautionsAt(done, heldBy(telling), route, telling.model);
    return { ...cautions, hazards: cautions.hazards.filter(met => mayBeExposed(met.while, actions, telling)) };
}

/** What is met in the repairs of an end. */
export function cautionsOfEnd(end: RouteEnd, route: Route, telling: Telling): Cautions {
    return cautionsAtEnd(end, heldBy(telling), route, telling.model);
}

/** The safety statements of what is touched; those of what begins here are told where it begins. */
export function statementsOf({ statements }: Cautions, telling: Telling): readonly SafetyStatement[] {
    return statements
        .filter(
            ({ sort, guard }) =>
                sort !== 'equipment' && sort !== 'tree' && sort !== 'procedure' && isIn(guard, telling),
        )
        .flatMap(({ safety }) => safety);
}

/** The hazards that some of the remaining builds meet. */
export function tellHazards({ hazards }: Cautions, telling: Telling): readonly ToldHazard[] {
    const { unit } = telling.all;
    return hazards.flatMap((met: HazardMet): ToldHazard[] => {
        const hazard = unit.hazards[met.hazard]?.declaration;
        const zone = unit.zones[met.zone]?.declaration;
        if (!hazard || !zone || !isIn(met.guard, telling)) return [];
        return [
            {
                ...nameOf(hazard),
                zone: nameOf(zone),
                when: met.while && stateWords(met.while, unit),
                controls: met.controls.flatMap(control => tellControl(control, telling)),
                only: onlyIn(met.guard, telling),
            },
        ];
    });
}

/** What the use of a gate, or its end, does to hazards. */
export function gateChangeLines(
    { gates }: Cautions,
    gate: number,
    isClosed: boolean,
    telling: Telling,
): readonly ToldLine[] {
    const here = gates
        .filter(change => change.gate === gate && (change.change === 'restored') !== isClosed)
        .filter(({ guard }) => isIn(guard, telling))
        .map((change): GateChange => ({
            ...change,
            guard: isEverywhere(change.guard, telling) ? undefined : change.guard,
        }));
    return gateChangeWords({ gates: here }, telling.all.unit).map(({ change, text }) => ({
        sort: lineSorts[change],
        name: undefined,
        text,
        only: undefined,
    }));
}

const lineSorts: Readonly<Record<GateChange['change'], string>> = {
    closed: 'controls',
    restored: 'gives up',
    permits: 'permits',
};

function tellControl(control: HazardControl, telling: Telling): readonly ToldControl[] {
    if (!isIn(control.guard, telling)) return [];
    const gate = control.sort === 'wait' ? undefined : telling.all.unit.gates[control.gate]?.declaration;
    return [
        {
            sort: control.sort,
            gate: gate && nameOf(gate),
            activity: control.sort === 'permit' ? control.activity : undefined,
            only: onlyIn(control.guard, telling),
        },
    ];
}

function onlyIn(guard: InBuilds, telling: Telling): string | undefined {
    return guard && !isEverywhere(guard, telling) ? buildsWords(guard) : undefined;
}

function isEverywhere(guard: InBuilds, telling: Telling): boolean {
    return !guard || !isIn({ sort: 'not', operand: guard }, telling);
}

/** The gates that are closed for some of those who come, and the hazards that a wait has made safe for them. */
function heldBy({ all, crowds }: Telling): Held {
    const { space } = all.around;
    const { sets, unit, variables } = space;
    const isSet = (variable: number | undefined) =>
        variable !== undefined && crowds.some(({ set }) => isPossible(sets.and(set, sets.is(variable, 1)), space));
    const numbers = (things: readonly unknown[], of: readonly number[]) =>
        new Set(things.flatMap((_, number) => (isSet(of[number]) ? number : [])));
    return { gates: numbers(unit.gates, variables.gates), waited: numbers(unit.hazards, variables.hazards) };
}

/** Whether a hazard may be exposed at some time in the step. What the step changes may come to any state in it. */
function mayBeExposed(state: StateCondition | undefined, actions: readonly Action[], telling: Telling): boolean {
    if (!state || actions.some(({ sort }) => sort === 'gate' || sort === 'restore')) return true;
    const asked = conditionsIn(state);
    const set = actions.flatMap(action => (action.sort === 'do' ? action.settings : []));
    if (set.some(({ condition }) => asked.includes(condition))) return true;
    const { space, flows } = telling.all.around;
    return telling.crowds.some(({ presence, set: crowd }) =>
        isPossible(space.sets.and(crowd, flows.where(state, presence.present)), space),
    );
}
