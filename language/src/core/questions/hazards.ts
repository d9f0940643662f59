// Who meets a hazard that is not under control, and what is left closed or changed at a referral: each place once, with the
// way that leads there.

import { permitsTest } from '../meaning/permitted.js';
import type { Unit, UnitTest } from '../meaning/unit.js';
import type { Hazard, Repair } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import type { Conclusion, Leaves, Referral, Statement, Step } from '../model/trees.js';
import type { FileId, Span } from '../model/written.js';
import type { Counterexample } from '../findings/finding.js';
import { hazardsOf } from '../walk/hazard-walk.js';
import type { HazardMet, LeftBehind } from '../walk/hazards-met.js';
import { exampleOfDanger, findDanger, type FoundDanger } from './danger-examples.js';
import { type WalkedTree, walkedTrees, walksThrough } from './walks.js';

/** A place where somebody meets hazards: all those that were under control before, or all that never were. */
export interface HazardPlace {
    readonly place: Span;
    /** The statement that is done there, and its step; undefined for a repair. */
    readonly statement: Statement | undefined;
    readonly step: Step | undefined;
    /** The end whose repair it is, and the repair. */
    readonly end: Conclusion | Referral | undefined;
    readonly repair: Repair | undefined;
    /** In the order of the text. */
    readonly hazards: readonly Hazard[];
    readonly zone: string;
    readonly part: string | undefined;
    /** They were under control before on this way. */
    readonly wasControlled: boolean;
    /** Gates that control one of them, or permit the measurement; those that help most come first. */
    readonly gates: readonly string[];
    /** Hazards that no gate controls and that go by themselves after a time. */
    readonly waits: readonly Hazard[];
    readonly counterexample: Counterexample | undefined;
}

/** Something that a referral leaves behind without saying so. */
export interface LeftPlace {
    readonly end: Referral;
    /** The gate that stays closed, or the condition that stays changed. */
    readonly gate: string | undefined;
    readonly condition: string | undefined;
    readonly value: string | undefined;
    /** The value at which it is found. */
    readonly first: string | undefined;
    /** The statement that leads to the referral on the way that is shown, and its step; undefined for a branch. */
    readonly go: { readonly statement: Statement; readonly step: Step } | undefined;
    readonly counterexample: Counterexample | undefined;
}

/** A referral that says that it leaves a gate closed, where nobody comes with that gate closed. */
export interface IdleLock {
    readonly end: Referral;
    readonly leaves: Leaves;
    readonly gate: string;
}

interface Signal {
    readonly aborted: boolean;
}

/** The hazards that are met at the places of a file. A step of a procedure is one place, whoever follows it. */
export function hazardPlaces(model: Model, file: FileId, signal: Signal): HazardPlace[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    const groups = new Map<string, MetInTree[]>();
    for (const walked of walksThrough(fileModel, model, signal)) {
        for (const met of hazardsOf(walked.walk).met) {
            const place = placeOf(met, walked);
            if (place?.file !== file) continue;
            addTo(groups, `${place.start} ${met.zone} ${met.part ?? ''}`, { met, walked });
        }
    }
    return [...groups.values()].flatMap(hazardPlacesOf);
}

/** What the referrals of a file's trees leave behind. */
export function leftPlaces(model: Model, file: FileId, signal: Signal): LeftPlace[] {
    return inTrees(model, file, signal).flatMap(walked => {
        const groups = new Map<string, LeftBehind[]>();
        for (const left of hazardsOf(walked.walk).left) {
            addTo(groups, `${left.end} ${left.gate ?? ''} ${left.condition ?? ''}`, left);
        }
        return [...groups.values()].flatMap(group => leftPlace(group, walked) ?? []);
    });
}

/** Referrals of a file's trees that say of a gate that it stays closed, although it is so for nobody who comes there. */
export function idleLocks(model: Model, file: FileId, signal: Signal): IdleLock[] {
    return inTrees(model, file, signal).flatMap(({ route, walk }) => {
        const { closedAt } = hazardsOf(walk);
        return route.ends.flatMap(({ number, written }) => {
            const closed = closedAt[number];
            if (!closed || written.sort !== 'referral') return [];
            const names = new Set([...closed].map(gate => route.unit.gates[gate]?.declaration.name.text));
            return written.leaves.flatMap(leaves => {
                const gate = leaves.gate?.text ?? '';
                const isIdle = route.unit.gates.some(one => one.declaration.name.text === gate) && !names.has(gate);
                return isIdle ? [{ end: written, leaves, gate }] : [];
            });
        });
    });
}

function inTrees(model: Model, file: FileId, signal: Signal): WalkedTree[] {
    const fileModel = model.files.get(file);
    return fileModel ? walkedTrees(fileModel, model, signal) : [];
}

function addTo<T>(groups: Map<string, T[]>, key: string, item: T): void {
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
}

interface MetInTree {
    readonly met: HazardMet;
    readonly walked: WalkedTree;
}

/** Where it is written: the words of an action, the test that is asked, the name of an end. */
function placeOf({ action, end }: HazardMet, { route }: WalkedTree): Span | undefined {
    if (action?.sort === 'do') return action.written.text;
    if (action?.sort === 'ask') return action.written.test;
    if (action?.sort === 'read') return action.reference;
    return end === undefined ? undefined : route.ends[end]?.written.name;
}

