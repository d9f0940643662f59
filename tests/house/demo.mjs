/** Shows what Halfsplit does, on the examples: `npm run demo`. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { root, runNode } from './project.mjs';

const status = runNode('tests/house/build.mjs', ['cli']);
if (status !== 0) {
    process.exit(status);
}
const commands = [
    ['check', 'examples'],
    ['export', 'examples', '--out', 'out'],
    ['draw', 'examples', '--out', 'out'],
];
for (const words of commands) {
    console.log(`\n$ halfsplit ${words.join(' ')}`);
    const result = spawnSync(process.execPath, [join(root, 'cli/bin/halfsplit.cjs'), ...words], {
        cwd: root,
        stdio: 'inherit',
    });
    if (result.status !== 0) {
        console.error(`\nhalfsplit ${words[0]} ended with status ${result.status}.`);
        process.exit(result.status ?? 1);
    }
}
console.log(
    existsSync(join(root, 'out')) ? '\nThe exported documents and drawings are in out.' : '\nNothing was written.',
);
