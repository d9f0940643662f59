// One world: a build, what is wrong on arrival, and what is drawn where the model leaves an outcome open; and all of them.

import { evaluate, type PartialBuild } from '../builds/evaluate.js';
import type { BuildSpace } from '../builds/find-build.js';
import { drawSizes } from '../meaning/draws.js';
import type { InBuilds, Unit } from '../meaning/unit.js';
import type { Choice, Option } from '../model/equipment.js';

/** One case that the technician could stand before. */
export interface World {
    /** The choice of each option that the build has. */
    readonly build: ReadonlyMap<Option, Choice>;
    /** The numbers of the faults that it arrives with: none where it is healthy, two where two came at once. */
    readonly arrival: readonly number[];
    /** For each test, by its number, what is drawn where several outcomes are possible. */
    readonly draws: readonly number[];
    /** By test, the outcome that a scenario fixes: taken instead of the draw where it is among the possible ones. */
    readonly reads?: ReadonlyMap<number, number>;
}

/** Every world of a unit, one by one: each build that is made, healthy and with each fault that it has, with all draws. */
export function* worldsOf(unit: Unit): IterableIterator<World> {
    const sizes = drawSizes(unit);
    for (const build of buildsOf(unit.space)) {
        const complete = completeBuild(unit, build);
        const faults = unit.faults.filter(({ guard }) => exists(guard, complete));
        for (const arrival of [[], ...faults.map(({ number }) => [number])]) {
            for (const draws of drawsOf(sizes)) yield { build, arrival, draws };
        }
    }
}

/** Every build that is made: options in their order, choices in theirs. */
export function* buildsOf(space: BuildSpace): IterableIterator<ReadonlyMap<Option, Choice>> {
    for (const values of goOnChoosing(space, new Map())) {
        const build = new Map<Option, Choice>();
        for (const [option, value] of values) if (value !== 'absent') build.set(option, value);
        yield build;
    }
}

function* goOnChoosing(space: BuildSpace, values: Map<Option, Choice | 'absent'>): IterableIterator<PartialBuild> {
    if (!canBeMade(space, values)) return;
    const option = space.options[values.size];
    if (!option) {
        yield values;
        return;
    }
    for (const value of [...option.choices, ...(space.guards.has(option) ? (['absent'] as const) : [])]) {
        values.set(option, value);
        yield* goOnChoosing(space, values);
        values.delete(option);
    }
}

/** False where the choices so far are excluded, or give an option a choice that its guard forbids. */
function canBeMade(space: BuildSpace, values: PartialBuild): boolean {
    if (space.excluded.some(condition => evaluate(condition, values) === true)) return false;
    return [...space.guards].every(([option, guard]) => {
        const value = values.get(option);
        const isThere = evaluate(guard, values);
        return value === undefined || isThere === undefined || isThere === (value !== 'absent');
    });
}

function* drawsOf(sizes: readonly number[], draws: readonly number[] = []): IterableIterator<readonly number[]> {
    const size = sizes[draws.length];
    if (size === undefined) {
        yield draws;
        return;
    }
    for (let draw = 0; draw < size; draw++) yield* drawsOf(sizes, [...draws, draw]);
}

const completeBuilds = new WeakMap<
    ReadonlyMap<Option, Choice>,
    { readonly unit: Unit; readonly complete: PartialBuild }
>();

/**
 * The build with every option that it lacks said to be absent, so that every guard is decided in it. It is the same object
 * each time, so that what holds in it can be remembered with it.
 */
export function completeBuild(unit: Unit, build: ReadonlyMap<Option, Choice>): PartialBuild {
    const known = completeBuilds.get(build);
    if (known?.unit === unit) return known.complete;
    const complete: PartialBuild = new Map(unit.space.options.map(option => [option, build.get(option) ?? 'absent']));
    completeBuilds.set(build, { unit, complete });
    return complete;
}

/** Whether something with this guard exists in a complete build. */
export function exists(guard: InBuilds, build: PartialBuild): boolean {
    return guard === undefined || evaluate(guard, build) === true;
}
