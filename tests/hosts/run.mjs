// Runs our editor extension and language server in real hosts: the editor with a browser, and Neovim.
import { rmSync } from 'node:fs';
import { mkdir, mkdtemp, rename, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs, stripVTControlCharacters } from 'node:util';
import { makeArtifacts } from './artifacts.mjs';
import { neovim } from './neovim.mjs';
import { HostMissing } from './prepare.mjs';
import { stopAll } from './processes.mjs';
import { testElectron, vscode } from './vscode.mjs';
import { vsix } from './vsix.mjs';

/**
 * One test: its title, whether it passed, and where it did not, why.
 * @typedef {{ title: string, passed: boolean, message?: string, milliseconds?: number }} TestResult
 *
 * What of ours is tested: the folder of the extension, the packaged extension, the bundled language server.
 * @typedef {{ extension: string, vsix: string, languageServer: string }} Subjects
 *
 * What a suite gets: a folder that is removed in the end, what it tests, who hears of its progress, where it leaves
 * logs and pictures, how it reports a test, and how it says what must be ended whatever happens (last one first).
 * @typedef {{
 *     temporary: string,
 *     subjects: Subjects,
 *     log: (line: string) => void,
 *     artifacts: import('./artifacts.mjs').Artifacts,
 *     check: (title: string, body: () => unknown) => Promise<void>,
 *     onEnd: (end: () => Promise<unknown>) => void,
 * }} SuiteContext
 *
 * A suite: its name, how long it may take once its hosts are there, what finds or installs its hosts, and its tests,
 * which it reports by `check` or answers at its end.
 * @template [Hosts=any]
 * @typedef {{
 *     name: string,
 *     seconds: number,
 *     prepare: (subjects: Subjects, log: (line: string) => void) => Promise<Hosts>,
 *     run: (hosts: Hosts, context: SuiteContext) => Promise<TestResult[]>,
 * }} Suite
 *
 * @typedef {{ name: string, seconds: number, tests: TestResult[] }} SuiteOutcome
 * @typedef {{ suites: Suite[], results: string, subjects: Subjects }} Options
 */

const root = fileURLToPath(new URL('../../', import.meta.url));
/** @type {Suite[]} */
const suites = [neovim, vscode, vsix];
/** @type {Set<string>} */
const temporaries = new Set();
const prepareSeconds = 900;
const closeSeconds = 15;

const usage = `node tests/hosts/run.mjs [--only vscode|vsix|neovim] [--with test-electron] [--results FILE]
  --only NAME            run one suite (may be given several times)
  --with test-electron   run the suite "vscode" in a Visual Studio Code that is downloaded as well
  --results FILE         write the results here; screenshots and logs go into the folder FILE without .json
  --extension FOLDER     the extension under development        (extension)
  --vsix FILE            the packaged extension                 (extension/dist/halfsplit.vsix)
  --language-server FILE the bundled language server            (language/dist/server/main-node.cjs)
Exit status: 0 every test passed, 1 a test failed or a host is missing, 2 wrong use.`;

await main();

async function main() {
    const options = readOptions();
    process.on('exit', () => temporaries.forEach(removeFolder));
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
        process.once(signal, () => {
            say(`stopped by ${signal}`);
            process.exit(1);
        });
    }
    const outcomes = [];
    for (const suite of options.suites) {
        outcomes.push(await runSuite(suite, options));
    }
    const report = summarize(outcomes);
    await writeWhole(options.results, `${JSON.stringify(report, undefined, 4)}\n`);
    say(`results: ${options.results}`);
    process.stdout.write(`hosts: ${report.passed} passed, ${report.failed} failed\n`);
    process.exit(report.failed === 0 && report.passed > 0 ? 0 : 1);
}

/** @returns {Options} */
function readOptions() {
    try {
        const { values } = parseArgs({
            options: {
                only: { type: 'string', multiple: true },
                with: { type: 'string' },
                results: { type: 'string', default: join(root, '.build', 'results', 'hosts.json') },
                extension: { type: 'string', default: join(root, 'extension') },
                vsix: { type: 'string', default: join(root, 'extension', 'dist', 'halfsplit.vsix') },
                'language-server': {
                    type: 'string',
                    default: join(root, 'language', 'dist', 'server', 'main-node.cjs'),
                },
            },
        });
        return {
            suites: chosenSuites(values),
            results: resolve(values.results),
            subjects: {
                extension: resolve(values.extension),
                vsix: resolve(values.vsix),
                languageServer: resolve(values['language-server']),
            },
        };
    } catch (error) {
        say(`${error instanceof Error ? error.message : String(error)}\n\n${usage}`);
        return process.exit(2);
    }
}

/** @param {{ only?: string[] | undefined, with?: string | undefined }} values */
function chosenSuites(values) {
    const all = [...suites, testElectron];
    for (const name of values.only ?? []) {
        if (!all.some(suite => suite.name === name)) {
            throw new Error(`there is no suite \`${name}\`: there are ${all.map(suite => suite.name).join(', ')}`);
        }
    }
    if (values.with !== undefined && values.with !== testElectron.name) {
        throw new Error(`\`--with ${values.with}\` is not known: there is \`--with ${testElectron.name}\``);
    }
    const only = values.only ?? suites.map(suite => suite.name);
    return all.filter(suite => only.includes(suite.name) || suite.name === values.with);
}

