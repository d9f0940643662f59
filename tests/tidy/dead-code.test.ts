/** No file, export or dependency of ours is unused, and none is used without being named in package.json. */
import { createOptions, createSession } from 'knip/session';
import { expect, test } from 'vitest';
import { listSources, root } from '../house/project.mjs';
import { plant } from './support.js';

const minutes = 60_000;

test('nothing in the repository is dead', { timeout: 3 * minutes }, async () => {
    const sources = listSources().filter(path => /^(language|cli|extension)\/src\//.test(path));
    const { found, looked } = await findDeadCode(root);
    expect(looked).toBeGreaterThanOrEqual(sources.length);
    expect(found).toEqual([]);
});

test('an unused file, export and dependency are noticed', { timeout: 3 * minutes }, async () => {
    const folder = plant({
        'package.json': JSON.stringify({ name: 'planted', main: 'index.ts', dependencies: { 'left-out': '1.0.0' } }),
        'index.ts': "import { used } from './part.js';\nconsole.log(used);\n",
        'part.ts': 'export const used = 1;\nexport const forgotten = 2;\n',
        'nowhere.ts': 'export const alone = 1;\n',
    });
    const { found } = await findDeadCode(folder);
    expect(found).toEqual([
        'dependencies: package.json left-out',
        'exports: part.ts forgotten',
        'files: nowhere.ts nowhere.ts',
    ]);
});

/** Gives each finding as one line, sorted, and how many files were looked at. */
async function findDeadCode(folder: string): Promise<{ found: string[]; looked: number }> {
    const options = await createOptions({ cwd: folder, isSession: true, isShowProgress: false });
    const { issues, counters, configurationHints } = (await createSession(options)).getResults();
    const found: string[] = [];
    for (const [type, byFile] of Object.entries(issues)) {
        for (const [file, bySymbol] of Object.entries(byFile)) {
            found.push(...Object.keys(bySymbol).map(symbol => `${type}: ${file} ${symbol}`));
        }
    }
    // An entry may be there for files to come, but what a package.json promises has to be there.
    const promised = configurationHints.filter(({ type }) => type === 'package-entry');
    found.push(...promised.map(({ identifier }) => `promised in package.json: ${String(identifier)}`));
    return { found: found.sort(), looked: counters.total };
}
