// Takes a crowd through one station: what its actions do, what is asked, and by which exits the worlds leave.

import type { Action, DoAction, Station } from '../meaning/route.js';
import { applySettings, clearFaults, clearMemory, type Crowd, passTime } from './changes.js';
import { applyElements, setHazard } from './gate-changes.js';
import { agedByRepair } from './noted.js';
import { buildsWhere } from './space.js';
import { startByRestoring, startBySetting } from './starting.js';
import { travelAsk, travelRead } from './travel-tests.js';
import { isAboutNothing, whereUsable } from './usable.js';
import { detour, goTo, meet, split, strand, takeFirst, type Travelling } from './ways.js';

/** One crowd from its arrival at a station until it has left it. */
export function travelStation(station: Station, arriving: Crowd, travelling: Travelling): void {
    let crowds: readonly Crowd[] = [arriving];
    for (const action of station.actions) {
        const first = crowds[0];
        if (!first) return;
        crowds =
            crowds.length === 1
                ? travelPast(action, station, first, travelling)
                : crowds.flatMap(crowd => travelPast(action, station, crowd, travelling));
    }
    for (const crowd of crowds) strand(station, undefined, crowd, travelling);
}

/** The crowds that go on behind an action, those that it is not for included. */
function travelPast(action: Action, station: Station, crowd: Crowd, travelling: Travelling): readonly Crowd[] {
    const { inside, outside } = split(crowd, buildsWhere(action.guard, travelling.around.space), travelling);
    if (!inside) return [crowd];
    const going = travelAction(action, station, inside, travelling);
    return outside ? [...going, outside] : going;
}

/** The crowds that go on to the next action. */
function travelAction(action: Action, station: Station, crowd: Crowd, travelling: Travelling): readonly Crowd[] {
    const { around } = travelling;
    const { space } = around;
    switch (action.sort) {
        case 'do':
            return travelDo(action, station, crowd, travelling);
        case 'wait': {
            const passed = passTime(crowd, action.time, around);
            if (action.hazard === undefined) return passed;
            const { hazard } = action;
            const there = buildsWhere(space.unit.hazards[hazard]?.guard, space);
            return passed.map(({ presence, set }) => ({ presence, set: setHazard(set, hazard, there, 1, space) }));
        }
        case 'gate':
        case 'restore':
            return travelGate(action, station, crowd, travelling);
        case 'read':
            return travelRead(action, station, crowd, travelling);
        case 'ask':
            travelAsk(action, station, crowd, travelling);
            return [];
        case 'follow': {
            const here = buildsWhere(action.guardOfProcedure, space);
            const { inside: there, outside: missing } = split(crowd, here, travelling);
            if (missing) meet('missing', station, action, missing, travelling);
            if (there) goTo(action.to, station, action, there, travelling);
            return [];
        }
        case 'leave':
            takeFirst([action.exit], station, action, crowd, travelling);
            return [];
    }
}

/** Closes or restores a gate. A build that lacks it goes on without it: the finding says so once. */
function travelGate(
    action: Extract<Action, { sort: 'gate' | 'restore' }>,
    station: Station,
    crowd: Crowd,
    travelling: Travelling,
): readonly Crowd[] {
    const { around } = travelling;
    const { space } = around;
    const { sets, unit, variables } = space;
    const gate = unit.gates[action.gate];
    const { inside: there, outside: missing } = split(crowd, buildsWhere(gate?.guard, space), travelling);
    if (missing) meet('missing', station, action, missing, travelling);
    const others = missing ? [missing] : [];
    if (!there || !gate) return others;
    const elements = action.sort === 'gate' ? gate.closing : gate.restoring;
    let set = action.sort === 'restore' ? startByRestoring(there.set, gate, around.flows) : there.set;
    if (gate.controls.length > 0) {
        set = sets.assign(set, variables.gates[gate.number] ?? 0, action.sort === 'gate' ? 1 : 0);
    }
    if (action.sort === 'restore') {
        for (const { hazard, guard } of gate.controls) {
            set = setHazard(set, hazard, buildsWhere(guard, space), 0, space);
        }
    }
    return [{ presence: there.presence, set: applyElements(set, elements, space) }, ...others];
}

function travelDo(action: DoAction, station: Station, crowd: Crowd, travelling: Travelling): readonly Crowd[] {
    const { around, sink } = travelling;
    const { space, presences } = around;
    const { unit } = space;
    if (isAboutNothing(action)) {
        detour(action.cannot, crowd.set, travelling, sink);
        return passTime(crowd, action.time, around);
    }
    meetMissingParts(action, station, crowd, travelling);
    const { present } = crowd.presence;
    if (action.uses.some(part => present.some(fault => unit.faults[fault]?.part === part))) {
        takeFirst(action.cannot, station, action, crowd, travelling);
        return [];
    }
    detour(action.cannot, crowd.set, travelling, sink);
    const started = startBySetting(crowd.set, action.settings, around.flows);
    const isRepair = action.replaces.length > 0 || action.clearsFaults.length > 0;
    const settled = applySettings(started, action.settings, space);
    const set = isRepair ? agedByRepair(settled, space) : settled;
    const cleared = [...action.clearsFaults];
    for (const part of action.replaces) cleared.push(...(unit.parts[part]?.faults ?? []));
    let crowds = clearFaults({ presence: crowd.presence, set }, cleared, around);
    for (const test of action.clearsTests) {
        crowds = crowds.map(one => ({ ...one, presence: clearMemory(one.presence, test, presences) }));
    }
    const isArrival = (part: number) => crowd.presence.arrival.some(fault => unit.faults[fault]?.part === part);
    if (action.replaces.some(isArrival)) {
        crowds = crowds.map(one => ({ ...one, presence: presences.of({ ...one.presence, replaced: true }) }));
    }
    return crowds.flatMap(one => passTime(one, action.time, around));
}

/** Tells which builds lack a part, the zone, a condition, a test or all the faults that an action is about; they go on all the same. */
function meetMissingParts(action: DoAction, station: Station, crowd: Crowd, travelling: Travelling): void {
    const { space } = travelling.around;
    const { presence, set } = crowd;
    const missing = space.sets.without(set, whereUsable(action, space));
    meet('missing', station, action, { presence, set: missing }, travelling);
}
