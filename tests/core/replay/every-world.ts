/** Runs every world of a unit through its trees, with only those draws that make a difference, and says what is amiss. */
import type { Tree } from '../../../language/src/core/model/trees.js';
import { drawSizes } from '../../../language/src/core/meaning/draws.js';
import type { Route } from '../../../language/src/core/meaning/route.js';
import type { State } from '../../../language/src/core/replay/state.js';
import { replay, type Run, type World } from '../../../language/src/core/replay/replay.js';
import { buildsOf, completeBuild, exists } from '../../../language/src/core/replay/world.js';
import { lineOf, type Read } from './replays.js';

/** One way of one world through a tree, and through those that it was handed over to. */
export interface Journey {
    readonly world: World;
    readonly runs: readonly { readonly route: Route; readonly run: Run }[];
}

/** All journeys that begin at a tree. */
export function* journeysOf(all: Read, route: Route): IterableIterator<Journey> {
    const { unit } = all;
    const sizes = drawSizes(unit);
    const complaints = new Set(route.complaints.map(({ test }) => test));
    for (const build of buildsOf(unit.space)) {
        const complete = completeBuild(unit, build);
        const faults = unit.faults.filter(({ guard }) => exists(guard, complete));
        for (const arrival of [[], ...faults.map(({ number }) => [number])]) {
            const asked = [...complaints].filter(test => (sizes[test] ?? 1) > 1 && arrival.length > 0);
            yield* withDraws(all, route, { build, arrival, draws: unit.tests.map(() => 0) }, new Set(), asked, sizes);
        }
    }
}

/** Tries all draws of the tests that are asked, one after the other; `drawn` are done. */
function* withDraws(
    all: Read,
    route: Route,
    world: World,
    drawn: ReadonlySet<number>,
    complaints: readonly number[],
    sizes: readonly number[],
): IterableIterator<Journey> {
    const journeys = complaints.every(test => drawn.has(test)) ? goThrough(all, route, world) : [];
    const next = complaints.find(test => !drawn.has(test)) ?? openTest(journeys, drawn, sizes);
    if (next === undefined) {
        yield* journeys;
        return;
    }
    for (let draw = 0; draw < (sizes[next] ?? 1); draw++) {
        const draws = world.draws.map((other, test) => (test === next ? draw : other));
        yield* withDraws(all, route, { ...world, draws }, new Set([...drawn, next]), complaints, sizes);
    }
}

/** The first test whose draw has decided something and has not been tried otherwise. */
function openTest(
    journeys: readonly Journey[],
    drawn: ReadonlySet<number>,
    sizes: readonly number[],
): number | undefined {
    for (const { runs } of journeys) {
        for (const step of runs.flatMap(({ run }) => run.visits.flatMap(({ steps }) => steps))) {
            const isOpen = step.sort === 'asked' && step.opts.length > 1 && (sizes[step.test] ?? 1) > 1;
            if (isOpen && !drawn.has(step.test)) return step.test;
        }
    }
    return undefined;
}

/** All ways of one world, over every `continue with`. */
export function goThrough(
    all: Read,
    route: Route,
    world: World,
    start?: State,
    before: Journey['runs'] = [],
): Journey[] {
    return replay(route, world, start ? { start } : {}).flatMap(run => {
        const runs = [...before, { route, run }];
        const { ending } = run;
        const other = ending.sort === 'handed over' ? routeTo(all, ending.tree) : undefined;
        if (ending.sort !== 'handed over' || !other || runs.length > 10) return [{ world, runs }];
        return goThrough(all, other, world, ending.state, runs);
    });
}

function routeTo({ routes }: Read, tree: Tree): Route | undefined {
    return [...routes.values()].find(route => route.tree === tree);
}

/** What is amiss on a journey: how it ends, and what was asked where it could not be. Empty where nothing is. */
export function amissOn({ runs }: Journey): string[] {
    const found: string[] = [];
    for (const { route, run } of runs) {
        for (const { station, steps } of run.visits) {
            for (const step of steps) {
                if (step.sort === 'needs' || step.sort === 'no energy' || step.sort === 'nothing said') {
                    const test = route.unit.tests[step.test]?.name ?? '';
                    found.push(`${step.sort}: ${test} at ${route.stations[station]?.step.name.text ?? ''}`);
                }
            }
        }
    }
    const last = runs.at(-1);
    const ending = last?.run.ending;
    if (last && ending && !(ending.sort === 'end' && ending.right)) {
        found.push(ending.sort === 'end' ? `wrong end` : ending.sort);
    }
    return found;
}

/** A journey as one line, with its build and fault before it. */
export function journeyLine({ world, runs }: Journey, all: Read): string {
    const build = [...world.build.values()].map(({ name }) => name.text).join(', ');
    const fault = world.arrival.map(number => all.unit.faults[number]?.name ?? '').join(' and ') || 'healthy';
    return `${build === '' ? '' : `${build}: `}${fault}: ${runs.map(({ run, route }) => lineOf(run, route)).join(' | ')}`;
}
