// Keeps what a suite leaves for whoever reads its failures: logs and a picture of the workbench.
import { appendFileSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { cp } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * Who takes lines into a file, who takes a picture of a page, and who copies the logs of an editor.
 * @typedef {{
 *     writer: (name: string) => (line: string) => void,
 *     screenshot: (page: import('./editor.mjs').Page, name: string) => Promise<void>,
 *     keepLogs: (userData: string) => Promise<void>,
 * }} Artifacts
 */

/**
 * Empties the folder of a suite, or makes it.
 * @param {string} folder
 * @returns {Artifacts}
 */
export function makeArtifacts(folder) {
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true });
    return {
        writer: name => line => appendFileSync(join(folder, name), `${line}\n`),
        async screenshot(page, name) {
            await page.screenshot({ path: join(folder, name), timeout: 10_000 });
        },
        async keepLogs(userData) {
            const logs = join(userData, 'logs');
            if (existsSync(logs)) {
                await cp(logs, join(folder, 'logs'), { recursive: true });
            }
        },
    };
}
