/** The conformance vectors: that they are what the cases say, and that two walkers pass them: the player, and one in Python. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { schemaErrors } from '../document/support.js';
import { root } from '../house/project.mjs';
import { walkedTrees } from '../player/walks.js';
import { type Case, conformanceCases, type Stop } from './cases.js';
import { runVector, type Vector } from './player-runner.js';

const folder = join(root, 'tests/conformance/vectors');

function vectorOf({ about, text, build, first, stops, change }: Case): Vector {
    const [walked] = walkedTrees({ 'lamp.fault': text });
    if (!walked) throw new Error('The text has a tree.');
    expect(schemaErrors(walked.document)).toEqual([]);
    const copy = JSON.parse(JSON.stringify(walked.document)) as Record<string, unknown>;
    const walk = stops.map(([given, screen]: Stop) =>
        typeof given === 'object' && !('reading' in given) ? { ...given, screen } : { answer: given, screen },
    );
    return { about, build, document: change ? change(copy) : copy, walk: [{ screen: first }, ...walk] };
}

describe('the vectors on disk', () => {
    test.each(conformanceCases)('$name', async one => {
        await expect(`${JSON.stringify(vectorOf(one), null, 1)}\n`).toMatchFileSnapshot(`vectors/${one.name}.json`);
    });

    test('there is one for each case, and no other', () => {
        expect(new Set(conformanceCases.map(({ name }) => name)).size).toBe(conformanceCases.length);
        expect(conformanceCases.length).toBeGreaterThanOrEqual(60);
        expect(readdirSync(folder).sort()).toEqual(conformanceCases.map(({ name }) => `${name}.json`).sort());
    });
});

test.each(conformanceCases.map(({ name }) => name))('the player passes %s', name => {
    const vector = JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as Vector;
    expect(runVector(vector)).toEqual(vector.walk.map(({ screen }) => screen));
});

test('the walker in Python passes them all', () => {
    const { status, stdout, stderr } = spawnSync('python3', ['-B', join(root, 'tests/conformance/runner.py'), folder], {
        encoding: 'utf8',
    });
    expect(`${stdout}${stderr}`).toBe(`${conformanceCases.length} right, 0 wrong\n`);
    expect(status).toBe(0);
});

test('the walker in Python tells what goes wrong', () => {
    const script = [
        'import runner, json, pathlib',
        `folder = pathlib.Path(${JSON.stringify(folder)})`,
        "vector = json.loads((folder / 'test-normal.json').read_text())",
        "vector['walk'][1]['screen'] = 'refer ask'",
        'print(runner.run(vector, folder))',
    ].join('\n');
    const { stdout } = spawnSync('python3', ['-B', '-c', script], {
        encoding: 'utf8',
        cwd: join(root, 'tests/conformance'),
    });
    expect(stdout).toBe("stop 1: 'refer fine' in place of 'refer ask'\n");
});
