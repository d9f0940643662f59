/**
 * Measures the rules that ask the walk, on invented trees: as ratios within one run, with the times for information.
 * Use: npm run bench -- walk [--rounds 5]
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildSync } from 'esbuild';
import { root } from '../house/project.mjs';
import { benchFolder, showTable } from './measure.mjs';

const { values } = parseArgs({ options: { rounds: { type: 'string', default: '5' } } });
const measured = run(bundle());
const ms = time => `${time.toFixed(0)} ms`;
const ratio = (one, other) => (one / other).toFixed(2);
const largest = measured.growth.at(-1);
const steps = largest.steps / 500;
const byHand = steps * (Math.log(largest.steps) / Math.log(500));

showTable([
    ['what', 'time', 'compared with', 'ratio', 'wanted'],
    [
        '500 steps, 40 options, 200 faults',
        ms(measured.many),
        'the same with 5 options',
        ratio(measured.many, measured.few),
        'at most 4',
    ],
    [
        'the same without the safety rules',
        ms(measured.quick),
        'with them',
        ratio(measured.many, measured.quick),
        'at most 2',
    ],
    ...measured.growth.map(({ steps: count, time }) => [
        `${count} steps`,
        ms(time),
        '500 steps',
        ratio(time, measured.many),
        count === largest.steps ? `at most ${byHand.toFixed(1)} (n log n)` : '',
    ]),
    [
        'one world after the other, 5 options',
        ms(measured.enumeration.replayed),
        'the walk',
        ratio(measured.enumeration.replayed, measured.enumeration.walk),
        '',
    ],
    ['10,000 steps, 60 options, guards near', ms(measured.near), '', '', 'at most 100 ms'],
    ['10,000 steps, 60 options, any guards', ms(measured.any), '', '', 'at most 3000 ms'],
    ['one edited step of 500', ms(measured.edit), 'all of it', ratio(measured.edit, measured.many), 'under 100 ms'],
]);

/** The measuring program as one file. */
function bundle() {
    const file = join(benchFolder, 'walk-work.mjs');
    buildSync({
        entryPoints: [join(root, 'tests/perf/walk-work.ts')],
        bundle: true,
        platform: 'node',
        format: 'esm',
        outfile: file,
        logLevel: 'error',
        // Some libraries are still loaded with `require`.
        banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    });
    return file;
}

/** @param {string} file */
function run(file) {
    const { status, stdout, stderr } = spawnSync(process.execPath, [file, values.rounds], { encoding: 'utf8' });
    if (status !== 0) throw new Error(`The measuring of the walk ended with status ${status}:\n${stderr}`);
    return JSON.parse(stdout);
}
