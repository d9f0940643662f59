// The worlds that a scenario means: the units that are built so, with what their tests leave open.

import { namesOfEquipment } from '../linking/names.js';
import { faultsNamed, testNamed } from '../meaning/resolving.js';
import type { Resolving } from '../meaning/resolving.js';
import type { Route } from '../meaning/route.js';
import type { Unit } from '../meaning/unit.js';
import type { Choice, Option } from '../model/equipment.js';
import type { Scenario } from '../model/file.js';
import type { Model } from '../model/model.js';
import { replay, type Run, type World } from '../replay/replay.js';
import { allWorlds, type WorldSet } from '../walk/sets/world-sets.js';
import { buildsWhere, onlyMade, pickWorld, readWorld, type WalkSpace } from '../walk/space.js';
import type { EquipmentWalks } from '../walk/walks.js';

/** Of the units of one scenario so many are played; a scenario is meant to name one. */
const mostUnits = 64;

/** Ways to draw what the model leaves open beyond this are not played. */
const mostDraws = 256;

export type Reading = Scenario['reads'][number];

/** What a scenario reads, with the numbers of its test and its outcome. */
export interface ResolvedReading {
    readonly read: Reading;
    readonly test: number;
    readonly outcome: number;
}

export function readingsOf(scenario: Scenario, names: Resolving): ResolvedReading[] {
    return scenario.reads.flatMap(read => {
        const test = testNamed(read.test, names, {});
        return test === undefined ? [] : [{ read, test, outcome: names.outcomeNumber(test, read.outcome.text) }];
    });
}

/**
 * The worlds that a scenario means, with nothing drawn yet; undefined where a name leads nowhere. Where they are too many
 * to play them all, those are among them that come to another end than the one with the number `end`.
 */
export function casesOf(
    scenario: Scenario,
    end: number,
    route: Route,
    model: Model,
    all: EquipmentWalks,
): World[] | undefined {
    const { unit, around, names } = all;
    const { space } = around;
    const inModel: Resolving = { ...names, model };
    let builds: WorldSet = allWorlds;
    const { optionOfChoice } = namesOfEquipment(unit.equipment);
    for (const reference of scenario.build) {
        const choice = model.target(reference.member ?? reference.choice);
        const option = choice?.sort === 'choice-declared' ? optionOfChoice.get(choice) : undefined;
        const variable = option && space.variables.options.get(option);
        if (!option || variable === undefined) return undefined;
        builds = space.sets.and(builds, space.sets.is(variable, option.choices.indexOf(choice as Choice)));
    }
    const named = [...new Set(scenario.faults.flatMap(reference => faultsNamed(reference, inModel, {})))];
    for (const fault of named) builds = space.sets.and(builds, buildsWhere(unit.faults[fault]?.guard, space));
    // An effect that is named beside its cause comes with it.
    const caused = new Set(named.flatMap(fault => unit.faults[fault]?.causes ?? []).map(({ fault }) => fault));
    const arrival = named.filter(fault => !caused.has(fault));
    const reads = new Map(readingsOf(scenario, inModel).map(({ test, outcome }) => [test, outcome]));
    const units = [...unitsIn(builds, all)];
    if (units.length === mostUnits) units.push(...unitsElsewhere(arrival, builds, end, route, all));
    return units.map(build => ({ build, arrival, draws: unit.tests.map(() => 0), reads }));
}

const unitsOf = new WeakMap<EquipmentWalks, Map<WorldSet, readonly ReadonlyMap<Option, Choice>[]>>();

/** The builds of a set that are made, as far as options tell them apart. Most scenarios of an equipment mean the same ones. */
function unitsIn(set: WorldSet, all: EquipmentWalks): readonly ReadonlyMap<Option, Choice>[] {
    const known = unitsOf.get(all) ?? new Map<WorldSet, readonly ReadonlyMap<Option, Choice>[]>();
    unitsOf.set(all, known);
    const units = known.get(set) ?? findUnits(set, all.around.space);
    known.set(set, units);
    return units;
}

function findUnits(set: WorldSet, space: WalkSpace): ReadonlyMap<Option, Choice>[] {
    const { sets, variables } = space;
    let builds = onlyMade(set, space);
    const options = new Set(variables.options.values());
    sets.sizes.forEach((_, variable) => {
        if (!options.has(variable)) builds = sets.assign(builds, variable, 0);
    });
    const found: ReadonlyMap<Option, Choice>[] = [];
    for (const world of sets.worlds(builds)) {
        if (found.length >= mostUnits) break;
        found.push(readWorld(world, space).build);
    }
    return found;
}

/** For each other end a unit with these faults that comes to it, where there is one. */
function unitsElsewhere(
    arrival: readonly number[],
    builds: WorldSet,
    end: number,
    route: Route,
    { trees, around }: EquipmentWalks,
): ReadonlyMap<Option, Choice>[] {
    const { space, presences } = around;
    const ends = trees.find(one => one.route === route)?.walk?.ends ?? [];
    const key = [...arrival].sort((one, other) => one - other).join();
    return ends.flatMap((crowds, number) => {
        const coming = [...crowds].filter(([presence]) => presences.at(presence).arrival.join() === key);
        if (number === end) return [];
        return coming.flatMap(([, set]) => pickWorld(space.sets.and(set, builds), space)?.build ?? []);
    });
}

/** The runs of the world with each way to draw what its tests leave open; only of ways that arrive. */
export function runsOf(route: Route, world: World): { readonly world: World; readonly run: Run }[] {
    const found: { readonly world: World; readonly run: Run }[] = [];
    const seen = new Set<string>();
    const sizes = new Map<number, number>();
    for (const { test } of route.complaints) sizes.set(test, outcomesOf(route.unit, test));
    const open: World[] = withDraws(world, sizes);
    for (let next = open.pop(); next && seen.size < mostDraws; next = open.pop()) {
        const key = next.draws.join();
        if (seen.has(key)) continue;
        seen.add(key);
        const left = new Map<number, number>();
        for (const run of replay(route, next)) {
            found.push({ world: next, run });
            for (const step of run.visits.flatMap(({ steps }) => steps)) {
                if (step.sort !== 'asked' || step.opts.length < 2) continue;
                left.set(step.test, Math.max(step.opts.length, left.get(step.test) ?? 0));
            }
        }
        open.push(...withDraws(next, left));
    }
    return found;
}

function outcomesOf(unit: Unit, test: number): number {
    return Math.max(1, (unit.tests[test]?.outcomes.length ?? 1) - 1);
}

/** The world with every draw of these tests, those left out that the scenario reads. */
function withDraws(world: World, sizes: ReadonlyMap<number, number>): World[] {
    let worlds: World[] = [world];
    for (const [test, size] of sizes) {
        if (size < 2 || world.reads?.has(test) || worlds.length * size > mostDraws) continue;
        worlds = worlds.flatMap(one =>
            Array.from({ length: size }, (_, draw) => ({
                ...one,
                draws: one.draws.map((old, at) => (at === test ? draw : old)),
            })),
        );
    }
    return worlds;
}
