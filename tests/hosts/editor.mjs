// Starts the real editor's server and a browser that shows its workbench; quiet about the network, on this machine alone.
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { run, start } from './processes.mjs';

const loopback = '127.0.0.1';

/**
 * A page of playwright-core, whose types come with the editor's own packages and so are not there for the compiler.
 * @typedef {any} Page
 *
 * One editor's folders: its program, a home that is nobody's, its data and its extensions.
 * @typedef {import('./prepare.mjs').Editor & {
 *     home: string, serverData: string, userData: string, extensions: string,
 * }} Places
 */

/** What keeps the editor from asking anything of the network, and its start page and AI features out of the way. */
export const settings = {
    'chat.disableAIFeatures': true,
    'extensions.autoCheckUpdates': false,
    'extensions.autoUpdate': false,
    'extensions.ignoreRecommendations': true,
    'git.autoRepositoryDetection': false,
    'git.enabled': false,
    'npm.fetchOnlinePackageInfo': false,
    'security.workspace.trust.enabled': false,
    'telemetry.telemetryLevel': 'off',
    'typescript.disableAutomaticTypeAcquisition': true,
    'update.mode': 'none',
    'workbench.enableExperiments': false,
    'workbench.secondarySideBar.defaultVisibility': 'hidden',
    'workbench.settings.enableNaturalLanguageSearch': false,
    'workbench.startupEditor': 'none',
    'workbench.tips.enabled': false,
    'workbench.welcomePage.walkthroughs.openOnInstall': false,
};

const serving = [
    ...['--host', loopback, '--port', '0', '--without-connection-token'],
    // Without the driver of the smoke tests the workbench ignores the paths of extension tests, and says nothing.
    '--enable-smoke-test-driver',
    // Should this program be killed outright, its browser goes with it, and then the server ends by itself.
    ...['--enable-remote-auto-shutdown', '--remote-auto-shutdown-without-delay', '--reconnection-grace-time', '5'],
];

/**
 * Makes the folders of one editor.
 * @param {import('./prepare.mjs').Editor} editor
 * @param {string} temporary a folder that the caller removes in the end
 * @returns {Promise<Places>}
 */
export async function layOut(editor, temporary) {
    const places = {
        ...editor,
        home: join(temporary, 'home'),
        serverData: join(temporary, 'server'),
        userData: join(temporary, 'user'),
        extensions: join(temporary, 'extensions'),
    };
    await mkdir(places.home, { recursive: true });
    await mkdir(places.extensions, { recursive: true });
    for (const scope of ['User', 'Machine']) {
        await mkdir(join(places.userData, scope), { recursive: true });
        await writeFile(join(places.userData, scope, 'settings.json'), JSON.stringify(settings));
    }
    return places;
}

/**
 * Starts the editor's server on a port that is free.
 * @param {Places} places
 * @param {{ environment?: NodeJS.ProcessEnv, log: (line: string) => void }} options what extensions find in their
 *   environment, and who reads what the server says
 * @returns {Promise<{ authority: string, stop: () => Promise<void> }>} its host and port, and its end
 */
export async function startServer(places, { environment = {}, log }) {
    /** @type {(port: string) => void} */
    let listening;
    /** @type {Promise<string>} */
    const listened = new Promise(settle => {
        listening = settle;
    });
    const server = start(places.node, [places.serverMain, ...serverArguments(places), ...serving], {
        cwd: places.home,
        env: { ...hostEnvironment(places.home), ...environment },
        onLine(line) {
            log(line);
            const port = /Extension host agent listening on (\d+)/.exec(line)?.[1];
            if (port !== undefined) {
                listening(port);
            }
        },
    });
    const ended = server.exited.then(status => {
        throw new Error(`the editor's server ended with ${status} before it listened:\n${server.output()}`);
    });
    const port = await Promise.race([listened, ended]);
    return { authority: `${loopback}:${port}`, stop: server.stop };
}

/**
 * Installs a packaged extension as a user does.
 * @param {Places} places
 * @param {string} vsix the packaged extension
 * @throws {Error} with all that the editor said, where it refuses
 */
