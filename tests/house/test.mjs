/**
 * Runs all tests and ends with one line, `N passed, N failed`: `npm test`.
 *
 * With arguments, as in `npm test -- rules -t reading-overlap`, it runs only the tests that vitest finds by them.
 * A skipped test counts as failed, and so does a suite that stops before it has said what it found.
 */
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { buildFolder, root, runNode, tools } from './project.mjs';
import { sumTallies, tallyHosts, tallyStep, tallyVitest } from './tally.mjs';

/** @typedef {import('./tally.mjs').Tally} Tally */

const resultsFolder = join(buildFolder, 'results');
const vitestResults = join(resultsFolder, 'vitest.json');
const hostResults = join(resultsFolder, 'hosts.json');
const hostScript = 'tests/hosts/run.mjs';

const filters = process.argv.slice(2);
rmSync(resultsFolder, { recursive: true, force: true });
mkdirSync(resultsFolder, { recursive: true });

/** @type {Tally[]} */
const tallies = [];
if (filters.length === 0) {
    tallies.push(
        step('Generated files', () => tallyStep('generated files', runNode('tests/house/generate.mjs', ['--check']))),
        step('Types', () => tallyStep('the type check', runNode('tests/house/types.mjs'))),
    );
}
tallies.push(step('Tests', runVitest));
if (filters.length === 0 && existsSync(join(root, hostScript))) {
    tallies.push(step('Tests in real editors and browsers', runHosts));
}
close(sumTallies(tallies));

/**
 * @param {string} title
 * @param {() => Tally} work
 * @returns {Tally}
 */
function step(title, work) {
    console.log(`\n== ${title}`);
    const started = Date.now();
    const tally = work();
    console.log(`== ${title}: ${((Date.now() - started) / 1000).toFixed(1)} s`);
    return tally;
}

/** @returns {Tally} */
function runVitest() {
    const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${vitestResults}`];
    const status = runNode(tools.vitest, ['run', ...reporters, ...filters]);
    return tallyVitest(readResults(vitestResults), status);
}

/**
 * Tries, in real editors, what has just been built and packed.
 *
 * @returns {Tally}
 */
function runHosts() {
    const built = runNode('tests/house/build.mjs', ['server']) || runNode('tests/house/package.mjs');
    if (built !== 0) {
        return tallyStep('the build, so no editor could be tried', built);
    }
    const status = runNode(hostScript, ['--results', hostResults]);
    return tallyHosts(readResults(hostResults), status);
}

/**
 * @param {string} file
 * @returns {any} the parsed results, or nothing where there are none that can be read
 */
function readResults(file) {
    try {
        return JSON.parse(readFileSync(file, 'utf8'));
    } catch {
        return undefined;
    }
}

/** @param {Tally} tally */
function close({ passed, failed, notes }) {
    console.log('');
    for (const note of notes) {
        console.log(note);
    }
    console.log(`${passed} passed, ${failed} failed`);
    process.exit(failed === 0 ? 0 : 1);
}
