/** Whatever is done to a file, every world of it can be replayed, in good time, and comes to some ending. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { linkWorkspace } from '../../../language/src/core/linking/workspace-links.js';
import { makeRoute } from '../../../language/src/core/meaning/make-route.js';
import { resolveUnit } from '../../../language/src/core/meaning/resolve-unit.js';
import type { Route } from '../../../language/src/core/meaning/route.js';
import type { Model } from '../../../language/src/core/model/model.js';
import { replay, type Run, type World } from '../../../language/src/core/replay/replay.js';
import { stateOnArrival } from '../../../language/src/core/replay/arrival.js';
import { buildsOf } from '../../../language/src/core/replay/world.js';
import { readSource } from '../../../language/src/workspace/read-workspace.js';
import { damaged } from '../../property/damage.js';
import { runs } from '../../property/runs.js';
import { type Sample, samples, sourcesOf } from '../../property/samples.js';

const cases = 120;
const mostMilliseconds = 5000;

/** How many builds of a damaged equipment are looked at. */
const mostBuilds = 2;

test('a damaged world is replayed', { timeout: 180_000 }, () => {
    let replayed = 0;
    fc.assert(
        fc.property(damaged(samples), ({ sample, text }) => {
            const started = performance.now();
            for (const route of routesOf(linked(sample, text))) {
                for (const world of someWorlds(route)) {
                    // Those who do not come with the complaint are handed over, so that every world is gone through.
                    const start = stateOnArrival(route.unit, world);
                    for (const run of replay(route, world, { start })) {
                        checkRun(run, route);
                        replayed += 1;
                    }
                }
            }
            expect(performance.now() - started).toBeLessThan(mostMilliseconds);
        }),
        runs(cases),
    );
    expect(replayed).toBeGreaterThan(10 * cases);
});

function linked({ world, file }: Sample, text: string): Model {
    const texts = { ...world.texts, [file]: text };
    const models = sourcesOf(texts).map(([name, source]) => [name, readSource(name, source).model] as const);
    return linkWorkspace(new Map(models), path => (path in texts ? 'present' : 'missing'));
}

function routesOf(model: Model): Route[] {
    const files = [...model.files.values()];
    return files
        .flatMap(({ equipment }) => equipment)
        .flatMap(equipment => {
            const { unit, names } = resolveUnit(equipment, model);
            const trees = files.flatMap(file => file.trees).filter(tree => model.target(tree.equipment) === equipment);
            return trees.map(tree => makeRoute(tree, unit, names));
        });
}

function* someWorlds({ unit }: Route): IterableIterator<World> {
    let count = 0;
    for (const build of buildsOf(unit.space)) {
        if ((count += 1) > mostBuilds) return;
        for (const arrival of [[], ...unit.faults.map(({ number }) => [number])]) {
            yield { build, arrival, draws: unit.tests.map(() => count) };
        }
    }
}

function checkRun({ visits, ending, time }: Run, route: Route): void {
    expect(Number.isSafeInteger(time)).toBe(true);
    expect(visits.every(({ station }) => route.stations[station] !== undefined)).toBe(true);
    if (ending.sort === 'end') expect(route.ends[ending.end]).toBeDefined();
}
