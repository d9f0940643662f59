// Which actions open a cover: hands are where it was, although nothing says where the action is done.

import type { DoAction } from './route.js';
import type { StateCondition, Unit, UnitChain, UnitSetting, UnitZone } from './unit.js';

/** A zone that is opened, and the hazards of it that are met only then. */
export interface OpenedZone {
    readonly zone: number;
    readonly hazards: ReadonlySet<number>;
}

/**
 * The zones that an action opens which says neither where nor at which part it is done: it sets a condition to a value while
 * which a zone exposes a hazard. A value that a flow carries something in, or that a test outside the zone needs, is one in
 * which the equipment runs: a switch, say, which nobody must reach into a zone to turn.
 */
export function openedZones(action: DoAction, unit: Unit): OpenedZone[] {
    if (action.zone !== undefined || action.at !== undefined || action.replaces.length > 0) return [];
    return unit.zones.flatMap(zone => {
        const opening = action.settings.filter(setting => !isRunning(setting, zone, unit));
        const exposed = zone.exposures.filter(one => opening.some(setting => asksFor(one.while, setting)));
        if (exposed.length === 0) return [];
        return [{ zone: zone.number, hazards: new Set(exposed.map(({ hazard }) => hazard)) }];
    });
}

/** Whether a value is one in which the equipment runs. */
function isRunning(setting: UnitSetting, zone: UnitZone, unit: Unit): boolean {
    const runs = unit.flows.some(({ when, chain }) => asksFor(when, setting) || isAskedIn(chain, setting));
    const isNeeded = unit.tests.some(
        ({ needs, zones }) =>
            !zones.some(one => one.zone === zone.number) && needs.some(({ state }) => asksFor(state, setting)),
    );
    return runs || isNeeded;
}

function isAskedIn(chain: UnitChain, setting: UnitSetting): boolean {
    return chain.some(element => {
        if (element.sort === 'place') return asksFor(element.when, setting);
        return element.sort === 'group' && element.chains.some(inner => isAskedIn(inner, setting));
    });
}

/** Whether a state can hold because of this value. */
function asksFor(state: StateCondition | undefined, { condition, value }: UnitSetting): boolean {
    switch (state?.sort) {
        case 'value':
            return state.condition === condition && state.value === value;
        case 'not':
            return state.operand.sort === 'value'
                ? state.operand.condition === condition && state.operand.value !== value
                : asksFor(state.operand, { condition, value });
        case 'all':
        case 'any':
            return state.operands.some(operand => asksFor(operand, { condition, value }));
        default:
            return false;
    }
}
