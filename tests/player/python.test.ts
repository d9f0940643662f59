/** The player and the walker in Python on the examples: the same answers bring both to the same screens. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { replay, type World } from '../../language/src/core/replay/replay.js';
import { buildsOf, completeBuild, exists } from '../../language/src/core/replay/world.js';
import { listOf, type Session } from '../../language/src/player/session.js';
import { runVector, type Vector } from '../conformance/player-runner.js';
import { root } from '../house/project.mjs';
import { randomFrom } from '../property/random.js';
import { worlds } from '../property/samples.js';
import { choicesOf, walkAs, type Walked, walkedTrees } from './walks.js';

const folder = mkdtempSync(join(tmpdir(), 'halfsplit-walks-'));

test('they agree, stop by stop', { timeout: 120_000 }, () => {
    try {
        let count = 0;
        for (const { texts, folder: world } of worlds) {
            for (const walked of walkedTrees(texts, world)) {
                const name = `${count}.document`;
                writeFileSync(join(folder, name), JSON.stringify(walked.document));
                for (const vector of vectorsOf(walked)) {
                    const screens = runVector(vector);
                    const walk = vector.walk.map((stop, index) => ({ ...stop, screen: screens[index] ?? '' }));
                    writeFileSync(join(folder, `${count}.json`), JSON.stringify({ ...vector, document: name, walk }));
                    count += 1;
                }
            }
        }
        const { stdout, stderr } = spawnSync('python3', ['-B', join(root, 'tests/conformance/runner.py'), folder], {
            encoding: 'utf8',
        });
        expect(`${stdout}${stderr}`).toBe(`${count} right, 0 wrong\n`);
        expect(count).toBeGreaterThan(50);
    } finally {
        rmSync(folder, { recursive: true });
    }
});

/** A few worlds of a tree, with what was answered in each. */
function* vectorsOf({ document, tree, route }: Walked): IterableIterator<Vector> {
    const random = randomFrom(20_260_131);
    const { unit } = route;
    let count = 0;
    for (const build of buildsOf(unit.space)) {
        if (count >= 8) return;
        const complete = completeBuild(unit, build);
        const faults = unit.faults.filter(({ guard }) => exists(guard, complete));
        const arrival = [random.pick(faults).number];
        const world: World = { build, arrival, draws: unit.tests.map(() => random.between(0, 3)) };
        const [run] = replay(route, world, { mostRuns: 1 });
        if (!run || run.ending.sort === 'cut') continue;
        count += 1;
        const answers = answersIn(walkAs(tree, route, run, world, true));
        yield {
            about: '',
            build: [...choicesOf(world).values()],
            document,
            walk: [
                { screen: '' },
                ...answers.map(answer => ({ answer, screen: '' })),
                { finish: 'still there', screen: '' },
            ],
        };
    }
}

function answersIn({ events }: Session) {
    return listOf(events).flatMap(event => (event.event === 'answer' ? [event.answer] : []));
}
