/**
 * Measures the rules that ask the walk, on invented trees: as ratios within one run, with the times for information.
 * Each case is measured in processes of its own, which take turns; what is shown are medians.
 * Use: npm run bench -- walk [--rounds 3]
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildSync } from 'esbuild';
import { root } from '../house/project.mjs';
import { benchFolder, median, showTable } from './measure.mjs';

const { values } = parseArgs({ options: { rounds: { type: 'string', default: '3' } } });
const file = bundle();
const growth = [1000, 2500, 5000];
const measured = measureInTurn(
    {
        many: ['tree', '500', '40', 'all'],
        few: ['tree', '500', '5', 'all'],
        quick: ['tree', '500', '40', 'diagnosis'],
        ...Object.fromEntries(growth.map(steps => [steps, ['tree', String(steps), '40', 'all']])),
        near: ['options', 'near', '10000'],
        any: ['options', 'any', '10000'],
        edit: ['edit'],
        worlds: ['worlds'],
    },
    Number(values.rounds),
);
const { many, few, quick, near, any, edit, worlds } = measured;
const most = Math.max(...growth);
const byHand = (most * Math.log(most)) / (500 * Math.log(500));

showTable([
    ['what', 'time', 'compared with', 'ratio', 'wanted'],
    row('500 steps, 40 options, 200 faults', many.later, 'the same with 5 options', few.later, 'at most 4'),
    row('the same', many.later, `a fixed loop, ${ms(many.loop)}`, many.loop, ''),
    row('the same without the safety rules', quick.later, 'with them', many.later, ''),
    row('the same in a new process', many.first, 'later ones', many.later, ''),
    ...growth.map(steps =>
        row(
            `${steps} steps`,
            measured[steps].later,
            '500 steps',
            many.later,
            steps === most ? `at most ${byHand.toFixed(1)} (n log n)` : '',
        ),
    ),
    row(
        `${worlds.worlds} worlds one by one, 5 options`,
        worlds.later,
        `one walk of them all, ${ms(worlds.walk)}`,
        worlds.walk,
        '',
    ),
    row(
        '10,000 steps, 60 options, guards near',
        near.later,
        `${near.heldAs}, a fixed loop`,
        near.loop,
        'at most 100 ms',
    ),
    row('10,000 steps, 60 options, any guards', any.later, `${any.heldAs}, a fixed loop`, any.loop, 'at most 3000 ms'),
    row('one edited step of 500', edit.later, 'all of it', many.later, 'under 100 ms'),
]);

/**
 * @param {string} what
 * @param {number} time
 * @param {string} other
 * @param {number} otherTime
 * @param {string} wanted
 */
function row(what, time, other, otherTime, wanted) {
    return [what, ms(time), other, (time / otherTime).toFixed(2), wanted];
}

/** @param {number} time */
function ms(time) {
    return `${time.toFixed(0)} ms`;
}

/** The measuring program as one file. */
function bundle() {
    const outfile = join(benchFolder, 'walk-work.mjs');
    buildSync({
        entryPoints: [join(root, 'tests/perf/walk-work.ts')],
        bundle: true,
        platform: 'node',
        format: 'esm',
        outfile,
        logLevel: 'error',
        // Some libraries are still loaded with `require`.
        banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    });
    return outfile;
}

/**
 * @param {Readonly<Record<string, readonly string[]>>} cases what each is called here, and the words that say it
 * @param {number} rounds
 * @returns {Readonly<Record<string, any>>} what each has printed, with the medians of its numbers
 */
function measureInTurn(cases, rounds) {
    /** @type {Record<string, any[]>} */
    const printed = {};
    for (let round = 0; round < rounds; round += 1) {
        for (const [name, words] of Object.entries(cases)) (printed[name] ??= []).push(run(words));
    }
    return Object.fromEntries(Object.entries(printed).map(([name, lines]) => [name, mediansOf(lines)]));
}

/** @param {readonly any[]} lines */
function mediansOf(lines) {
    const keys = Object.keys(lines[0]);
    return Object.fromEntries(
        keys.map(key => [
            key,
            typeof lines[0][key] === 'number' ? median(lines.map(line => line[key])) : lines[0][key],
        ]),
    );
}

/** @param {readonly string[]} words */
function run(words) {
    const { status, stdout, stderr } = spawnSync(process.execPath, [file, ...words], { encoding: 'utf8' });
    if (status !== 0) throw new Error(`Measuring ${words.join(' ')} ended with status ${status}:\n${stderr}`);
    return JSON.parse(stdout);
}