/** One place for the hazards that were under control before on the way that is shown, and one for those that never were. */
function hazardPlacesOf(group: readonly MetInTree[]): HazardPlace[] {
    const byHazard = new Map<string, MetInTree[]>();
    for (const one of group) addTo(byHazard, String(one.met.hazard), one);
    const shown = [...byHazard.values()].flatMap(mets => shownOf(mets) ?? []);
    return [true, false].flatMap(wasControlled => {
        const alike = shown.filter(({ found }) => (found?.danger.wasControlled ?? false) === wasControlled);
        const place = hazardPlace(alike);
        return place ? [place] : [];
    });
}

/** A hazard that is met, with the way to it that is shown. */
interface ShownHazard extends MetInTree {
    readonly found: FoundDanger | undefined;
}

/** Of all trees in which one hazard is met at one place, the first that has a way to show. */
function shownOf(mets: readonly MetInTree[]): ShownHazard | undefined {
    for (const { met, walked } of mets) {
        const inTree = mets.filter(one => one.walked === walked).map(one => one.met);
        const found = findDanger(inTree, walked);
        if (found) return { met, walked, found };
    }
    const [first] = mets;
    return first && { ...first, found: undefined };
}

function hazardPlace(shown: readonly ShownHazard[]): HazardPlace | undefined {
    const [first] = [...shown].sort((one, other) => one.met.hazard - other.met.hazard);
    const place = first && placeOf(first.met, first.walked);
    if (!first || !place) return undefined;
    const { met, walked, found } = first;
    const { unit } = walked.all;
    const numbers = shown.map(one => one.met.hazard).sort((one, other) => one - other);
    const asked = met.action?.sort === 'ask' || met.action?.sort === 'read' ? unit.tests[met.action.test] : undefined;
    return {
        place,
        statement: met.action?.written,
        step: walked.route.stations[met.station ?? -1]?.step,
        end: met.end === undefined ? undefined : walked.route.ends[met.end]?.written,
        repair: met.repair,
        hazards: hazardsNumbered(numbers, unit),
        zone: unit.zones[met.zone]?.declaration.name.text ?? '',
        part: met.part === undefined ? undefined : unit.parts[met.part]?.name,
        wasControlled: found?.danger.wasControlled ?? false,
        gates: gatesFor(numbers, asked, unit),
        waits: hazardsNumbered(
            numbers.filter(number => isUncontrolled(number, unit)),
            unit,
        ).filter(({ runDowns }) => runDowns.length > 0),
        counterexample: found && exampleOfDanger(found, walked),
    };
}

function hazardsNumbered(numbers: readonly number[], unit: Unit): Hazard[] {
    return numbers.flatMap(number => unit.hazards[number]?.declaration ?? []);
}

function isUncontrolled(hazard: number, { gates }: Unit): boolean {
    return !gates.some(({ controls }) => controls.some(one => one.hazard === hazard));
}

/** Gates that permit the test beside all of the hazards, then those that control any of them, the most first. */
function gatesFor(hazards: readonly number[], test: UnitTest | undefined, { gates }: Unit): string[] {
    const counted = gates.map(({ declaration, controls, permits }) => {
        const isPermitted = (hazard: number) =>
            permits.some(one => one.hazard === hazard && test !== undefined && permitsTest(one.activity, test));
        const controlled = hazards.filter(hazard => controls.some(one => one.hazard === hazard)).length;
        return { name: declaration.name.text, controlled, permits: hazards.every(isPermitted) };
    });
    const permitting = counted.filter(({ permits }) => permits);
    const controlling = counted
        .filter(({ controlled }) => controlled > 0)
        .sort((one, other) => other.controlled - one.controlled);
    return [...new Set([...permitting, ...controlling].map(({ name }) => name))];
}

function leftPlace(group: readonly LeftBehind[], walked: WalkedTree): LeftPlace | undefined {
    const [first] = group;
    if (!first) return undefined;
    const found = findDanger(group, walked);
    const { end, gate, condition, value } = found ? { ...first, ...found.danger } : first;
    const written = walked.route.ends[end]?.written;
    if (written?.sort !== 'referral') return undefined;
    const { gates, conditions } = walked.all.unit;
    const declared = conditions[condition ?? -1]?.declaration;
    return {
        end: written,
        gate: gates[gate ?? -1]?.declaration.name.text,
        condition: declared?.name.text,
        value: declared?.values[value ?? -1]?.name.text,
        first: declared?.values[0]?.name.text,
        go: found && goTo(written, found, walked),
        counterexample: found && exampleOfDanger(found, walked),
    };
}

/** The statement that leads to the referral in the last step of the way. */
function goTo({ name }: Referral, { danger }: FoundDanger, { route }: WalkedTree): LeftPlace['go'] {
    const step = route.stations[danger.path.at(-1)?.station ?? -1]?.step;
    const statement = step?.statements.find(one => one.sort === 'go' && one.target.text === name.text);
    return step && statement && { step, statement };
}