/**
 * Runs one suite, within its time. Whatever happens, what it started is ended and its temporary folder is removed.
 * @param {Suite} suite
 * @param {Options} options
 * @returns {Promise<SuiteOutcome>}
 */
async function runSuite(suite, { subjects, results }) {
    const started = Date.now();
    /** @type {TestResult[]} */
    const tests = [];
    /** @type {(() => Promise<unknown>)[]} */
    const endings = [];
    let over = false;
    const temporary = await mkdtemp(join(tmpdir(), `halfsplit-${suite.name}-`));
    temporaries.add(temporary);
    const log = (/** @type {string} */ line) => say(`${suite.name}: ${line}`);
    log('starting');
    try {
        const artifacts = makeArtifacts(join(results.replace(/\.json$/, ''), suite.name));
        const hosts = await within(
            prepareSeconds,
            `preparing the hosts of ${suite.name}`,
            suite.prepare(subjects, log),
        );
        /** @type {SuiteContext} */
        const context = {
            temporary,
            subjects,
            log,
            artifacts,
            check: checker(tests, log, () => over),
            onEnd: end => endings.unshift(end),
        };
        const further = await within(suite.seconds, `the suite ${suite.name}`, suite.run(hosts, context));
        tests.push(...further);
        further.forEach(test => tell(test, log));
    } catch (error) {
        const unfinished = { title: 'the suite runs to its end', passed: false, message: messageOf(error) };
        tests.push(unfinished);
        tell(unfinished, log);
    }
    over = true;
    for (const end of endings) {
        await within(closeSeconds, 'an ending', end()).catch(error => log(`while ending: ${messageOf(error)}`));
    }
    await stopAll();
    removeFolder(temporary);
    const seconds = (Date.now() - started) / 1000;
    log(`ended after ${seconds.toFixed(1)} s`);
    return { name: suite.name, seconds, tests };
}

/**
 * A suite that finds things out one after the other reports each with a `check`, so that one failure hides no other.
 * @param {TestResult[]} tests
 * After the suite's time nothing is reported any more: its hosts are being ended, and every check would fail.
 * @param {TestResult[]} tests
 * @param {(line: string) => void} log
 * @param {() => boolean} isOver
 * @returns {SuiteContext['check']}
 */
function checker(tests, log, isOver) {
    return async (title, body) => {
        const started = Date.now();
        /** @type {TestResult} */
        const test = { title, passed: true };
        try {
            await body();
        } catch (error) {
            test.passed = false;
            test.message = messageOf(error);
        }
        if (isOver()) {
            throw new Error(`the suite was over before the check: ${title}`);
        }
        test.milliseconds = Date.now() - started;
        tests.push(test);
        tell(test, log);
    };
}

/**
 * @param {TestResult} test
 * @param {(line: string) => void} log
 */
function tell({ title, passed, message }, log) {
    log(passed ? `passed  ${title}` : `FAILED  ${title}\n${message ?? ''}`);
}

/** @param {SuiteOutcome[]} outcomes */
function summarize(outcomes) {
    const described = outcomes.map(({ name, seconds, tests }) => {
        const failed = tests.filter(test => !test.passed).length;
        // A suite in which nothing was tested has not passed.
        return { name, seconds, passed: tests.length - failed, failed: tests.length === 0 ? 1 : failed, tests };
    });
    return {
        passed: described.reduce((total, suite) => total + suite.passed, 0),
        failed: described.reduce((total, suite) => total + suite.failed, 0),
        failures: described.flatMap(({ name, tests }) =>
            tests.filter(test => !test.passed).map(({ title, message }) => ({ suite: name, title, message })),
        ),
        suites: described,
    };
}

/**
 * @template T
 * @param {number} seconds
 * @param {string} awaited
 * @param {Promise<T>} promise
 * @returns {Promise<T>}
 */
async function within(seconds, awaited, promise) {
    /** @type {NodeJS.Timeout | undefined} */
    let timer;
    /** @type {Promise<never>} */
    const late = new Promise((_, fail) => {
        timer = setTimeout(() => fail(new Error(`${awaited} took longer than ${seconds} s`)), seconds * 1000);
    });
    try {
        return await Promise.race([promise, late]);
    } finally {
        clearTimeout(timer);
    }
}

/**
 * @param {string} path
 * @param {string} text
 */
async function writeWhole(path, text) {
    await mkdir(dirname(path), { recursive: true });
    await writeFile(`${path}.new`, text);
    await rename(`${path}.new`, path);
}

/** @param {string} folder */
function removeFolder(folder) {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    temporaries.delete(folder);
}

/**
 * What an error says, without the colors that some tools put into it.
 * @param {unknown} error
 */
function messageOf(error) {
    if (error instanceof HostMissing) {
        return error.message;
    }
    return stripVTControlCharacters(error instanceof Error ? (error.stack ?? error.message) : String(error));
}

/** @param {string} line */
function say(line) {
    process.stderr.write(`${line}\n`);
}
