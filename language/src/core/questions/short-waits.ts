// Waits that are shorter than a hazard takes to cool, run down, discharge or settle.

import { exampleOfBuild } from '../findings/counterexample.js';
import type { Counterexample } from '../findings/finding.js';
import { timeOf } from '../meaning/resolving.js';
import type { Action, Station } from '../meaning/route.js';
import type { Milliseconds, UnitGate } from '../meaning/unit.js';
import type { Hazard, RunDown } from '../model/equipment.js';
import type { Model } from '../model/model.js';
import type { GateElement } from '../model/gates.js';
import type { Amount, FileId, Prose, Span } from '../model/written.js';
import { type Elapsed, ElapsedTimes } from '../walk/elapsed.js';
import type { FlowSets } from '../walk/flow-sets.js';
import { hazardsOf } from '../walk/hazard-walk.js';
import { protectedIn } from '../walk/thermal-resets.js';
import { overloadCooling } from '../safety/overload-cooling.js';
import { quoteName } from '../text/words.js';
import { timeWords } from '../text/times.js';
import { noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsIn, buildsWhere, isPossible, pickWorld, type WalkSpace } from '../walk/space.js';
import { describeChoices } from './builds.js';
import { detourTo, quickestWay } from './wait-examples.js';
import { walkedTrees, type WalkedTree, walksThrough } from './walks.js';

/** A wait that is too short. */
export interface ShortWait {
    readonly place: Span;
    readonly hazard: Hazard;
    /** What the hazard does, and how long it takes in the builds in which the wait is too short. */
    readonly runDown: RunDown;
    /** What has passed at the end of the wait. */
    readonly passed: Milliseconds;
    /** The gate whose own elements are too quick; undefined for a wait in a step. */
    readonly gate: UnitGate | undefined;
    /** The time that is written for it; without one, the text of the element behind which it can stand. */
    readonly amount: Amount | undefined;
    readonly text: Prose | undefined;
    readonly counterexample: Counterexample | undefined;
}

interface Signal {
    readonly aborted: boolean;
}

/** Short waits in the steps of a file, and in the gates of its equipment; each place once for each hazard. */
export function shortWaitsIn(model: Model, file: FileId, signal: Signal): ShortWait[] {
    const fileModel = model.files.get(file);
    if (!fileModel) return [];
    const found = new Map<string, ShortWait>();
    const add = (wait: ShortWait) => {
        const key = `${wait.place.start} ${wait.hazard.name.text}`;
        if (wait.place.file === file && !found.has(key)) found.set(key, wait);
    };
    for (const walked of walksThrough(fileModel, model, signal)) waitsOnTheWay(walked).forEach(add);
    for (const one of model.files.values()) {
        for (const { all } of walkedTrees(one, model, signal)) {
            if (all.unit.equipment.file === file) waitsInGates(all.around.flows).forEach(add);
        }
    }
    return [...found.values()];
}

/** What a hazard takes to be gone, by build. */
interface TimeToGo {
    readonly runDown: RunDown;
    readonly time: Milliseconds;
    readonly builds: WorldSet;
}

/** The longest first. */
function timesOf(number: number, flows: FlowSets): TimeToGo[] {
    const { unit, sets } = flows.space;
    const hazard = unit.hazards[number];
    if (!hazard) return [];
    const exists = buildsWhere(hazard.guard, flows.space);
    const own = hazard.declaration.runDowns.map((runDown, index) => ({
        runDown,
        time: timeOf(runDown.amount),
        builds: sets.and(exists, buildsWhere(hazard.runDowns[index]?.guard, flows.space)),
    }));
    const given = own.reduce<WorldSet>((all, { builds }) => sets.or(all, builds), noWorlds);
    const { declaration } = hazard;
    const amount: Amount = { ...declaration.name, written: overloadCooling };
    const usual: RunDown = { ...declaration.name, manner: 'cools', amount, guard: undefined };
    const faults = unit.faults.map(fault => fault.number);
    // What a trip by heat protects is hot when it has tripped, whether or not the equipment says how long it cools.
    const builds = sets.without(sets.and(exists, protectedIn(number, faults, flows)), given);
    const all = builds === noWorlds ? own : [...own, { runDown: usual, time: timeOf(amount), builds }];
    return all.sort((one, other) => other.time - one.time);
}

function waitsOnTheWay(walked: WalkedTree): ShortWait[] {
    const { route, walk } = walked;
    const elapsed = new Map<number, ElapsedTimes>();
    return route.stations.flatMap(station =>
        station.actions.flatMap(action => {
            if (action.sort !== 'wait' || action.hazard === undefined) return [];
            const { hazard } = action;
            // A wait in which energy still comes in counts for nothing, and that is told of it.
            const isDriven = hazardsOf(walk).occasions.some(one => one.occasion === 'driven' && one.action === action);
            if (isDriven) return [];
            for (const toGo of timesOf(hazard, walk.around.flows)) {
                if (toGo.time <= action.time) return [];
                const times = elapsed.get(hazard) ?? new ElapsedTimes(hazard, walk);
                elapsed.set(hazard, times);
                const short = shortWait({ station, action, toGo, times, walked });
                if (short) return [short];
            }
            return [];
        }),
    );
}

type Wait = Extract<Action, { sort: 'wait' }>;

/** A wait, with what the hazard takes to be gone. */
interface AskedWait {
    readonly station: Station;
    readonly action: Wait;
    readonly toGo: TimeToGo;
    readonly times: ElapsedTimes;
    readonly walked: WalkedTree;
}

