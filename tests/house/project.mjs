/** Where things are in this repository, and which files of it are ours. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The top folder of the repository. */
export const root = resolve(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Where results, caches and intermediate files go; nothing in it is committed. */
export const buildFolder = join(root, '.build');

/** Folders that hold only what was installed or built. */
const foldersThatAreNotOurs = new Set(['node_modules', 'dist', '.build', '.git', '.vscode-test']);

/**
 * Lists our own files: everything that is not installed, not built and not Git's.
 *
 * @param {string} folder where to look, relative to the top folder
 * @returns {string[]} paths relative to the top folder, with forward slashes, sorted
 */
export function listFiles(folder = '.') {
    const found = [];
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
        const path = relative(root, join(root, folder, entry.name))
            .split(sep)
            .join('/');
        if (entry.isDirectory()) {
            if (!foldersThatAreNotOurs.has(entry.name) && path !== 'out') {
                found.push(...listFiles(path));
            }
        } else if (entry.isFile()) {
            found.push(path);
        }
    }
    return found.sort();
}

/** @param {string} path relative to the top folder */
export function isGenerated(path) {
    const folders = ['language/src/generated/'];
    const files = [
        'language/src/rules/index.ts',
        'language/src/document/types.ts',
        'language/schema/tree-document.schema.json',
    ];
    return folders.some(folder => path.startsWith(folder)) || files.includes(path);
}

/** @returns {string[]} every file of TypeScript and JavaScript that a person wrote */
export function listSources() {
    return listFiles().filter(path => /\.[cm]?[jt]s$/.test(path) && !isGenerated(path));
}

/**
 * @param {string} path relative to the top folder
 * @returns {string} the file's text with line feeds only
 */
export function readText(path) {
    return readFileSync(join(root, path), 'utf8').replaceAll('\r\n', '\n');
}

/**
 * Writes a file, and its folder where there is none yet; a file that holds the text already is left alone.
 *
 * @param {string} path relative to the top folder
 * @param {string} text
 */
export function writeText(path, text) {
    const file = join(root, path);
    if (existsSync(file) && readFileSync(file, 'utf8') === text) {
        return;
    }
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
}

/**
 * Runs a script on the Node that runs this one, with its output shown.
 *
 * @param {string} script a file, relative to the top folder
 * @param {readonly string[]} scriptArguments
 * @param {Record<string, string>} environment variables to add
 * @returns {number} its exit status; 1 where it could not be started or was killed
 */
export function runNode(script, scriptArguments = [], environment = {}) {
    const result = spawnSync(process.execPath, [join(root, script), ...scriptArguments], {
        cwd: root,
        stdio: 'inherit',
        env: { ...process.env, ...environment },
    });
    return result.status ?? 1;
}

/** The start files of the tools that we run as processes of their own. */
export const tools = {
    typeScript: 'node_modules/@typescript/native/bin/tsc',
    vitest: 'node_modules/vitest/vitest.mjs',
    eslint: 'node_modules/eslint/bin/eslint.js',
    prettier: 'node_modules/prettier/bin/prettier.cjs',
    langium: 'node_modules/langium-cli/bin/langium.js',
};
