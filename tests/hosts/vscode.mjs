// The suite "vscode": our mocha suite inside the extension host of the real editor, beside the extension under development.
import { existsSync } from 'node:fs';
import { cp, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { errorsInLogs, layOut, openBrowser, settings, startServer, workbenchAddress } from './editor.mjs';
import { cacheFolder, chromium, prepareEditor, prepareProgram, requireBuilt } from './prepare.mjs';

const suiteSource = fileURLToPath(new URL('vscode-suite/', import.meta.url));
const workspaceSource = fileURLToPath(new URL('workspace/', import.meta.url));

/** @typedef {{ extension: string, suite: string, workspace: string, results: string }} SuiteFiles where all of it is */

/**
 * The suite in the editor's server.
 * @type {import('./run.mjs').Suite<{ editor: import('./prepare.mjs').Editor, browserPath: string }>}
 */
export const vscode = {
    name: 'vscode',
    seconds: 150,
    async prepare({ extension }, log) {
        await requireExtension(extension);
        return { editor: await prepareEditor(log), browserPath: await prepareProgram(chromium, log) };
    },
    async run({ editor, browserPath }, { temporary, subjects, log, onEnd, artifacts }) {
        const places = await layOut(editor, temporary);
        const files = await layOutSuite(temporary, subjects.extension);
        onEnd(() => artifacts.keepLogs(places.userData));
        const environment = suiteEnvironment(files);
        const server = await startServer(places, { environment, log: artifacts.writer('server.txt') });
        onEnd(server.stop);
        const browser = await openBrowser(places, browserPath);
        onEnd(browser.close);
        onEnd(() => artifacts.screenshot(browser.page, 'workbench.png'));
        log('the suite runs in the extension host');
        const status = await exitOfSuite(browser.page, server.authority, files, artifacts.writer('workbench.txt'));
        return outcome(status, files, places.userData);
    },
};

/**
 * The same suite in a downloaded Visual Studio Code, where it may be downloaded.
 * @type {import('./run.mjs').Suite<typeof import('@vscode/test-electron')>}
 */
export const testElectron = {
    name: 'test-electron',
    seconds: 600,
    async prepare({ extension }) {
        await requireExtension(extension);
        return import('@vscode/test-electron');
    },
    async run({ runTests }, { temporary, subjects, log, onEnd, artifacts }) {
        const files = await layOutSuite(temporary, subjects.extension);
        const userData = join(temporary, 'user');
        await mkdir(join(userData, 'User'), { recursive: true });
        await writeFile(join(userData, 'User', 'settings.json'), JSON.stringify(settings));
        onEnd(() => artifacts.keepLogs(userData));
        log('Visual Studio Code is downloaded and started');
        const status = await runTests({
            cachePath: join(cacheFolder(), 'test-electron'),
            extensionDevelopmentPath: files.extension,
            extensionTestsPath: files.suite,
            extensionTestsEnv: suiteEnvironment(files),
            launchArgs: [
                files.workspace,
                '--disable-workspace-trust',
                '--disable-telemetry',
                ...['--user-data-dir', userData],
                ...['--extensions-dir', join(temporary, 'extensions')],
            ],
        }).catch(error => {
            log(String(error));
            return 1;
        });
        return outcome(status, files, userData);
    },
};

/** @param {string} extension */
async function requireExtension(extension) {
    const manifestPath = join(extension, 'package.json');
    requireBuilt(manifestPath, 'npm run build');
    const { main } = JSON.parse(await readFile(manifestPath, 'utf8'));
    requireBuilt(join(extension, main), 'npm run build');
}

/**
 * The suite runs on a copy of its workspace, so that it may write there and nothing of ours is touched.
 * @param {string} temporary
 * @param {string} extension
 * @returns {Promise<SuiteFiles>}
 */
async function layOutSuite(temporary, extension) {
    const files = {
        extension,
        suite: join(temporary, 'suite', 'index.cjs'),
        workspace: join(temporary, 'workspace'),
        results: join(temporary, 'mocha.json'),
    };
    await cp(workspaceSource, files.workspace, { recursive: true });
    await bundleSuite(join(temporary, 'suite'));
    return files;
}

/** @param {string} outdir */
async function bundleSuite(outdir) {
    const { build } = await import('esbuild');
    const names = (await readdir(suiteSource)).filter(name => name === 'index.ts' || name.endsWith('.test.ts'));
    await build({
        entryPoints: names.map(name => join(suiteSource, name)),
        outdir,
        outExtension: { '.js': '.cjs' },
        bundle: true,
        platform: 'node',
        format: 'cjs',
        target: 'node20',
        external: ['vscode'],
        sourcemap: 'inline',
        // Mocha names two files that it needs only for running files in parallel, which the suite does not do.
        logOverride: { 'require-resolve-not-external': 'silent' },
        logLevel: 'warning',
    });
}

/** @param {SuiteFiles} files */
function suiteEnvironment(files) {
    return { HALFSPLIT_MOCHA_RESULTS: files.results };
}

/**
 * The workbench calls two functions of the page when it runs extension tests: the second one with the exit status.
 * @param {import('./editor.mjs').Page} page
 * @param {string} authority
 * @param {SuiteFiles} files
 * @param {(line: string) => void} log
 * @returns {Promise<number>}
 */
async function exitOfSuite(page, authority, files, log) {
    /** @type {(status: number) => void} */
    let exit;
    /** @type {Promise<number>} */
    const exited = new Promise(settle => {
        exit = settle;
    });
    await page.exposeFunction('codeAutomationLog', (/** @type {string} */ _, /** @type {unknown} */ parts) =>
        log([parts].flat().map(String).join(' ')),
    );
    await page.exposeFunction('codeAutomationExit', (/** @type {number} */ status) => exit(status));
    const remote = (/** @type {string} */ path) => `vscode-remote://${authority}${path}`;
    const payload = [
        ['extensionDevelopmentPath', remote(files.extension)],
        ['extensionTestsPath', remote(files.suite)],
    ];
    await page.goto(workbenchAddress(authority, files.workspace, payload));
    return exited;
}

/**
 * @param {number} status
 * @param {SuiteFiles} files
 * @param {string} userData
 * @returns {Promise<import('./run.mjs').TestResult[]>}
 */
async function outcome(status, files, userData) {
    if (!existsSync(files.results)) {
        throw new Error(
            `the suite wrote no results and ended with ${status}; workbench.txt among the results says more`,
        );
    }
    /** @type {import('./run.mjs').TestResult[]} */
    const results = JSON.parse(await readFile(files.results, 'utf8'));
    const broken = results.filter(result => !result.passed).length;
    const errors = await errorsInLogs(userData);
    return [
        ...results,
        {
            title: 'the suite runs tests, and its exit status says whether one failed',
            passed: results.length > 0 && (status === 0) === (broken === 0),
            message: `${results.length} tests, ${broken} failed, exit status ${status}`,
        },
        {
            title: 'the logs of the extension and of its host hold no error',
            passed: errors.length === 0,
            message: errors.join('\n'),
        },
    ];
}
