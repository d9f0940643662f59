// Where somebody has to be warned of a hazard and no safety statement does so.

import type { Counterexample } from '../findings/finding.js';
import type { Action } from '../meaning/route.js';
import type { UnitGate, UnitHazard } from '../meaning/unit.js';
import type { Gate } from '../model/gates.js';
import type { Model } from '../model/model.js';
import type { SignalWord } from '../model/remarks.js';
import type { Statement, Step } from '../model/trees.js';
import type { FileId, Span } from '../model/written.js';
import type { SafetyLimits } from '../safety/limit-sets.js';
import { hazardsOf } from '../walk/hazard-walk.js';
import type { OccasionMet, OccasionSort } from '../walk/occasions.js';
import { noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsIn, buildsWhere, isPossible, type WalkSpace } from '../walk/space.js';
import { exampleOfDanger, findDanger } from './danger-examples.js';
import { hasEnergyWord, isOfEnergy, levelsOf } from './energies.js';
import { fittingWord } from './signal-words.js';
import { statementsInForce } from './statements-in-force.js';
import { type ResolvedUnit, unitOf } from './units.js';
import { type WalkedTree, walkedTrees } from './walks.js';

/** Why somebody must be warned. */
export type WarningReason = Exclude<OccasionSort, 'driven' | 'reset'>;

/** A place where a statement is missing. */
export interface MissingWarning {
    readonly why: WarningReason;
    readonly place: Span;
    /** The gate in which the statement is missing; else the statement of a step before which it is. */
    readonly gate: Gate | undefined;
    readonly statement: Statement | undefined;
    readonly step: Step;
    /** Those that nobody warns of, with the word that fits each. */
    readonly hazards: readonly { readonly name: string; readonly word: SignalWord }[];
    readonly counterexample: Counterexample | undefined;
}

interface Signal {
    readonly aborted: boolean;
}

/** The missing statements of a file's steps and gates, each place once. */
export function missingWarnings(model: Model, file: FileId, limits: SafetyLimits, signal: Signal): MissingWarning[] {
    const places = new Map<string, Unwarned[]>();
    for (const one of model.files.values()) {
        for (const walked of walkedTrees(one, model, signal)) {
            for (const unwarned of unwarnedIn(walked, model, limits)) {
                if (unwarned.place.file !== file) continue;
                const key = `${unwarned.why} ${unwarned.place.start}`;
                const group = places.get(key);
                if (group) group.push(unwarned);
                else places.set(key, [unwarned]);
            }
        }
    }
    const groups = [...places.values()];
    // What a gate lacks for closing it or working under it is told already.
    const gates = new Set(groups.flatMap(([first]) => (first?.why === 'restored' ? [] : (first?.gate ?? []))));
    return groups
        .filter(([first]) => first?.why !== 'restored' || !first.gate || !gates.has(first.gate))
        .map(group => missingWarning(group, limits));
}

/** An occasion at which nobody has warned of the hazard, in some builds. */
interface Unwarned {
    readonly why: WarningReason;
    readonly met: OccasionMet;
    readonly walked: WalkedTree;
    readonly resolved: ResolvedUnit;
    readonly hazard: UnitHazard;
    readonly place: Span;
    readonly gate: Gate | undefined;
    readonly step: Step;
}

function unwarnedIn(walked: WalkedTree, model: Model, limits: SafetyLimits): Unwarned[] {
    const { route, walk } = walked;
    const { occasions } = hazardsOf(walk);
    const resolved = unitOf(route.unit.equipment, model);
    const asked: Asked = { walked, resolved, limits, occasions };
    return occasions.flatMap(met => {
        const station = route.stations[met.station];
        const hazard = resolved.unit.hazards[met.hazard];
        const { occasion: why } = met;
        if (!station || !hazard || why === 'driven' || why === 'reset') return [];
        const set = unwarnedSet(met, asked);
        if (!isPossible(set, walk.around.space)) return [];
        const gate = gateFor(met, route.unit.gates, walked);
        const place = gate ? gate.name : placeOf(met.action);
        return place ? [{ why, met: { ...met, set }, walked, resolved, hazard, place, gate, step: station.step }] : [];
    });
}

interface Asked {
    readonly walked: WalkedTree;
    readonly resolved: ResolvedUnit;
    readonly limits: SafetyLimits;
    readonly occasions: readonly OccasionMet[];
}

/** The worlds of an occasion in which somebody must be warned and is not. */
function unwarnedSet(met: OccasionMet, asked: Asked): WorldSet {
    const { space } = asked.walked.walk.around;
    const { sets } = space;
    const needed = neededSet(met, asked);
    if (needed === noWorlds) return noWorlds;
    const hazards = met.occasion === 'restored' ? heldWith(met, asked) : [met.hazard];
    const told = hazards.reduce<WorldSet>((all, hazard) => sets.or(all, warnedIn(hazard, met, asked)), noWorlds);
    // Whoever comes as told has a build of those who come there: what makes no difference to a hazard was forgotten before.
    const left = sets.without(needed, told);
    return met.lane === 'told' ? sets.and(left, comersOf(met.station, asked)) : left;
}

function neededSet(met: OccasionMet, asked: Asked): WorldSet {
    const { resolved, limits, walked } = asked;
    const { space } = walked.walk.around;
    const { unit, names } = resolved;
    const hazard = unit.hazards[met.hazard];
    if (!hazard) return noWorlds;
    switch (met.occasion) {
        case 'proved': {
            if (hasEnergyWord(hazard.declaration, ['gas'])) return met.set;
            const live = levelsOf(hazard, names, limits).filter(
                one => one.above === true && one.energy === 'electrical',
            );
            const builds = live.map(({ guard }) => buildsWhere(guard, space));
            return space.sets.and(met.set, joined(builds, space));
        }
        case 'restored':
            return hasOwnSource(hazard, resolved) ? met.set : noWorlds;
        case 'started':
            // What a gate gives back without starting anything that moves is a matter of the gate.
            if (met.action.sort === 'restore' && reachOf(hazard) > 0) return noWorlds;
            return withoutNearer(met, hazard, asked);
        default:
            return met.set;
    }
}

