/**
 * Bundles what ships: the command line, the language server and the editor extension. Use: npm run build [-- NAME...]
 *
 * What ships runs on Node 20.19 and later, or in the editor, with nothing else installed beside it.
 */
import { existsSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';
import { writeNotices } from './notices.mjs';
import { root } from './project.mjs';

/**
 * @typedef {object} Bundle
 * @property {string} name what to call it on the command line
 * @property {string} from the file that it starts with
 * @property {string} to the file that is written
 * @property {'node' | 'editor' | 'browser'} host where it runs
 */

/** @type {Bundle[]} */
const bundles = [
    { name: 'cli', from: 'cli/src/main.ts', to: 'cli/dist/halfsplit.cjs', host: 'node' },
    {
        name: 'server',
        from: 'language/src/server/main-node.ts',
        to: 'language/dist/server/main-node.cjs',
        host: 'node',
    },
    { name: 'extension', from: 'extension/src/extension.ts', to: 'extension/dist/extension.cjs', host: 'editor' },
    { name: 'extension', from: 'language/src/server/main-node.ts', to: 'extension/dist/server.cjs', host: 'node' },
];

/** Bundles that are made where their first file exists. */
const browserBundles = /** @type {Bundle[]} */ ([
    {
        name: 'extension',
        from: 'extension/src/extension-web.ts',
        to: 'extension/dist/extension-web.cjs',
        host: 'editor',
    },
    { name: 'extension', from: 'extension/src/webview/main.ts', to: 'extension/dist/webview.js', host: 'browser' },
    {
        name: 'extension',
        from: 'language/src/server/main-browser.ts',
        to: 'extension/dist/server-browser.js',
        host: 'browser',
    },
]).filter(bundle => existsSync(join(root, bundle.from)));

const names = process.argv.slice(2);
const unknown = names.filter(name => !bundles.some(bundle => bundle.name === name));
if (unknown.length > 0) {
    console.error(
        `There is no bundle ${unknown.join(', ')}; there are ${[...new Set(bundles.map(b => b.name))].join(', ')}.`,
    );
    process.exit(2);
}
try {
    for (const bundle of [...bundles, ...browserBundles]) {
        if (names.length === 0 || names.includes(bundle.name)) {
            await make(bundle);
        }
    }
} catch (error) {
    // The bundler has shown the places already.
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
}

/**
 * Makes one bundle, and beside it the licenses of the packages that are in it.
 *
 * @param {Bundle} bundle
 */
async function make({ from, to, host }) {
    const target = join(root, to);
    rmSync(target, { force: true });
    const result = await build({
        absWorkingDir: root,
        entryPoints: [from],
        outfile: target,
        bundle: true,
        minify: true,
        // Parser and syntax tree go by the names of functions and classes.
        keepNames: true,
        platform: host === 'browser' ? 'browser' : 'node',
        target: host === 'browser' ? 'es2022' : 'node20',
        format: host === 'browser' ? 'iife' : 'cjs',
        external: host === 'editor' ? ['vscode'] : [],
        // Our own packages are bundled from their sources, so that no build order matters.
        conditions: ['halfsplit-source', 'module'],
        mainFields: host === 'browser' ? ['browser', 'module', 'main'] : ['module', 'main'],
        inject: host === 'node' ? ['language/src/object-group-by.ts'] : [],
        legalComments: 'none',
        metafile: true,
        logLevel: 'warning',
    });
    const bytes = result.metafile.outputs[to]?.bytes ?? 0;
    const packages = writeNotices(join(dirname(target), 'third-party-licenses'), to, result.metafile);
    console.log(`${to}: ${Math.round(bytes / 1000)} kB, ${packages} packages in it`);
}
