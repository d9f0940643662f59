/**
 * Compares the time of `halfsplit check` with that of a bare parse of the same files, and measures its memory.
 * Use: npm run bench -- check [--lines 100000] [--rounds 5]
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { build, buildSync } from 'esbuild';
import { root, runNode } from '../house/project.mjs';
import { benchFolder, measureInTurn, showTable, writeWorkspace } from './measure.mjs';

const { values } = parseArgs({
    options: { lines: { type: 'string', default: '100000' }, rounds: { type: 'string', default: '5' } },
});
const lines = Number(values.lines);
if (runNode('tests/house/build.mjs', ['cli']) !== 0) {
    process.exit(1);
}
const { generateWorkspace } = await loadGenerator();
const bareParse = await bundleBareParse();
const command = join(root, 'cli/bin/halfsplit.cjs');

const rows = [['workspace', 'bare parse', 'check', 'ratio (at most 1.4)', 'memory (at most 280 MB)']];
for (const files of [100, 10]) {
    const workspace = generateWorkspace({ lines, files });
    const folder = writeWorkspace(`workspace-${files}`, workspace);
    const [bare, check] = measureInTurn(
        [
            { name: 'the bare parse', words: [bareParse, folder] },
            { name: 'the check', words: [command, 'check', folder] },
        ],
        Number(values.rounds),
    );
    const count = workspace.reduce((sum, { text }) => sum + text.split('\n').length - 1, 0);
    rows.push([
        `${count} lines in ${workspace.length} files`,
        `${bare.milliseconds.toFixed(0)} ms`,
        `${check.milliseconds.toFixed(0)} ms`,
        (check.milliseconds / bare.milliseconds).toFixed(2),
        `${check.megabytes.toFixed(0)} MB`,
    ]);
}
showTable(rows);

/** Not every Node that runs this reads TypeScript. */
async function loadGenerator() {
    const { outputFiles } = buildSync({
        entryPoints: [join(root, 'tests/perf/generate-workspace.ts')],
        bundle: true,
        write: false,
        format: 'esm',
    });
    const text = outputFiles[0]?.text ?? '';
    return import(`data:text/javascript;base64,${Buffer.from(text).toString('base64')}`);
}

/** Bundles and starts it as the command line is bundled and started, so that only the work is compared. */
async function bundleBareParse() {
    const bundle = join(benchFolder, 'bare-parse.cjs');
    await build({
        absWorkingDir: root,
        entryPoints: ['tests/perf/bare-parse.ts'],
        outfile: bundle,
        bundle: true,
        minify: true,
        platform: 'node',
        target: 'node20',
        format: 'cjs',
        conditions: ['halfsplit-source', 'module'],
        mainFields: ['module', 'main'],
        inject: ['language/src/object-group-by.ts'],
        logLevel: 'warning',
    });
    const start = join(benchFolder, 'start-bare-parse.cjs');
    writeFileSync(start, `require('node:module').enableCompileCache?.();\nrequire('./bare-parse.cjs');\n`);
    return start;
}
