// The suite "neovim": the bundled language server behind a language client that shares no code with the editor.
import { existsSync } from 'node:fs';
import { cp, mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { hostEnvironment } from './editor.mjs';
import { neovim as program, prepareProgram, requireBuilt } from './prepare.mjs';
import { run } from './processes.mjs';

const script = fileURLToPath(new URL('neovim-suite.lua', import.meta.url));
const workspaceSource = fileURLToPath(new URL('workspace/', import.meta.url));

/**
 * The suite of the language server behind Neovim.
 * @type {import('./run.mjs').Suite<{ nvim: string }>}
 */
export const neovim = {
    name: 'neovim',
    seconds: 60,
    async prepare({ languageServer }, log) {
        requireBuilt(languageServer, 'npm run build');
        return { nvim: await prepareProgram(program, log) };
    },
    async run({ nvim }, { temporary, subjects, artifacts }) {
        const home = join(temporary, 'home');
        const workspace = join(temporary, 'workspace');
        const results = join(temporary, 'neovim.json');
        await mkdir(home, { recursive: true });
        await cp(workspaceSource, workspace, { recursive: true });
        const { status, output } = await run(nvim, ['--clean', '--headless', '-n', '-c', `luafile ${script}`], {
            cwd: workspace,
            env: {
                ...hostEnvironment(home),
                HALFSPLIT_NODE: process.execPath,
                HALFSPLIT_SERVER: subjects.languageServer,
                HALFSPLIT_RESULTS: results,
            },
            onLine: artifacts.writer('neovim.txt'),
        });
        if (!existsSync(results)) {
            throw new Error(`Neovim wrote no results and ended with ${status}:\n${output}`);
        }
        /** @type {import('./run.mjs').TestResult[]} */
        const tests = JSON.parse(await readFile(results, 'utf8'));
        return [
            ...tests,
            {
                title: 'Neovim ends with the status that its tests deserve',
                passed: tests.length > 0 && (status === 0) === tests.every(test => test.passed),
                message: `${tests.length} tests, exit status ${status}\n${output}`,
            },
        ];
    },
};
