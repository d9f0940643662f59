/** The same files give the same documents, byte by byte: in any order, in any process, and with any line ends. */
import { build } from 'esbuild';
import fc from 'fast-check';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { TreeDocument } from '../../language/src/document/types.js';
import { root } from '../house/project.mjs';
import { expectSame } from './differences.js';
import { exportAll, writeAll } from './export-trees.js';
import { anyOrder, type GivenFile } from './orders.js';
import { runs } from './runs.js';
import { spread, type World, worlds } from './samples.js';

const ordersOfEach = 12;
const minutes = 60_000;

test('there are trees to export', async () => {
    const trees = await Promise.all(worlds.map(async world => (await exportAll(filesOf(world))).length));
    expect(Math.min(...trees)).toBeGreaterThan(0);
    expect(trees.reduce((sum, count) => sum + count, 0)).toBeGreaterThan(8);
});

describe.each([...worlds, ...worlds.map(spread)])('$folder', world => {
    const files = filesOf(world);

    test('gives the same documents each time', async () => {
        expectSame(await exportAll(files), await exportAll(files));
    });

    test('gives the same documents whatever the order of the files', { timeout: 2 * minutes }, async () => {
        const expected = await exportAll(files);
        await fc.assert(
            fc.asyncProperty(anyOrder(files), async order => {
                expectSame(expected, await exportAll(order));
            }),
            runs(ordersOfEach),
        );
    });

    test('means the same with other line ends and with a byte order mark', async () => {
        const expected = withoutDigests(await writeAll(files));
        const changed = (change: (text: string) => string): GivenFile[] =>
            files.map(([file, text]) => [file, file.endsWith('.fault') ? change(text) : text]);
        const returns = await writeAll(changed(text => text.replaceAll('\n', '\r\n')));
        const marked = await writeAll(changed(text => `\uFEFF${text}`));
        expectSame(expected, withoutDigests(returns));
        expectSame(expected, withoutDigests(marked));
        expect([...returns.values()], 'the digests are those of the bytes').not.toEqual([
            ...(await writeAll(files)).values(),
        ]);
    });
});

test(
    'another process gives the same documents, in another language, time zone and order',
    { timeout: 2 * minutes },
    async () => {
        const all = worlds.map(filesOf);
        const program = await bundleExport();
        const given = all.map(files => files.toReversed());
        const environment = { TZ: 'Asia/Kathmandu', LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8' };
        const { status, stdout, stderr } = spawnSync(process.execPath, ['--hash-seed=4711', program], {
            input: JSON.stringify(given),
            encoding: 'utf8',
            env: { ...process.env, ...environment },
            maxBuffer: 256 * 1024 * 1024,
            timeout: minutes,
        });
        expect(stderr).toBe('');
        expect(status).toBe(0);
        expectSame(await Promise.all(all.map(exportAll)), JSON.parse(stdout));
    },
);

function filesOf({ texts }: World): readonly GivenFile[] {
    return Object.entries(texts);
}

/** The documents without the digests of the sources, which tell the bytes and not the meaning. */
function withoutDigests(documents: ReadonlyMap<string, TreeDocument>): unknown {
    return [...documents].map(([tree, document]) => {
        const { verification } = document;
        const sources = verification.sources.map(({ path }) => path);
        return [tree, { ...document, verification: { ...verification, sources } }];
    });
}

/** Bundles a program that exports the workspaces that it is given on its input, and gives the path of it. */
async function bundleExport(): Promise<string> {
    const folder = mkdtempSync(join(tmpdir(), 'halfsplit-export-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const outfile = join(folder, 'export.cjs');
    await build({
        stdin: { contents: program, resolveDir: join(root, 'tests/property'), loader: 'ts' },
        absWorkingDir: root,
        outfile,
        bundle: true,
        platform: 'node',
        target: 'node20',
        format: 'cjs',
        keepNames: true,
        conditions: ['halfsplit-source', 'module'],
        mainFields: ['module', 'main'],
        logLevel: 'warning',
    });
    return outfile;
}

const program = `
    import { readFileSync } from 'node:fs';
    import { exportAll } from './export-trees.js';
    Promise.all(JSON.parse(readFileSync(0, 'utf8')).map(exportAll)).then(all => {
        process.stdout.write(JSON.stringify(all));
    });
`;