/** Of all that an action starts, only what reaches furthest counts: who is warned of the blade keeps off the hot motor too. */
function withoutNearer(met: OccasionMet, hazard: UnitHazard, { occasions, resolved, walked }: Asked): WorldSet {
    const { space } = walked.walk.around;
    const nearer = occasions.filter(one => {
        const other = resolved.unit.hazards[one.hazard];
        const isBeside = one.occasion === 'started' && one.action === met.action && one.station === met.station;
        return isBeside && other !== undefined && reachOf(other) < reachOf(hazard);
    });
    return space.sets.without(
        met.set,
        joined(
            nearer.map(({ set }) => set),
            space,
        ),
    );
}

/** Energies that come to people; all others are met by whoever touches or opens something. */
const reaching = ['mechanical', 'gravity', 'chemical', 'biological', 'radiation'];

/** 0: it comes to people. 1: voltage, gas and pressure. 2: what is stored or only hot. */
function reachOf({ declaration }: UnitHazard): number {
    const moves = declaration.startsByItself.length > 0 || declaration.runDowns.some(one => one.manner === 'runs down');
    if (moves || hasEnergyWord(declaration, reaching)) return 0;
    const isHeld = isOfEnergy(declaration, 'electrical') || isOfEnergy(declaration, 'pressure');
    return isHeld && declaration.stored.length === 0 ? 1 : 2;
}

/** Voltage, gas and what a supply carries come back with the gate; what is driven comes back when it is started. */
function hasOwnSource({ number, declaration }: UnitHazard, { unit }: ResolvedUnit): boolean {
    if (unit.parts.some(({ carries }) => carries === number)) return true;
    return hasEnergyWord(declaration, ['electrical', 'gas']) && declaration.stored.length === 0;
}

/** One statement about any of the energies that come back is enough: they come back together. */
function heldWith({ action }: OccasionMet, { resolved }: Asked): number[] {
    const gate = action.sort === 'restore' ? resolved.unit.gates[action.gate] : undefined;
    return gate?.controls.map(({ hazard }) => hazard) ?? [];
}

function warnedIn(hazard: number, { station, action }: OccasionMet, { walked, resolved }: Asked): WorldSet {
    const { space } = walked.walk.around;
    const there = walked.route.stations[station];
    const found = there ? statementsInForce(hazard, there, action, walked, resolved) : [];
    return joined(
        found.map(({ guard }) => buildsWhere(guard, space)),
        space,
    );
}

function comersOf(station: number, { walked: { walk } }: Asked): WorldSet {
    const { space } = walk.around;
    const builds = [...(walk.stations[station]?.values() ?? [])].map(set => buildsIn(set, space));
    return joined(new Set(builds), space);
}

function joined(sets: Iterable<WorldSet>, space: WalkSpace): WorldSet {
    let all: WorldSet = noWorlds;
    for (const set of sets) all = space.sets.or(all, set);
    return all;
}

/** The gate in which the statement belongs: it is read wherever the gate is used. */
function gateFor(
    { occasion, action, station, hazard }: OccasionMet,
    gates: readonly UnitGate[],
    { route }: WalkedTree,
) {
    if (action.sort === 'gate' || (action.sort === 'restore' && occasion === 'restored')) {
        return gates[action.gate]?.declaration;
    }
    if (occasion !== 'permitted') return undefined;
    const used = route.stations[station]?.actions.flatMap(one => (one.sort === 'gate' ? [one.gate] : [])) ?? [];
    const permitting = used.find(number => gates[number]?.permits.some(permit => permit.hazard === hazard));
    return gates[permitting ?? -1]?.declaration;
}

function placeOf(action: Action): Span | undefined {
    switch (action.sort) {
        case 'do':
            return action.written.text;
        case 'wait':
            return action.written.amount;
        case 'gate':
        case 'restore':
            return action.written.gate;
        case 'ask':
            return action.written.test;
        case 'read':
            return action.reference;
        default:
            return undefined;
    }
}

function missingWarning(group: readonly Unwarned[], limits: SafetyLimits): MissingWarning {
    const [first] = group as [Unwarned, ...Unwarned[]];
    const hazards = [...new Map(group.map(({ hazard }) => [hazard.number, hazard])).values()];
    const { names } = first.resolved;
    const words = hazards
        .sort((one, other) => one.number - other.number)
        .map(hazard => ({
            name: hazard.declaration.name.text,
            word: fittingWord(hazard, first.why === 'permitted', names, limits),
        }));
    const told = `nothing has warned of \`${words[0]?.name ?? ''}\``;
    const about = group.filter(({ hazard }) => hazard.declaration.name.text === words[0]?.name);
    const found = exampleFor(about, told);
    return {
        why: first.why,
        place: first.place,
        gate: first.gate,
        statement: first.gate || !('written' in first.met.action) ? undefined : first.met.action.written,
        step: found?.step ?? first.step,
        hazards: words,
        counterexample: found?.counterexample,
    };
}

/** The first of the occasions that a world comes to, with its way. */
function exampleFor(group: readonly Unwarned[], told: string) {
    for (const { met, walked, step } of group) {
        const found = findDanger([met], walked);
        if (found) return { step, counterexample: exampleOfDanger(found, walked, told) };
    }
    return undefined;
}
