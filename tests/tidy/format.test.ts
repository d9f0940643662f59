/** Every source is laid out as the formatter would lay it out. */
import { join } from 'node:path';
import { check, getFileInfo, resolveConfig } from 'prettier';
import { expect, test } from 'vitest';
import { listFiles, listSources, readText, root } from '../house/project.mjs';

test('every source is laid out as `npm run format` does it', { timeout: 180_000 }, async () => {
    const looked: string[] = [];
    const wrong: string[] = [];
    for (const path of listFiles()) {
        const file = join(root, path);
        const info = await getFileInfo(file, { ignorePath: join(root, '.prettierignore') });
        if (info.ignored || info.inferredParser === null) {
            continue;
        }
        looked.push(path);
        if (!(await check(readText(path), { ...(await resolveConfig(file)), filepath: file }))) {
            wrong.push(path);
        }
    }
    expect(
        listSources().filter(path => !looked.includes(path)),
        'sources that were not looked at',
    ).toEqual([]);
    expect(looked.length).toBeGreaterThan(0);
    expect(wrong, 'run `npm run format`').toEqual([]);
});

test('a line that is laid out otherwise is noticed', async () => {
    const options = await resolveConfig(join(root, 'vitest.config.ts'));
    expect(await check('const a = "b"\n', { ...options, parser: 'typescript' })).toBe(false);
    expect(await check("const a = 'b';\n", { ...options, parser: 'typescript' })).toBe(true);
});
