/** The workspaces that speed is measured on are honest, and the benchmarks work. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../house/project.mjs';
import { findingsOf } from '../support/read-texts.js';
import { generateWorkspace, type GeneratedFile } from './generate-workspace.js';

describe('a generated workspace', () => {
    test('has no findings, however it is divided among files', { timeout: 60_000 }, () => {
        for (const files of [1, 3, 7]) {
            const workspace = generateWorkspace({ lines: 6000, files });
            const texts = new Map(workspace.map(({ path, text }) => [path, text]));
            expect(texts.size).toBe(files);
            expect(findingsOf(Object.fromEntries(texts))).toEqual([]);
        }
    });

    test('has the same lines in few files as in many, but for what they use', () => {
        const own = (files: readonly GeneratedFile[]): readonly string[] =>
            files.flatMap(({ text }) => text.split('\n').filter(line => line !== '' && !line.startsWith('uses ')));
        const lines = own(generateWorkspace({ lines: 6000, files: 7 }));
        expect(own(generateWorkspace({ lines: 6000, files: 2 }))).toEqual(lines);
        expect(lines.length).toBeGreaterThan(5000);
    });

    test('is the same every time', () => {
        const size = { lines: 3000, files: 4 };
        expect(generateWorkspace(size)).toEqual(generateWorkspace(size));
    });
});

test('the benchmark of a check reports ratios and memory', { timeout: 120_000 }, () => {
    expect(runBench('check', '--lines', '300', '--rounds', '1')).toMatch(
        /^\d+ lines in \d+ files +\d+ ms +\d+ ms +\d+\.\d\d +\d+ MB$/m,
    );
});

test('the benchmark of the start reports ratios and memory', { timeout: 120_000 }, () => {
    expect(runBench('start', '--rounds', '1')).toMatch(/^halfsplit --version +\d+ ms +\d+\.\d\d +2 +\d+ MB$/m);
});

test('the benchmark of the walk reports ratios', { timeout: 240_000 }, () => {
    const table = runBench('walk', '--rounds', '1');
    expect(table).toMatch(
        /^500 steps, 40 options, 200 faults +\d+ ms +the same with 5 options +\d+\.\d\d +at most 4$/m,
    );
    expect(table).toMatch(/^one edited step of 500 +\d+ ms +all of it +\d+\.\d\d +under 100 ms$/m);
});

function runBench(name: string, ...options: readonly string[]): string {
    const words = [join(root, 'tests/house/bench.mjs'), name, ...options];
    const { status, stdout, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    return stdout;
}
