/**
 * Measures the rules about readings on invented files with many measured tests, against a bare parse of the same files in the
 * same process. Use: npm run bench -- readings [--tests 10000] [--rounds 3]
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildSync } from 'esbuild';
import { root } from '../house/project.mjs';
import { benchFolder, median, showTable } from './measure.mjs';

const { values } = parseArgs({
    options: { tests: { type: 'string', default: '10000' }, rounds: { type: 'string', default: '3' } },
});
const outfile = join(benchFolder, 'readings-work.mjs');
buildSync({
    absWorkingDir: root,
    entryPoints: ['tests/perf/readings-work.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    conditions: ['halfsplit-source', 'module'],
    logLevel: 'error',
    // Some libraries are still loaded with `require`.
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
});
const printed = Array.from({ length: Number(values.rounds) }, () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [outfile, values.tests, '10'], { encoding: 'utf8' });
    if (status !== 0) throw new Error(`Measuring ended with status ${status}:\n${stderr}`);
    return JSON.parse(stdout);
});
const parse = median(printed.map(line => line.parse));
const rules = median(printed.map(line => line.rules));
showTable([
    ['tests', 'rules about readings', 'bare parse', 'ratio', 'wanted'],
    [
        values.tests,
        `${rules.toFixed(0)} ms`,
        `${parse.toFixed(0)} ms`,
        median(printed.map(line => line.rules / line.parse)).toFixed(2),
        'under 0.20',
    ],
]);
