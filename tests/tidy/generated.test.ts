/** The generated files are what `npm run generate` would write now. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { isGenerated, listFiles, root } from '../house/project.mjs';

test('every generated file is fresh', { timeout: 120_000 }, () => {
    const { status, stdout, stderr } = spawnSync(
        process.execPath,
        [join(root, 'tests/house/generate.mjs'), '--check'],
        { encoding: 'utf8' },
    );
    const looked = Number(/^(\d+) generated files looked at/m.exec(stdout)?.[1]);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(looked).toBe(listFiles('language').filter(isGenerated).length);
    expect(looked).toBeGreaterThan(3);
});
