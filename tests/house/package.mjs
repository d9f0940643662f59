/** Packs the extension into extension/dist/halfsplit.vsix, which an editor can install: `npm run package`. */
import { rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { createVSIX } from '@vscode/vsce';
import { root, runNode } from './project.mjs';

const target = join(root, 'extension', 'dist', 'halfsplit.vsix');

const status = runNode('tests/house/build.mjs', ['extension']);
if (status !== 0) {
    process.exit(status);
}
rmSync(target, { force: true });
// Everything the extension needs is in its bundles.
await createVSIX({
    cwd: join(root, 'extension'),
    packagePath: target,
    dependencies: false,
    allowMissingRepository: true,
    // Some patterns are for bundles that are made only where their source exists.
    allowUnusedFilesPattern: true,
});
console.log(`extension/dist/halfsplit.vsix: ${Math.round(statSync(target).size / 1000)} kB`);
