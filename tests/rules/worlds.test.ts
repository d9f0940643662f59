/** The regression worlds and the examples are right as they stand: no rule finds anything in them. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../house/project.mjs';
import { run } from '../cli/support.js';

const worlds = ['examples', 'tests/worlds'].flatMap(folder =>
    readdirSync(join(root, folder), { withFileTypes: true })
        .filter(entry => entry.isDirectory())
        .map(entry => `${folder}/${entry.name}`),
);

test('there are worlds to check', () => {
    expect(worlds.length).toBeGreaterThanOrEqual(7);
});

test.each(worlds)('nothing is found in %s', async world => {
    const { status, output } = await run(['check', '--fail-on', 'information', world], { folder: root });
    expect(output).toMatch(/^\d+ files?: nothing found\.\n\nVerification is an aid: [^:]+\n$/);
    expect(status).toBe(0);
});
