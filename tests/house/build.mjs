/**
 * Bundles what ships: the command line, the language server and the editor extension. Use: npm run build [-- NAME...]
 *
 * What ships runs on Node 20.19 and later, or in the editor, with nothing else installed beside it.
 */
import { existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import { build } from 'esbuild';
import { writeNotices } from './notices.mjs';
import { divide } from './parts.mjs';
import { root } from './project.mjs';

/**
 * @typedef {object} Bundle
 * @property {string} name what to call it on the command line
 * @property {string} from the file that it starts with
 * @property {string} to the file that is written
 * @property {'node' | 'editor' | 'browser' | 'anywhere'} host where it runs; what runs anywhere is a module that is imported
 * @property {import('./parts.mjs').Part[]} [parts] what goes into files of their own; undefined where all is one file
 */

/** What most runs of the command line do not need stands apart, so that they need not load it. */
const commandLineParts = [
    { file: 'rule-pages.cjs', holds: (/** @type {string} */ path) => path === 'language/src/generated/rule-pages.ts' },
    { file: 'language.cjs', holds: (/** @type {string} */ path) => path.startsWith('language/src/') },
];

/** @type {Bundle[]} */
const bundles = [
    { name: 'cli', from: 'cli/src/main.ts', to: 'cli/dist/halfsplit.cjs', host: 'node', parts: commandLineParts },
    {
        name: 'server',
        from: 'language/src/server/main-node.ts',
        to: 'language/dist/server/main-node.cjs',
        host: 'node',
    },
    { name: 'player', from: 'language/src/player/index.ts', to: 'language/dist/player.js', host: 'anywhere' },
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
 * Makes one bundle and its parts, and beside them the licenses of the packages that are in them.
 *
 * @param {Bundle} bundle
 */
async function make({ from, to, host, parts = [] }) {
    const { plugin, entryOf } = divide(parts);
    await makeFile(host, to, { entryPoints: [from], plugins: parts.length === 0 ? [] : [plugin] });
    for (const part of parts) {
        const contents = entryOf(part);
        if (contents !== undefined) {
            const file = join(dirname(to), part.file).split(sep).join('/');
            await makeFile(host, file, { stdin: { contents, resolveDir: root } });
        }
    }
}

/**
 * Writes the file under another name first, so that whoever starts it meanwhile finds a whole one.
 *
 * @param {Bundle['host']} host
 * @param {string} to
 * @param {import('esbuild').BuildOptions} options
 */
async function makeFile(host, to, options) {
    const target = join(root, to);
    const { metafile, outputFiles } = await build({
        ...options,
        absWorkingDir: root,
        outfile: target,
        write: /** @type {const} */ (false),
        bundle: true,
        // No option to keep the names of functions: its code in every function makes reading files three times slower.
        minify: true,
        platform: host === 'browser' ? 'browser' : host === 'anywhere' ? 'neutral' : 'node',
        target: host === 'browser' || host === 'anywhere' ? 'es2022' : 'node20',
        format: host === 'browser' ? 'iife' : host === 'anywhere' ? 'esm' : 'cjs',
        // What is imported only when it is needed is loaded as the rest is.
        supported: { 'dynamic-import': false },
        external: host === 'editor' ? ['vscode'] : [],
        // Our own packages are bundled from their sources, so that no build order matters.
        conditions: ['halfsplit-source', 'module'],
        mainFields: host === 'browser' ? ['browser', 'module', 'main'] : ['module', 'main'],
        inject: host === 'node' ? ['language/src/object-group-by.ts'] : [],
        legalComments: 'none',
        metafile: /** @type {const} */ (true),
        logLevel: 'warning',
    });
    const contents = outputFiles[0]?.contents ?? new Uint8Array();
    const unfinished = `${target}.${process.pid}.new`;
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(unfinished, contents);
    renameSync(unfinished, target);
    const packages = writeNotices(join(dirname(target), 'third-party-licenses'), to, metafile);
    console.log(`${to}: ${Math.round(contents.length / 1000)} kB, ${packages} packages in it`);
}
