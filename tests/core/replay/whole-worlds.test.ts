/** Whole worlds of ours, every unit that can come through their trees: what should be right is, and scenarios end as told. */
import { describe, expect, test } from 'vitest';
import { faultsNamed, testNamed, timeOf } from '../../../language/src/core/meaning/resolving.js';
import type { Scenario } from '../../../language/src/core/model/file.js';
import { arrives, type World, worldsOf } from '../../../language/src/core/replay/replay.js';
import { buildsOf } from '../../../language/src/core/replay/world.js';
import { readFolder } from '../../support/read-folder.js';
import { amissOn, goThrough, type Journey, journeyLine, journeysOf } from './every-world.js';
import { type Read, readUnit } from './replays.js';

const example = 'examples/dust-extractor';
const soundWorlds = [
    'examples/cold-room',
    'examples/ev-charger',
    ...[
        'common-practice',
        'gas-boiler',
        'hydraulic-press',
        'laboratory-centrifuge',
        'solar-inverter',
        'starting-circuit',
    ].map(name => `tests/worlds/${name}`),
];

const read = (folder: string): Read => readUnit(readFolder(folder));

describe.each([example, ...soundWorlds])('%s', folder => {
    const all = read(folder);

    test.each([...all.routes.keys()])(
        'leads every unit that comes to `%s` to a right end, with nothing amiss',
        name => {
            const route = all.routes.get(name);
            if (!route) throw new Error(`There is no tree ${name}.`);
            const journeys = [...journeysOf(all, route)];
            expect(journeys.length).toBeGreaterThan(0);
            expect(
                journeys.filter(journey => amissOn(journey).length > 0).map(journey => journeyLine(journey, all)),
            ).toEqual([]);
        },
    );
});

describe('the dust extractor', () => {
    const all = read(example);
    const linesOf = (journeys: Iterable<Journey>) => new Set([...journeys].map(journey => journeyLine(journey, all)));

    test('goes the same ways with every draw as with those that make a difference', () => {
        for (const route of all.routes.values()) {
            const worlds = [...worldsOf(all.unit)].filter(world => arrives(route, world));
            const every = worlds.flatMap(world => goThrough(all, route, world));
            expect(worlds.length).toBeGreaterThan(30);
            expect(linesOf(every)).toEqual(linesOf(journeysOf(all, route)));
        }
    });

    test('has no fault that comes to no tree', () => {
        const missed = new Set(all.unit.faults.map(({ name }) => name));
        for (const world of worldsOf(all.unit)) {
            const [fault] = world.arrival;
            const isSeen = [...all.routes.values()].some(route => arrives(route, world));
            if (fault !== undefined && isSeen) missed.delete(all.unit.faults[fault]?.name ?? '');
        }
        expect([...missed]).toEqual([]);
    });
});

describe.each([example, ...soundWorlds, 'tests/worlds/lift-door'])('the scenarios of %s', folder => {
    const all = read(folder);
    const scenarios = [...all.model.files.values()].flatMap(file => file.scenarios);

    test.each(scenarios.map(scenario => [scenario.title.value, scenario] as const))('%s', (_, scenario) => {
        const [expected] = scenario.expects;
        const { end, time } = play(all, scenario);
        expect(end).toBe(expected?.target.text);
        if (expected?.within) expect(time).toBeLessThanOrEqual(timeOf(expected.within));
    });
});

/** The end of a scenario and the time to it. */
function play(all: Read, scenario: Scenario): { end: string | undefined; time: number } {
    const tree = all.model.target(scenario.tree);
    const route = [...all.routes.values()].find(one => one.tree === tree);
    if (!route) throw new Error('The scenario has no tree.');
    const world = worldOf(all, scenario);
    expect(arrives(route, world)).toBe(true);
    const [journey] = goThrough(all, route, world);
    const last = journey?.runs.at(-1);
    const ending = last?.run.ending;
    const end = ending?.sort === 'end' ? last?.route.ends[ending.end]?.written.name.text : ending?.sort;
    return { end, time: journey?.runs.reduce((sum, { run }) => sum + run.time, 0) ?? 0 };
}

function worldOf({ unit, names, model }: Read, { build, faults, reads }: Scenario): World {
    const choices = build.map(({ choice, member }) => model.target(member ?? choice));
    const made = [...buildsOf(unit.space)].find(one =>
        choices.every(choice => [...one.values()].some(value => value === choice)),
    );
    if (!made) throw new Error('The scenario has no build.');
    const fixed = reads.flatMap(({ test: asked, outcome }): [number, number][] => {
        const number = testNamed(asked, names, {});
        return number === undefined ? [] : [[number, names.outcomeNumber(number, outcome.text)]];
    });
    return {
        build: made,
        arrival: faults.flatMap(fault => faultsNamed(fault, names, {})),
        draws: unit.tests.map(() => 0),
        reads: new Map(fixed),
    };
}
