// Where somebody has to be told of a hazard, or waits for one, or resets what has tripped: all that is no danger by itself,
// but that rules ask about.

import type { Action, DoAction, Station } from '../meaning/route.js';
import type { UnitGate } from '../meaning/unit.js';
import type { FlowSets } from './flow-sets.js';
import type { Lane } from './hazards-met.js';
import { stillDriven } from './drivers.js';
import { noWorlds, type WorldSet } from './sets/world-sets.js';
import { buildsWhere, isPossible } from './space.js';
import { type Starts, startsOfRestoring, startsOfSetting } from './starting.js';
import { protectedIn } from './thermal-resets.js';

/**
 * `permitted`: somebody measures beside a hazard that nothing controls. `proved`: a gate is closed, and an instrument shows that
 * the hazard is gone. `waited`: somebody waits for it. `driven`: somebody waits for it while energy still comes in.
 * `started`: an action starts what drives it. `restored`: a gate gives it back. `reset`: what trips by its heat is reset.
 */
export type OccasionSort = 'permitted' | 'proved' | 'waited' | 'driven' | 'started' | 'restored' | 'reset';

/** Somebody at an occasion. */
export interface OccasionMet {
    readonly sort: 'occasion';
    readonly occasion: OccasionSort;
    readonly lane: Lane;
    readonly station: number;
    readonly action: Action;
    readonly end: undefined;
    readonly hazard: number;
    /** The builds and states in which it is so, before the action. */
    readonly set: WorldSet;
}

/** Where an action is done. */
export interface AtStation {
    readonly lane: Lane;
    readonly station: Station;
    readonly action: Action;
}

/** Notes the occasions of a walk. */
export class Occasions {
    readonly met: OccasionMet[] = [];

    constructor(private readonly flows: FlowSets) {}

    /** Measuring at a hazard that is permitted only. */
    permitted(hazard: number, set: WorldSet, at: AtStation): void {
        this.note('permitted', hazard, set, at);
    }

    /** Waiting until a hazard is safe. */
    atWait(hazard: number, set: WorldSet, at: AtStation): void {
        const { sets } = this.flows.space;
        this.note('waited', hazard, sets.without(set, this.flows.isolated(hazard)), at);
        this.note('driven', hazard, sets.and(set, stillDriven(hazard, this.flows)), at);
    }

    /** Closing a gate. */
    atGate(gate: UnitGate, set: WorldSet, at: AtStation): void {
        const { sets, unit } = this.flows.space;
        for (const { declaration, guard, hazards } of gate.closing) {
            if (declaration.element !== 'prove' || !declaration.instrument) continue;
            for (const hazard of hazards) {
                const exists = buildsWhere(unit.hazards[hazard]?.guard, this.flows.space);
                this.note('proved', hazard, sets.and(sets.and(set, buildsWhere(guard, this.flows.space)), exists), at);
            }
        }
    }

    /** Restoring a gate: what it held is back, and the equipment may start. */
    atRestore(gate: UnitGate, set: WorldSet, at: AtStation): void {
        const { sets, variables } = this.flows.space;
        if (gate.controls.length === 0) return;
        const closed = sets.and(set, sets.is(variables.gates[gate.number] ?? 0, 1));
        for (const { hazard, guard } of gate.controls) {
            this.note('restored', hazard, sets.and(closed, buildsWhere(guard, this.flows.space)), at);
        }
        this.started(startsOfRestoring(gate, this.flows), set, at);
    }

    /** Doing something: it may start the equipment, or reset a trip while what it protects is hot. */
    atDo(action: DoAction, set: WorldSet, at: AtStation): void {
        if (action.settings.length > 0) this.started(startsOfSetting(action.settings, this.flows), set, at);
        if (action.clearsFaults.length === 0) return;
        const { sets, unit } = this.flows.space;
        for (const { number: hazard } of unit.hazards) {
            const trips = protectedIn(hazard, action.clearsFaults, this.flows);
            if (trips === noWorlds) continue;
            this.note('reset', hazard, sets.without(sets.and(set, trips), this.flows.isolated(hazard)), at);
        }
    }

    private started({ hazards }: Starts, set: WorldSet, at: AtStation): void {
        hazards.forEach((where, hazard) => {
            if (where !== noWorlds) this.note('started', hazard, this.flows.space.sets.and(set, where), at);
        });
    }

    private note(occasion: OccasionSort, hazard: number, set: WorldSet, at: AtStation): void {
        if (set === noWorlds || !isPossible(set, this.flows.space)) return;
        const { lane, station, action } = at;
        this.met.push({
            sort: 'occasion',
            occasion,
            lane,
            station: station.number,
            action,
            end: undefined,
            hazard,
            set,
        });
    }
}
