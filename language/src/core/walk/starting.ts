// Where an action starts the equipment: some flow carries something after it that carried nothing before, with no fault
// counted. What a wait has made safe is at its worst again then.

import type { UnitElement, UnitGate, UnitSetting } from '../meaning/unit.js';
import type { FlowSets } from './flow-sets.js';
import { driversOf } from './drivers.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere } from './space.js';

/** Worlds in which conditions are about to be set: hazards are at their worst again where that starts the equipment. */
export function startBySetting(set: WorldSet, settings: readonly UnitSetting[], flows: FlowSets): WorldSet {
    if (settings.length === 0) return set;
    return atWorst(set, startsOfSetting(settings, flows).any, flows);
}

/** Worlds in which a gate is about to be restored. A gate that controls nothing starts nothing. */
export function startByRestoring(set: WorldSet, gate: UnitGate, flows: FlowSets): WorldSet {
    if (gate.controls.length === 0) return set;
    return atWorst(set, startsOfRestoring(gate, flows).any, flows);
}

/** Where an action starts the equipment, as the worlds are before it. */
export interface Starts {
    readonly any: WorldSet;
    /** By hazard: where a flow starts that drives it. */
    readonly hazards: readonly WorldSet[];
}

/** Where setting conditions starts the equipment. */
export function startsOfSetting(settings: readonly UnitSetting[], flows: FlowSets): Starts {
    return startedBy(settings, { settings, elements: [], opens: undefined }, flows);
}

/** Where restoring a gate starts the equipment. */
export function startsOfRestoring(gate: UnitGate, flows: FlowSets): Starts {
    return startedBy(gate, { settings: [], elements: gate.restoring, opens: gate.number }, flows);
}

/** Worlds with every hazard unsafe again where the equipment starts. */
function atWorst(set: WorldSet, started: WorldSet, { space }: FlowSets): WorldSet {
    const { sets, variables } = space;
    const here = sets.and(set, started);
    if (here === noWorlds) return set;
    const worst = variables.hazards.reduce((changed, hazard) => sets.assign(changed, hazard, 0), here);
    return sets.or(sets.without(set, here), worst);
}

/** What an action changes: conditions, and a gate that is opened. */
interface Change {
    readonly settings: readonly UnitSetting[];
    /** Elements of a gate whose settings are done where their guards hold. */
    readonly elements: readonly UnitElement[];
    readonly opens: number | undefined;
}

/** What was worked out before, by what is written: each crowd that comes to an action asks for it again. */
const known = new WeakMap<FlowSets, WeakMap<object, Starts>>();

const noStarts: Starts = { any: noWorlds, hazards: [] };

function startedBy(written: object, change: Change, flows: FlowSets): Starts {
    // With no hazard there is nothing to be at its worst.
    if (flows.space.unit.hazards.length === 0) return noStarts;
    const before = known.get(flows) ?? new WeakMap<object, Starts>();
    known.set(flows, before);
    let started = before.get(written);
    if (started === undefined) {
        started = findStarts(change, flows);
        before.set(written, started);
    }
    return started;
}

function findStarts(change: Change, flows: FlowSets): Starts {
    const { sets, unit } = flows.space;
    const started = unit.flows.map(({ number }) => startedFlow(number, change, flows));
    const any = started.reduce<WorldSet>((all, one) => sets.or(all, one), noWorlds);
    if (any === noWorlds) return noStarts;
    const hazards = unit.hazards.map(({ number }) =>
        driversOf(number, flows).reduce<WorldSet>(
            (found, { flow, where }) => sets.or(found, sets.and(where, started[flow] ?? noWorlds)),
            noWorlds,
        ),
    );
    return { any, hazards };
}

/** The worlds, as they are before the change, in which a flow that carried nothing carries something after it. */
function startedFlow(number: number, change: Change, flows: FlowSets): WorldSet {
    const { sets, variables } = flows.space;
    const dead = flows.deadEnd(number, []);
    if (dead === noWorlds) return noWorlds;
    const alive = sets.without(flows.exists(number), dead);
    let before = alive;
    for (const { settings, guard } of [...change.elements].reverse()) {
        const here = buildsWhere(guard, flows.space);
        const changed = undo(before, settings, flows);
        before = sets.or(sets.and(changed, here), sets.without(before, here));
    }
    before = undo(before, change.settings, flows);
    if (change.opens !== undefined) before = sets.given(before, variables.gates[change.opens] ?? 0, 0);
    return sets.and(sets.and(before, flows.exists(number)), dead);
}

/** The worlds that are in a set once the conditions have been set. */
function undo(after: WorldSet, settings: readonly UnitSetting[], { space }: FlowSets): WorldSet {
    const { sets, unit, variables } = space;
    return [...settings].reverse().reduce((set, { condition, value }) => {
        const exists = buildsWhere(unit.conditions[condition]?.guard, space);
        const changed = sets.given(set, variables.conditions[condition] ?? 0, value);
        return sets.or(sets.and(changed, exists), sets.without(set, exists));
    }, after);
}