export async function installExtension(places, vsix) {
    const line = [places.serverMain, ...serverArguments(places), '--install-extension', vsix];
    const { status, output } = await run(places.node, line, {
        cwd: places.home,
        env: hostEnvironment(places.home),
    });
    if (status !== 0 || !/successfully installed/.test(output)) {
        throw new Error(`the editor did not install the packaged extension (status ${status}):\n${output}`);
    }
}

/**
 * Starts a browser and opens an empty page in it.
 * @param {Places} places
 * @param {string} browserPath
 * @returns {Promise<{ page: Page, close: () => Promise<void>, pageErrors: string[], consoleErrors: string[],
 *   foreignRequests: string[] }>} the page, the browser's end, and lists that grow with what goes wrong in the page
 */
export async function openBrowser(places, browserPath) {
    const playwright = await import(pathToFileURL(places.playwright).href);
    const browser = await playwright.chromium.launch({
        executablePath: browserPath,
        headless: true,
        // Chromium refuses its sandbox to root, which is who runs continuous integration in a container.
        chromiumSandbox: process.getuid?.() !== 0,
        args: [`--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE ${loopback}`, '--disable-quic'],
        env: hostEnvironment(places.home),
    });
    /** @type {Page} */
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, reducedMotion: 'reduce' });
    return { page, close: () => browser.close(), ...listen(page) };
}

/** @param {Page} page */
function listen(page) {
    const heard = {
        /** @type {string[]} */ pageErrors: [],
        /** @type {string[]} */ consoleErrors: [],
        /** @type {string[]} */ foreignRequests: [],
    };
    page.on('pageerror', (/** @type {Error} */ error) => heard.pageErrors.push(error.stack ?? error.message));
    page.on('console', (/** @type {{ type(): string, text(): string }} */ message) => {
        if (message.type() === 'error') {
            heard.consoleErrors.push(message.text());
        }
    });
    page.on('request', (/** @type {{ url(): string }} */ request) => {
        const { protocol, hostname } = new URL(request.url());
        if (/^(http|ws)s?:$/.test(protocol) && hostname !== loopback) {
            heard.foreignRequests.push(request.url());
        }
    });
    return heard;
}

/**
 * Reads the logs of the extension hosts and the output channels of all extensions.
 * @param {string} userData
 * @returns {Promise<string[]>} the lines that report an error, each with its file's name
 * @throws {Error} where there are no such logs: then nothing was read, and nothing can be said
 */
export async function errorsInLogs(userData) {
    const entries = await readdir(join(userData, 'logs'), { recursive: true, withFileTypes: true });
    const logs = entries
        .filter(entry => entry.isFile() && entry.name.endsWith('.log'))
        .map(entry => join(entry.parentPath, entry.name))
        .filter(path => /[\\/]exthost/.test(path));
    if (logs.length === 0) {
        throw new Error(`there is no log of an extension host under ${userData}`);
    }
    const texts = await Promise.all(logs.map(path => readFile(path, 'utf8')));
    return texts.flatMap((text, index) =>
        text
            .split('\n')
            .filter(line => /\[error\b/i.test(line))
            .map(line => `${(logs[index] ?? '').slice(userData.length + 1)}: ${line}`),
    );
}

/**
 * An address of the workbench.
 * @param {string} authority the server's host and port
 * @param {string} folder the folder that it shows
 * @param {string[][]} payload what it is told besides, as names and values
 */
export function workbenchAddress(authority, folder, payload = []) {
    const query = new URLSearchParams({ folder, payload: JSON.stringify(payload) });
    return `http://${authority}/?${query}`;
}

/**
 * The environment of a host: this machine's, with a home of its own, so that nothing is left in the user's.
 * @param {string} home
 * @returns {NodeJS.ProcessEnv}
 */
export function hostEnvironment(home) {
    const inherited = Object.entries(process.env).filter(
        ([name]) => !/^(npm_|NODE_|VSCODE_|XDG_|DBUS_|DISPLAY$|WAYLAND_)/.test(name),
    );
    return { ...Object.fromEntries(inherited), HOME: home, TMPDIR: home, EXTENSIONS_GALLERY: '{}' };
}

/** @param {Places} places */
function serverArguments({ serverData, userData, extensions }) {
    return [
        '--accept-server-license-terms',
        '--disable-workspace-trust',
        '--disable-telemetry',
        ...['--server-data-dir', serverData],
        ...['--user-data-dir', userData],
        ...['--extensions-dir', extensions],
    ];
}
