/**
 * Makes sure that what the lock file names is installed, then runs one of our scripts on the right Node.
 *
 * It is the first thing that `npm test` and `npm run demo` do on a fresh clone, so it uses nothing but Node itself.
 * Use: node tests/house/start.mjs SCRIPT [ARGUMENT...]
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { constants } from 'node:os';
import { delimiter, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

/** @typedef {{ version?: string, integrity?: string, link?: boolean, optional?: boolean, extraneous?: boolean }} LockedPackage */

const root = resolve(dirname(fileURLToPath(import.meta.url)), '..', '..');
const installed = join(root, 'node_modules');

/** What installing itself needs, and what our tools need to run. */
const oldestNodeToInstall = [20, 19];
const oldestNodeToWork = [22, 12];

const [script, ...scriptArguments] = process.argv.slice(2);
if (script === undefined) {
    stop('Say which script to run: node tests/house/start.mjs SCRIPT');
}
if (!isAtLeast(process.versions.node, oldestNodeToInstall)) {
    stop(`This needs Node ${oldestNodeToInstall.join('.')} or newer; here is Node ${process.versions.node}.`);
}
install();
run(chooseNode());

/** Runs `npm ci` unless every package of the lock file is there already in the version that it names. */
function install() {
    const reason = whatIsMissing();
    if (reason === undefined) {
        return;
    }
    console.error(`Installing the packages that package-lock.json names (${reason}). This takes about a minute.`);
    const started = Date.now();
    const npmScript = process.env['npm_execpath'];
    const npmArguments = ['ci', '--loglevel=error', '--no-audit', '--no-fund'];
    // On Windows npm is a batch file, which only a shell can start.
    const result =
        npmScript !== undefined && /\.c?js$/.test(npmScript)
            ? spawnSync(process.execPath, [npmScript, ...npmArguments], { cwd: root, stdio: 'inherit' })
            : spawnSync('npm', npmArguments, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' });
    if (result.status !== 0) {
        stop(`npm ci did not succeed${result.error === undefined ? '' : ` (${result.error.message})`}.`);
    }
    const left = whatIsMissing();
    if (left !== undefined) {
        stop(`npm ci ended well, and still ${left}.`);
    }
    console.error(`Installed in ${Math.round((Date.now() - started) / 1000)} s.`);
}

/**
 * Compares the lock file with npm's own record of what it installed.
 *
 * @returns {string | undefined} what is missing, in words, or nothing where all is there
 */
function whatIsMissing() {
    const record = join(installed, '.package-lock.json');
    if (!existsSync(record)) {
        return 'nothing is installed yet';
    }
    const wanted = readPackages(join(root, 'package-lock.json'));
    const present = readPackages(record);
    for (const [path, { version, integrity, link, optional, extraneous }] of Object.entries(wanted)) {
        if (!path.includes('node_modules/') || link === true || extraneous === true) {
            continue;
        }
        const found = present[path];
        if (found === undefined) {
            // npm leaves out the optional packages of other platforms, and only those.
            if (optional === true) {
                continue;
            }
            return `${path} is missing`;
        }
        if (found.version !== version || found.integrity !== integrity) {
            return `${path} is version ${found.version} and not ${version}`;
        }
        if (!existsSync(join(root, path, 'package.json'))) {
            return `${path} has lost its files`;
        }
    }
    return undefined;
}

/**
 * @param {string} file a lock file
 * @returns {Record<string, LockedPackage>} its packages by their folder
 */
function readPackages(file) {
    try {
        return JSON.parse(readFileSync(file, 'utf8')).packages ?? {};
    } catch {
        // A record that npm was stopped in the middle of writing counts as no record.
        return {};
    }
}

/** @returns {string} the Node that came with the packages where it runs here, else the one in use */
function chooseNode() {
    const own = join(installed, '.bin', 'node');
    if (existsSync(own) && spawnSync(own, ['--version']).status === 0) {
        return own;
    }
    if (!isAtLeast(process.versions.node, oldestNodeToWork)) {
        stop(
            `The tools of this repository need Node ${oldestNodeToWork.join('.')} or newer; ` +
                `here is Node ${process.versions.node}. On 64-bit Linux a newer one is installed with the packages.`,
        );
    }
    return process.execPath;
}

/**
 * Runs the script, gives it our input and output, and ends as it ends.
 *
 * @param {string} node the Node to run it on
 */
function run(node) {
    const path = [join(installed, '.bin'), process.env['PATH'] ?? ''].join(delimiter);
    const child = spawn(node, [resolve(root, script ?? ''), ...scriptArguments], {
        cwd: root,
        stdio: 'inherit',
        env: { ...process.env, PATH: path },
    });
    for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) {
        process.on(signal, () => child.kill(signal));
    }
    child.on('error', error => stop(`${node} could not be started: ${error.message}`));
    child.on('exit', (code, signal) => {
        process.exit(code ?? 128 + (signal === null ? 0 : constants.signals[signal]));
    });
}

/**
 * @param {string} version such as 24.21.0
 * @param {number[]} least such as [22, 12]
 */
function isAtLeast(version, least) {
    const [major = 0, minor = 0] = version.split('.').map(Number);
    const [leastMajor = 0, leastMinor = 0] = least;
    return major > leastMajor || (major === leastMajor && minor >= leastMinor);
}

/**
 * @param {string} message what went wrong
 * @returns {never}
 */
function stop(message) {
    console.error(message);
    process.exit(1);
}
