// Which states hold: conditions as they are set, hazards under control, and flows that carry something or are dead.

import type { StateCondition, UnitChain, UnitFlow, UnitPlace } from '../meaning/unit.js';
import { type AtPoint, carriesNothing, effectsAtEnd, isBypassed } from './flows.js';
import { beforeEndOf, feedsOf, holdsAnything, placesIn, type UnitGroup, type UnitPoint } from './layout.js';
import { lookAlong, lookOnce, type Situation, viewOf } from './situation.js';
import { exists } from './world.js';

/** Whether a state holds. */
export function holds(condition: StateCondition, situation: Situation): boolean {
    switch (condition.sort) {
        case 'value':
            return situation.state.conditions[condition.condition] === condition.value;
        case 'isolated':
            return isIsolated(condition.hazard, situation);
        case 'zones isolated':
            return condition.zones.every(
                ({ zone, guard }) => !exists(guard, situation.build) || isZoneIsolated(zone, situation),
            );
        case 'flowing':
            return isFlowing(situation.unit.flows[condition.flow], situation);
        case 'taken':
            return situation.state.readings.has(condition.test);
        case 'not':
            return !holds(condition.operand, situation);
        case 'all':
            return condition.operands.every(operand => holds(operand, situation));
        case 'any':
            return condition.operands.some(operand => holds(operand, situation));
    }
}

/** Whether nothing is said, or what is said holds. */
export function holdsIfSaid(condition: StateCondition | undefined, situation: Situation): boolean {
    return condition === undefined || holds(condition, situation);
}

function isIsolated(hazard: number, situation: Situation): boolean {
    const isThere = exists(situation.unit.hazards[hazard]?.guard, situation.build);
    return !isThere || isHeld(hazard, situation) || situation.state.safe.has(hazard);
}

/** Whether a closed gate holds a hazard. */
function isHeld(hazard: number, { unit, build, state }: Situation): boolean {
    return [...state.closed].some(gate =>
        unit.gates[gate]?.controls.some(control => control.hazard === hazard && exists(control.guard, build)),
    );
}

function isZoneIsolated(number: number, situation: Situation): boolean {
    const { unit, build } = situation;
    const zone = unit.zones[number];
    if (!zone || !exists(zone.guard, build)) return true;
    return zone.exposures.every(
        exposure =>
            !exists(exposure.guard, build) ||
            !holdsIfSaid(exposure.while, situation) ||
            isIsolated(exposure.hazard, situation),
    );
}

/** Whether a flow exists, is not dead, and nothing that is present has stopped it. */
function isFlowing(flow: UnitFlow | undefined, situation: Situation): boolean {
    if (!flow || !exists(flow.guard, situation.build) || isDeadAtEnd(flow, situation)) return false;
    return !carriesNothing(effectsAtEnd(flow, viewOf(situation, situation.state.present)));
}

/** Whether a flow that exists has no energy at its end. */
export function isDeadAtEnd(flow: UnitFlow, situation: Situation): boolean {
    const { unit, build, state } = situation;
    if (state.closed.size === 0 && !beforeEndOf(flow, unit, build).hasStates) return false;
    return lookOnce(situation.dead, flow.number, false, () =>
        isDeadAlong(flow.chain, !holdsIfSaid(flow.when, situation), flow, situation),
    );
}

/** Whether each point of a flow that exists is dead. */
export function deadPoints(flow: UnitFlow, situation: Situation): ReadonlyMap<UnitPoint, boolean> {
    const known = situation.deadPoints.get(flow);
    if (known) return known;
    const found = new Map<UnitPoint, boolean>();
    lookAlong(situation.dead, flow.number, () => {
        const startsDead = !holdsIfSaid(flow.when, situation);
        isDeadAlong(flow.chain, startsDead, flow, situation, (point, dead) => found.set(point, dead));
    });
    situation.deadPoints.set(flow, found);
    return found;
}

function isDeadAlong(
    chain: UnitChain,
    before: boolean,
    flow: UnitFlow,
    situation: Situation,
    atPoint?: AtPoint<boolean>,
): boolean {
    let dead = before;
    for (const element of chain) {
        if (!exists(element.guard, situation.build)) continue;
        if (element.sort === 'point') atPoint?.(element, dead);
        else if (element.sort === 'place') dead ||= isDeadPlace(element, flow, situation);
        else dead = isDeadGroup(element, dead, flow, situation, atPoint);
    }
    return dead;
}

function isDeadGroup(
    group: UnitGroup,
    before: boolean,
    flow: UnitFlow,
    situation: Situation,
    atPoint?: AtPoint<boolean>,
): boolean {
    const branches: boolean[] = [];
    for (const chain of group.chains) {
        const dead = isDeadAlong(chain, before, flow, situation, atPoint);
        if (holdsAnything(chain, situation.build)) branches.push(dead);
    }
    if (branches.length === 0) return before;
    return group.join === 'and' ? branches.some(dead => dead) : branches.every(dead => dead);
}

function isDeadPlace(place: UnitPlace, flow: UnitFlow, situation: Situation): boolean {
    if (isBypassed(place, situation)) return false;
    if (!holdsIfSaid(place.when, situation)) return true;
    const { unit } = situation;
    const hazard = place.part === undefined ? place.hazard : unit.parts[place.part]?.carries;
    if (hazard !== undefined && isHeld(hazard, situation)) return true;
    const standing = place.flow === undefined ? undefined : unit.flows[place.flow];
    const drives = standing ? [standing] : feedsOf(place, flow, unit, situation.build);
    return drives.some(from => isDeadAtEnd(from, situation));
}

/** Whether a part runs: it stands on a flow that has energy, or on no flow at all. */
export function isRunning(part: number, situation: Situation): boolean {
    const { unit, build } = situation;
    const flows = unit.flows.filter(
        flow => exists(flow.guard, build) && placesIn(flow.chain, build).some(place => place.part === part),
    );
    return flows.length === 0 || flows.some(flow => !isDeadAtEnd(flow, situation));
}
