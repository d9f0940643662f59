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
import { elapsedBefore, elapsedOf } from '../walk/elapsed.js';
import { quoteName } from '../text/words.js';
import { timeWords } from '../text/times.js';
import { noWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsWhere, isPossible, pickWorld, type WalkSpace } from '../walk/space.js';
import { describeChoices } from './builds.js';
import { exampleOfWait, quickestWay } from './wait-examples.js';
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
            if (all.unit.equipment.file === file) waitsInGates(all.around.space).forEach(add);
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
function timesOf(number: number, space: WalkSpace): TimeToGo[] {
    const { unit, sets } = space;
    const hazard = unit.hazards[number];
    if (!hazard) return [];
    const exists = buildsWhere(hazard.guard, space);
    return hazard.declaration.runDowns
        .map((runDown, index) => ({
            runDown,
            time: timeOf(runDown.amount),
            builds: sets.and(exists, buildsWhere(hazard.runDowns[index]?.guard, space)),
        }))
        .sort((one, other) => other.time - one.time);
}

function waitsOnTheWay(walked: WalkedTree): ShortWait[] {
    const { route, walk } = walked;
    let elapsed: ReturnType<typeof elapsedOf> | undefined;
    return route.stations.flatMap(station =>
        station.actions.flatMap(action => {
            if (action.sort !== 'wait' || action.hazard === undefined) return [];
            for (const toGo of timesOf(action.hazard, walk.around.space)) {
                if (toGo.time <= action.time) return [];
                elapsed ??= elapsedOf(walk);
                const least = elapsedBefore(station, action, elapsed, walk) + action.time;
                const short = least < toGo.time ? shortWait(station, action, toGo, least, walked) : undefined;
                if (short) return [short];
            }
            return [];
        }),
    );
}

/** A wait at the end of which so much has passed at least, if somebody comes to it in whose build that is too short. */
function shortWait(
    station: Station,
    action: Extract<Action, { sort: 'wait' }>,
    { runDown, time, builds }: TimeToGo,
    least: Milliseconds,
    walked: WalkedTree,
): ShortWait | undefined {
    const { walk } = walked;
    const { space } = walk.around;
    const { sets, unit } = space;
    const hazard = unit.hazards[action.hazard ?? -1]?.declaration;
    if (!hazard) return undefined;
    const here = sets.and(builds, buildsWhere(action.guard, space));
    const isReached = [...(walk.stations[station.number]?.values() ?? [])].some(set =>
        isPossible(sets.and(set, here), space),
    );
    if (!isReached) return undefined;
    const way = quickestWay(station, action, here, walked);
    const isShort = way !== undefined && way.passed < time;
    const passed = isShort ? way.passed : least;
    const end = `${quoteName(hazard.name.text)} counts as safe ${passed === 0 ? 'at once' : `after ${timeWords(passed)}`}`;
    const counterexample = isShort
        ? exampleOfWait(way, end, walked)
        : exampleOfBuild(buildOf(here, builds, space), end);
    const { amount } = action.written;
    return { place: amount, hazard, runDown, passed, gate: undefined, amount, text: undefined, counterexample };
}

/** The elements of a gate behind the isolation of a hazard must last as long as it takes. */
function waitsInGates(space: WalkSpace): ShortWait[] {
    const { unit } = space;
    return unit.gates.flatMap(gate =>
        gate.controls.flatMap(control => {
            const hazard = unit.hazards[control.hazard]?.declaration;
            return hazard ? shortInGate(gate, control, hazard, space) : [];
        }),
    );
}

function shortInGate(
    gate: UnitGate,
    control: UnitGate['controls'][number],
    hazard: Hazard,
    space: WalkSpace,
): ShortWait[] {
    const { sets } = space;
    for (const { runDown, time, builds } of timesOf(control.hazard, space)) {
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
