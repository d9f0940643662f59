// Plays the author's scenarios: whether each ends where it says, and in its time.

import { timeOf } from '../meaning/resolving.js';
import type { Resolving } from '../meaning/resolving.js';
import type { Route } from '../meaning/route.js';
import type { Unit } from '../meaning/unit.js';
import type { Scenario } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { FileId } from '../model/written.js';
import type { Run, World } from '../replay/replay.js';
import type { EquipmentWalks } from '../walk/walks.js';
import { equipmentOf } from './answers.js';
import { outOfScope } from './out-of-scope.js';
import { casesOf, type Reading, type ResolvedReading, readingsOf, runsOf } from './scenario-cases.js';
import { equipmentWalks } from './walks.js';
import { goesWrong } from './wrong-ends.js';

/** How a scenario went. */
export interface ScenarioResult {
    readonly scenario: Scenario;
    readonly outcome: ScenarioOutcome;
    /** The run that shows it: the one that fails, else the longest. */
    readonly shown: ScenarioRun | undefined;
    /** The longest way to the end, in milliseconds. */
    readonly longest: number;
    /** The most that is allowed; undefined where nothing is said. */
    readonly within: number | undefined;
    /** What the scenario reads and no run shows. */
    readonly unread: Reading | undefined;
    /** It comes to another end or brings no complaint, and its fault goes wrong in the walk too, which says why. */
    readonly isToldElsewhere: boolean;
}

export type ScenarioOutcome =
    /** It ends where it says, in its time. */
    | 'passed'
    /** It does not say what is wrong with the unit, or at which end it must arrive, or it names a step for that. */
    | 'no fault'
    | 'no end'
    | 'not an end'
    /** No unit is built so, or the build lacks the fault. */
    | 'no such unit'
    /** The case does not bring the tree's complaint. */
    | 'not in scope'
    /** A test that is asked never shows what the scenario reads. */
    | 'other reading'
    | 'other end'
    | 'too long'
    /** Something in it has no meaning yet: a name leads nowhere. */
    | 'unknown';

export interface ScenarioRun {
    readonly world: World;
    readonly route: Route;
    readonly run: Run;
    readonly unit: Unit;
}

interface Signal {
    readonly aborted: boolean;
}

/** Plays a scenario with every unit that it means. Undefined when the signal says that it is no longer wanted. */
export function playScenario(scenario: Scenario, model: Model, signal: Signal): ScenarioResult | undefined {
    const failed = (outcome: ScenarioOutcome): ScenarioResult => {
        const nothing = { shown: undefined, longest: 0, within: undefined, unread: undefined, isToldElsewhere: false };
        return { scenario, outcome, ...nothing };
    };
    const tree = model.target(scenario.tree);
    const equipment = tree?.sort === 'tree' ? equipmentOf(tree, model) : undefined;
    if (tree?.sort !== 'tree' || !equipment || hasLooseNames([scenario, tree, equipment], model)) {
        return failed('unknown');
    }
    const missing = missingIn(scenario);
    if (missing) return failed(missing);
    const all = equipmentWalks(equipment, model, signal);
    if (!all) return undefined;
    const route = all.trees.find(one => one.tree === tree)?.route;
    const end = route?.ends.find(({ written }) => written === endExpected(scenario, model));
    if (!route || !end) return failed('not an end');
    const cases = casesOf(scenario, end.number, route, model, all);
    if (!cases) return failed('unknown');
    if (cases.length === 0) return failed('no such unit');
    const runs = cases.flatMap(one => runsOf(route, one).map(played => ({ ...played, route, unit: all.unit })));
    if (runs.length > 0) return judge(scenario, end.number, runs, { ...all.names, model }, all);
    const nobodyLooks = outOfScope(equipment, model, signal);
    const told = [...(nobodyLooks?.nowhere ?? []), ...(nobodyLooks?.inSomeBuilds ?? [])].map(({ number }) => number);
    const isToldElsewhere = cases.some(({ arrival }) => arrival.some(fault => told.includes(fault)));
    return { ...failed('not in scope'), isToldElsewhere };
}

function missingIn({ expects, faults, healthy }: Scenario): 'no end' | 'no fault' | undefined {
    if (expects.length === 0) return 'no end';
    return faults.length === 0 && !healthy ? 'no fault' : undefined;
}

function endExpected({ expects }: Scenario, model: Model): unknown {
    return expects[0] && model.target(expects[0].target);
}

/** What the runs of a scenario, at least one, come to. */
function judge(
    scenario: Scenario,
    end: number,
    played: readonly ScenarioRun[],
    names: Resolving,
    all: EquipmentWalks,
): ScenarioResult {
    const readings = readingsOf(scenario, names);
    const runs = played.filter(one => readings.every(reading => shows(reading, one)));
    const neverShown = readings.find(reading => !played.some(run => shows(reading, run)));
    const unread = runs.length === 0 ? (neverShown ?? readings[0])?.read : undefined;
    const longest = longestOf(runs.length === 0 ? played : runs);
    const amount = scenario.expects[0]?.within;
    const within = amount && timeOf(amount);
    const result = { scenario, longest: longest?.run.time ?? 0, within, unread, isToldElsewhere: false };
    if (unread) return { ...result, outcome: 'other reading', shown: played[0] };
    const elsewhere = runs.find(({ run }) => run.ending.sort !== 'end' || run.ending.end !== end);
    if (elsewhere) {
        const walked = all.trees.flatMap(one => (one.walk ? [{ ...one, walk: one.walk, all }] : []));
        const isToldElsewhere = goesWrong(elsewhere.world.arrival, walked);
        return { ...result, outcome: 'other end', shown: elsewhere, isToldElsewhere };
    }
    const isTooLong = within !== undefined && result.longest > within;
    return { ...result, outcome: isTooLong ? 'too long' : 'passed', shown: longest };
}

/** The first of those that take longest. */
function longestOf(runs: readonly ScenarioRun[]): ScenarioRun | undefined {
    const [first, ...others] = runs;
    return first && others.reduce((one, other) => (other.run.time > one.run.time ? other : one), first);
}

/** Whether a name in the files of these leads nowhere. */
function hasLooseNames(places: readonly { readonly file: FileId }[], model: Model): boolean {
    return places.some(({ file }) => model.visibleFiles(file).some(seen => model.problems(seen.file).length > 0));
}

/** Whether the test shows what the scenario reads, at one asking at least; so does one that is not asked. */
function shows({ test, outcome }: ResolvedReading, { run }: ScenarioRun): boolean {
    const answers = run.visits.flatMap(({ steps }) =>
        steps.filter(step => step.sort === 'asked' && step.test === test),
    );
    return answers.length === 0 || answers.some(step => step.sort === 'asked' && step.outcome === outcome);
}
