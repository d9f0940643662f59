/** Who is still possible after some answers, held against the plain replay of every unit that comes with the complaint. */
import { describe, expect, test } from 'vitest';
import { answersAt, type Position, takeAnswer } from '../../../language/src/core/walk/go-through.js';
import { begin, possible } from '../../support/go-through.js';
import { readFolder } from '../../support/read-folder.js';
import { journeysOf } from '../replay/every-world.js';
import { type Read, readUnit } from '../replay/replays.js';

/** What a replayed unit is, and what it answers on its way. */
interface Told {
    readonly build: ReadonlySet<string>;
    readonly arrival: string;
    readonly answers: readonly string[];
}

/** Every way of every unit that comes with the complaint of a tree. */
function replayed(all: Read, tree: string): Told[] {
    const route = all.routes.get(tree);
    if (!route) throw new Error(`There is no tree ${tree}.`);
    return [...journeysOf(all, route)].map(({ world, runs }) => ({
        build: new Set([...world.build].map(([option, choice]) => `${option.name.text}.${choice.name.text}`)),
        arrival: world.arrival.map(number => all.unit.faults[number]?.name ?? '').join() || 'healthy',
        answers: runs.flatMap(({ run }) =>
            run.visits.flatMap(({ steps }) =>
                steps.flatMap(step =>
                    step.sort === 'asked' ? [all.unit.tests[step.test]?.outcomes[step.outcome] ?? ''] : [],
                ),
            ),
        ),
    }));
}

/** Takes every answer that somebody gives, so deep, and tells where another set of units is possible than is replayed. */
function differences(start: Position, all: readonly Told[], deepest: number): { positions: number; found: string[] } {
    const found: string[] = [];
    let positions = 0;
    const open: { position: Position; left: readonly Told[]; path: readonly string[]; asked: number }[] = [
        { position: start, left: all, path: [], asked: 0 },
    ];
    for (let one = open.pop(); one; one = open.pop()) {
        const { position, left, path, asked } = one;
        positions += 1;
        const expected = [...new Set(left.map(({ arrival }) => arrival))].sort();
        const actual = possible(position);
        if (actual.join() !== expected.join()) {
            found.push(`${path.join(', ')}: ${actual.join()} instead of ${expected.join()}`);
        }
        if (path.length >= deepest) continue;
        for (const answer of answersAt(position)) {
            if (!answer.isShown || answer.isDetour) continue;
            const next = { position: takeAnswer(position, answer), path: [...path, answer.name], left, asked };
            if (answer.sort === 'outcome') {
                const fitting = left.filter(({ answers }) => answers[asked] === answer.name);
                open.push({ ...next, left: fitting, asked: asked + 1 });
            } else if (answer.sort === 'choice') {
                const { option, choice } = answer.made;
                const name = `${option.name.text}.${choice?.name.text ?? ''}`;
                open.push({ ...next, left: left.filter(({ build }) => build.has(name)) });
            }
        }
    }
    return { positions, found };
}

const worlds = [
    'examples/cold-room',
    'examples/dust-extractor',
    'examples/ev-charger',
    ...[
        'common-practice',
        'gas-boiler',
        'hydraulic-press',
        'laboratory-centrifuge',
        'lift-door',
        'solar-inverter',
        'starting-circuit',
    ].map(name => `tests/worlds/${name}`),
];

describe.each(worlds)('%s', folder => {
    const texts = readFolder(folder);
    const all = readUnit(texts);

    test.each([...all.routes.keys()])('in `%s` the same units are possible after every answer', tree => {
        const { start } = begin(texts, tree);
        const { positions, found } = differences(start, replayed(all, tree), 14);
        expect(found).toEqual([]);
        expect(positions).toBeGreaterThan(1);
    });
});
