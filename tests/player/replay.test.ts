/** The player against the replay of the verifier: whoever answers as a world shows comes to the same end, in the same state. */
import { describe, expect, test } from 'vitest';
import type { Route } from '../../language/src/core/meaning/route.js';
import { replay, type Run, type World } from '../../language/src/core/replay/replay.js';
import { buildsOf, completeBuild, exists } from '../../language/src/core/replay/world.js';
import type { Session } from '../../language/src/player/index.js';
import { randomFrom } from '../property/random.js';
import { worlds } from '../property/samples.js';
import { placeOf, walkAs, walkedTrees } from './walks.js';

const seed = Number(process.env['PROPERTY_SEED'] ?? 20_260_131);
const mostBuilds = 12;
const mostRuns = 4;

describe.each(worlds)('$folder', ({ folder, texts }) => {
    const trees = walkedTrees(texts, folder);

    test.each(trees)('$name: ends as the replay does', ({ tree, route }) => {
        let compared = 0;
        for (const world of someWorlds(route)) {
            for (const run of replay(route, world, { mostRuns }).filter(({ ending }) => ending.sort !== 'cut')) {
                const isBuildKnown = compared % 2 === 0;
                const at = walkAs(tree, route, run, world, isBuildKnown);
                expect(placeOf(at), describeWorld(world, route)).toBe(endingOf(run, route, at));
                if (run.ending.sort !== 'loop') expect(stateOf(at, route, world)).toEqual(stateOfRun(run, route));
                compared += 1;
            }
        }
        expect(compared).toBeGreaterThan(10);
    });
});

/** Builds that are drawn, each with every fault and as a healthy unit. */
function* someWorlds({ unit }: Route): IterableIterator<World> {
    const random = randomFrom(seed);
    const builds: (ReturnType<typeof buildsOf> extends IterableIterator<infer Build> ? Build : never)[] = [];
    let seen = 0;
    for (const build of buildsOf(unit.space)) {
        seen += 1;
        if (seen > 2000) break;
        if (builds.length < mostBuilds) builds.push(build);
        else if (random.chance(mostBuilds / seen)) builds[random.between(0, mostBuilds - 1)] = build;
    }
    for (const build of builds) {
        const complete = completeBuild(unit, build);
        const faults = unit.faults.filter(({ guard }) => exists(guard, complete));
        for (const arrival of [[], ...faults.map(({ number }) => [number])]) {
            yield { build, arrival, draws: unit.tests.map(() => random.between(0, 5)) };
        }
    }
}

function endingOf({ ending }: Run, route: Route, at: Session): string {
    switch (ending.sort) {
        case 'end':
            return `end ${route.ends[ending.end]?.written.name.text ?? ''}`;
        case 'handed over':
            return `tree ${ending.tree.name.text}`;
        case 'loop':
            // The replay stops where it has been before; the player stands there.
            return placeOf(at).startsWith('step ') ? placeOf(at) : 'a step';
        default:
            return 'stuck';
    }
}

function stateOf({ state }: Session, { unit }: Route, { build }: World): unknown {
    const complete = completeBuild(unit, build);
    return {
        conditions: unit.conditions.map(({ declaration, guard }) =>
            exists(guard, complete)
                ? (state.conditions.get(declaration.name.text) ?? declaration.values[0]?.name.text)
                : undefined,
        ),
        closed: [...state.closed].sort(),
        readings: [...state.readings.keys()]
            .filter(name => unit.tests.some(one => one.name === name && one.noted))
            .sort(),
    };
}

/** Readings that something has spoilt count as taken here: a verified tree takes them again before they are used. */
function stateOfRun({ state }: Run, { unit }: Route): unknown {
    return {
        conditions: state.conditions.map(
            (value, condition) => unit.conditions[condition]?.declaration.values[value]?.name.text,
        ),
        closed: [...state.closed].map(gate => unit.gates[gate]?.declaration.name.text).sort(),
        readings: [...state.readings.keys()].map(number => unit.tests[number]?.name).sort(),
    };
}

function describeWorld({ build, arrival }: World, { unit }: Route): string {
    const choices = [...build.values()].map(({ name }) => name.text).join(', ');
    return `${choices}: ${arrival.map(fault => unit.faults[fault]?.name ?? '').join(' and ') || 'healthy'}`;
}