/** A wait at the end of which too little may have passed, if somebody comes to it in whose build that is so. */
function shortWait(asked: AskedWait): ShortWait | undefined {
    const { action, toGo, walked } = asked;
    const { space } = walked.walk.around;
    const hazard = space.unit.hazards[action.hazard ?? -1]?.declaration;
    const cases = shortCases(asked);
    const [first] = cases;
    if (!first || !hazard) return undefined;
    const { runDown, time, builds } = toGo;
    const short = cases.reduce<WorldSet>((all, one) => space.sets.or(all, one.builds), noWorlds);
    const way = wayTo(asked, short);
    const isShort = way !== undefined && way.passed < time;
    const passed = isShort ? way.passed : first.time + action.time;
    const end = `${quoteName(hazard.name.text)} counts as safe ${passed === 0 ? 'at once' : `after ${timeWords(passed)}`}`;
    const counterexample = isShort ? way.example(end) : exampleOfBuild(buildOf(first.builds, builds, space), end);
    const { amount } = action.written;
    return { place: amount, hazard, runDown, passed, gate: undefined, amount, text: undefined, counterexample };
}

/** The builds in which too little may have passed, the shortest time first. */
function shortCases({ station, action, toGo, times, walked: { walk } }: AskedWait): Elapsed[] {
    const { space } = walk.around;
    const { sets } = space;
    const here = sets.and(toGo.builds, buildsWhere(action.guard, space));
    const reached = {
        told: [...(walk.stations[station.number]?.values() ?? [])],
        detour: hazardsOf(walk)
            .occasions.filter(one => one.occasion === 'waited' && one.lane === 'detour' && one.action === action)
            .map(({ set }) => set),
    };
    return (['told', 'detour'] as const)
        .flatMap(lane => {
            const comers = reached[lane].reduce<WorldSet>((all, set) => sets.or(all, buildsIn(set, space)), noWorlds);
            return times
                .before(station, action, lane)
                .filter(({ time }) => time + action.time < toGo.time)
                .map(one => ({ ...one, builds: sets.and(sets.and(one.builds, here), comers) }));
        })
        .filter(one => isPossible(one.builds, space))
        .sort((one, other) => one.time - other.time);
}

/** The quickest way to a wait, told or on a detour. */
function wayTo({ station, action, times, walked }: AskedWait, builds: WorldSet) {
    const { space } = walked.walk.around;
    const counts = (gate: UnitGate, build: WorldSet) => isPossible(space.sets.and(build, times.stopsIn(gate)), space);
    return quickestWay(station, action, builds, counts, walked) ?? detourTo(station, action, builds, counts, walked);
}

/** The elements of a gate behind the isolation of a hazard must last as long as it takes. */
function waitsInGates(flows: FlowSets): ShortWait[] {
    const { unit } = flows.space;
    return unit.gates.flatMap(gate =>
        gate.controls.flatMap(control => {
            const hazard = unit.hazards[control.hazard]?.declaration;
            return hazard ? shortInGate(gate, control, hazard, flows) : [];
        }),
    );
}

function shortInGate(
    gate: UnitGate,
    control: UnitGate['controls'][number],
    hazard: Hazard,
    flows: FlowSets,
): ShortWait[] {
    const { space } = flows;
    const { sets } = space;
    for (const { runDown, time, builds } of timesOf(control.hazard, flows)) {
        const here = sets.and(builds, sets.and(buildsWhere(gate.guard, space), buildsWhere(control.guard, space)));
        if (!isPossible(here, space)) continue;
        const { passed, release } = timeInGate(gate, hazard, here, space);
        if (passed >= time) continue;
        const { duration: amount, text } = release ?? { duration: undefined, text: undefined };
        const place = amount ?? text ?? gate.declaration.name;
        const end = `${quoteName(gate.declaration.name.text)} is closed and ${quoteName(hazard.name.text)} still there`;
        const counterexample = exampleOfBuild(buildOf(here, builds, space), end);
        return [{ place, hazard, runDown, passed, gate, amount, text, counterexample }];
    }
    return [];
}

/** The time of a gate's elements behind the last isolation, in the builds where it is least. */
function timeInGate(
    gate: UnitGate,
    hazard: Hazard,
    builds: WorldSet,
    space: WalkSpace,
): { passed: Milliseconds; release: GateElement | undefined } {
    const { sets } = space;
    let passed = 0;
    let release: GateElement | undefined;
    for (const { declaration, guard, time } of gate.closing) {
        const isOf = isAbout(declaration.hazards, hazard);
        if (declaration.element === 'isolate' && isOf) passed = 0;
        else if (sets.without(builds, buildsWhere(guard, space)) === noWorlds) passed += time;
        if (declaration.element === 'release' && isOf) release = declaration;
    }
    return { passed, release };
}

/** An element is about the hazards that it names, or about all of the gate. */
function isAbout(named: readonly { readonly text: string }[], hazard: Hazard): boolean {
    return named.length === 0 || named.some(({ text }) => text === hazard.name.text);
}

/** The choices that matter for a run-down that some builds have. */
function buildOf(set: WorldSet, builds: WorldSet, space: WalkSpace): string[] {
    const world = pickWorld(set, space);
    const asked = new Set(space.sets.variablesOf(builds));
    const options = [...space.variables.options]
        .filter(([, variable]) => asked.has(variable))
        .map(([option]) => option);
    return world ? describeChoices(world.build, options) : [];
}
