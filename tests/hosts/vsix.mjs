// The suite "vsix": the packaged extension, installed as a user installs it, seen in the real workbench as a user sees it.
import { cp, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { errorsInLogs, installExtension, layOut, openBrowser, startServer, workbenchAddress } from './editor.mjs';
import { chromium, prepareEditor, prepareProgram, requireBuilt } from './prepare.mjs';

const workspaceSource = fileURLToPath(new URL('workspace/', import.meta.url));
const shownMilliseconds = 20_000;

/** @typedef {import('./editor.mjs').Page} Page */

/**
 * The suite of the packaged extension.
 * @type {import('./run.mjs').Suite<{ editor: import('./prepare.mjs').Editor, browserPath: string }>}
 */
export const vsix = {
    name: 'vsix',
    seconds: 180,
    async prepare({ vsix: packaged }, log) {
        requireBuilt(packaged, 'npm run build && npm run package');
        return { editor: await prepareEditor(log), browserPath: await prepareProgram(chromium, log) };
    },
    async run({ editor, browserPath }, { temporary, subjects, log, onEnd, artifacts, check }) {
        const places = await layOut(editor, temporary);
        await installExtension(places, subjects.vsix);
        const manifest = await installedManifest(places.extensions);
        const workspace = join(temporary, 'workspace');
        await cp(workspaceSource, workspace, { recursive: true });
        onEnd(() => artifacts.keepLogs(places.userData));
        const server = await startServer(places, { log: artifacts.writer('server.txt') });
        onEnd(server.stop);
        const browser = await openBrowser(places, browserPath);
        onEnd(browser.close);
        onEnd(() => artifacts.screenshot(browser.page, 'workbench.png'));
        await browser.page.goto(workbenchAddress(server.authority, workspace));
        log(`the workbench opens with ${manifest.name} ${manifest.version} installed`);
        await lookAt(browser.page, manifest.contributes.languages[0].aliases[0], check);
        await check('the page and the logs hold no error of the extension', async () => {
            const name = `${manifest.publisher}.${manifest.name}`;
            const ofOurs = browser.consoleErrors.filter(line => line.includes(name));
            demandNone([...browser.pageErrors, ...ofOurs, ...(await errorsInLogs(places.userData))]);
        });
        await check('the workbench asks nothing of the network', () => demandNone(browser.foreignRequests));
        return [];
    },
};

/**
 * @param {Page} page
 * @param {string} languageName
 * @param {import('./run.mjs').SuiteContext['check']} check
 */
async function lookAt(page, languageName, check) {
    await check('a .fault file opens, and the status bar names its language', async () => {
        await openFile(page, 'misspelt.fault');
        await shown(page.locator('[id="status.editor.mode"]', { hasText: languageName }));
    });
    await check('keywords, texts and comments have different colors', () => demandColors(page, ['tree', '"', '//']));
    await check('the misspelt name is underlined', () => shown(page.locator('.monaco-editor .squiggly-error')));
    await check('the Problems view shows the finding with its code', async () => {
        await page.keyboard.press('Control+Shift+M');
        const row = page.locator('.markers-panel .monaco-list-row', { hasText: 'socket-voltge' });
        await shown(row.filter({ hasText: 'unknown-name' }));
    });
}

/**
 * @param {Page} page
 * @param {string} name
 */
async function openFile(page, name) {
    const row = page.locator('.explorer-folders-view .monaco-list-row', { hasText: name });
    await shown(row);
    await row.first().dblclick();
    await shown(page.locator('.tab.active', { hasText: name }));
    await shown(page.locator('.monaco-editor .view-line'));
}

/** @param {Page} locator a locator of the page */
function shown(locator) {
    return locator.first().waitFor({ timeout: shownMilliseconds });
}

/**
 * Colors arrive with the grammar, some time after the text, so the question is asked until the answer is good.
 * @param {Page} page
 * @param {string[]} beginnings what the tokens begin with whose colors have to differ
 */
async function demandColors(page, beginnings) {
    const deadline = Date.now() + shownMilliseconds;
    /** @type {string[]} */
    let colors = [];
    while (Date.now() < deadline) {
        colors = await page.evaluate(colorsOf, beginnings);
        if (!colors.includes('absent') && new Set(colors).size === beginnings.length) {
            return;
        }
        await page.waitForTimeout(200);
    }
    throw new Error(`the colors of ${beginnings.join('  ')} are ${colors.join('  ')}`);
}

/**
 * Runs in the page.
 * @param {string[]} beginnings
 */
function colorsOf(beginnings) {
    const tokens = [...document.querySelectorAll('.monaco-editor .view-line span span')];
    return beginnings.map(beginning => {
        const token = tokens.find(candidate => candidate.textContent?.trim().startsWith(beginning));
        return token === undefined ? 'absent' : getComputedStyle(token).color;
    });
}

/** @param {string} extensions */
async function installedManifest(extensions) {
    const folders = (await readdir(extensions, { withFileTypes: true })).filter(entry => entry.isDirectory());
    const [folder] = folders;
    if (folder === undefined || folders.length > 1) {
        throw new Error(`one extension was installed, but there are ${folders.length}`);
    }
    return JSON.parse(await readFile(join(extensions, folder.name, 'package.json'), 'utf8'));
}

/** @param {string[]} errors */
function demandNone(errors) {
    if (errors.length > 0) {
        throw new Error(errors.join('\n'));
    }
}
