/** Divides a bundle: what is imported only when it is needed goes into files of their own, which load only then. */
import { relative, sep } from 'node:path';
import { root } from './project.mjs';

/**
 * @typedef {object} Part
 * @property {string} file the file's name, beside the bundle
 * @property {(path: string) => boolean} holds whether a module, by its path from the top folder, belongs into it
 */

/**
 * Gives a plugin for the bundle that imports the parts. When that bundle is made, the second function tells what to
 * bundle for a part: a module that hands on all modules of the part. Without modules there is no such part.
 *
 * All modules of a part share what they import, so that nothing of it is there twice within the part.
 *
 * @param {readonly Part[]} parts the first that holds a module gets it
 * @returns {{ plugin: import('esbuild').Plugin, entryOf: (part: Part) => string | undefined }}
 */
export function divide(parts) {
    /** @type {Map<string, Part>} */
    const modules = new Map();
    const resolving = Symbol('resolving');
    return {
        plugin: {
            name: 'divide',
            setup(bundler) {
                bundler.onResolve({ filter: /./ }, async ({ path, kind, importer, resolveDir, pluginData }) => {
                    if (kind !== 'dynamic-import' || pluginData === resolving) {
                        return undefined;
                    }
                    const found = await bundler.resolve(path, { kind, importer, resolveDir, pluginData: resolving });
                    const part = parts.find(({ holds }) => holds(fromRoot(found.path)));
                    if (part === undefined || found.errors.length > 0) {
                        return found;
                    }
                    modules.set(found.path, part);
                    return { path: found.path, namespace: 'part' };
                });
                bundler.onLoad({ filter: /./, namespace: 'part' }, ({ path }) => {
                    const file = JSON.stringify(`./${modules.get(path)?.file}`);
                    return { contents: `module.exports = require(${file}).${nameOf(path)};`, loader: 'js' };
                });
                bundler.onResolve({ filter: /./, namespace: 'part' }, ({ path }) => ({ path, external: true }));
            },
        },
        entryOf: part => {
            const paths = [...modules.keys()].filter(path => modules.get(path) === part).sort();
            return paths.length === 0
                ? undefined
                : paths.map(path => `export * as ${nameOf(path)} from ${JSON.stringify(path)};`).join('\n');
        },
    };
}

/** @param {string} path */
function fromRoot(path) {
    return relative(root, path).split(sep).join('/');
}

/** @param {string} path */
function nameOf(path) {
    return fromRoot(path).replace(/\W/g, '_');
}
