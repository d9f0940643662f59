// Waits while energy still comes in, and trips by heat that are reset without any wait.

import type { Counterexample } from '../findings/finding.js';
import type { DoAction } from '../meaning/route.js';
import type { Hazard } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import type { Do, Step, Wait } from '../model/trees.js';
import type { FileId, Span } from '../model/written.js';
import { overloadCooling } from '../safety/overload-cooling.js';
import { quoteName } from '../text/words.js';
import { driversOf } from '../walk/drivers.js';
import { ElapsedTimes } from '../walk/elapsed.js';
import { hazardsOf } from '../walk/hazard-walk.js';
import type { OccasionMet } from '../walk/occasions.js';
import { noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsIn, isPossible } from '../walk/space.js';
import { exampleOfDanger, findDanger } from './danger-examples.js';
import { type WalkedTree, walksThrough } from './walks.js';

/** A place where no time counts for a hazard. */
export interface UncountedWait {
    /** `driven`: it is waited while energy comes in. `reset`: what trips by its heat is reset while it may be there. */
    readonly sort: 'driven' | 'reset';
    readonly place: Span;
    readonly statement: Wait | Do;
    readonly step: Step;
    readonly hazard: Hazard;
    /** The flows that bring the energy, or the faults that are cleared. */
    readonly causes: readonly string[];
    /** The gates that would stop all of it. */
    readonly gates: readonly string[];
    /** How long the hazard takes to cool, as written or as is usual. */
    readonly cooling: string;
    readonly counterexample: Counterexample | undefined;
}

interface Signal {
    readonly aborted: boolean;
}

/** The places of a file, each once for each hazard. */
export function uncountedWaits(model: Model, file: FileId, signal: Signal): UncountedWait[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    const found = new Map<string, UncountedWait>();
    for (const walked of walksThrough(fileModel, model, signal)) {
        for (const one of uncountedIn(walked)) {
            const key = `${one.place.start} ${one.hazard.name.text}`;
            if (one.place.file === file && !found.has(key)) found.set(key, one);
        }
    }
    return [...found.values()];
}

function uncountedIn(walked: WalkedTree): UncountedWait[] {
    const groups = new Map<string, OccasionMet[]>();
    for (const one of hazardsOf(walked.walk).occasions) {
        if (one.occasion !== 'driven' && one.occasion !== 'reset') continue;
        const key = `${one.station} ${walked.route.stations[one.station]?.actions.indexOf(one.action) ?? ''} ${one.hazard}`;
        const group = groups.get(key);
        if (group) group.push(one);
        else groups.set(key, [one]);
    }
    return [...groups.values()].flatMap(group => uncounted(group, walked) ?? []);
}

function uncounted(met: readonly OccasionMet[], walked: WalkedTree): UncountedWait | undefined {
    const [first] = met;
    const step = walked.route.stations[first?.station ?? -1]?.step;
    const hazard = walked.all.unit.hazards[first?.hazard ?? -1];
    if (!first || !step || !hazard) return undefined;
    const { action } = first;
    if (action.sort !== 'wait' && action.sort !== 'do') return undefined;
    const name = quoteName(hazard.declaration.name.text);
    const found = findDanger(met, walked);
    const end =
        action.sort === 'wait'
            ? `energy still comes into ${name} while it is waited for`
            : `nothing has let ${name} cool before the reset`;
    return {
        sort: action.sort === 'wait' ? 'driven' : 'reset',
        place: action.sort === 'wait' ? action.written.amount : action.written.text,
        statement: action.written,
        step,
        hazard: hazard.declaration,
        causes: action.sort === 'wait' ? drivingFlows(met, walked) : clearedBy(action, walked),
        gates: action.sort === 'wait' ? stoppingGates(met, walked) : [],
        cooling:
            hazard.declaration.runDowns.find(({ manner }) => manner === 'cools')?.amount.written ?? overloadCooling,
        counterexample: found && exampleOfDanger(found, walked, end),
    };
}

function drivingFlows(met: readonly OccasionMet[], { walk }: WalkedTree): string[] {
    const { space, flows } = walk.around;
    return driversOf(met[0]?.hazard ?? -1, flows)
        .filter(({ where }) => met.some(({ set }) => isPossible(space.sets.and(set, where), space)))
        .map(({ flow }) => space.unit.flows[flow]?.declaration.name.text ?? '');
}

function clearedBy({ clearsFaults }: DoAction, { all: { unit } }: WalkedTree): string[] {
    return clearsFaults.flatMap(fault => unit.faults[fault]?.name ?? []);
}

/** The gates that hold the hazard or stop what drives it, in every build that comes there. */
function stoppingGates(met: readonly OccasionMet[], { walk }: WalkedTree): string[] {
    const { space } = walk.around;
    const builds = met.reduce<WorldSet>((all, { set }) => space.sets.or(all, buildsIn(set, space)), noWorlds);
    const times = new ElapsedTimes(met[0]?.hazard ?? -1, walk);
    return space.unit.gates
        .filter(gate => space.sets.without(builds, times.stopsIn(gate)) === noWorlds)
        .map(({ declaration }) => declaration.name.text);
}
