/** Makes the parser's tables from the generated grammar. */
import { build } from 'esbuild';
import { relative, sep } from 'node:path';
import { root } from './project.mjs';

/** @typedef {import('./work-out-parser-tables.js').WorkedOutTables} WorkedOutTables */

const source = 'tests/house/work-out-parser-tables.ts';
const parserTablesFile = 'language/src/generated/parser-tables.ts';

/**
 * Makes the file from the grammar as it is generated now, whether or not that has been written yet.
 *
 * @param {ReadonlyMap<string, string>} fromGrammar the text of each file that Langium generates, by its path
 * @returns {Promise<Map<string, string>>} the text of the file by its path
 */
export async function generateParserTables(fromGrammar) {
    const { outputFiles } = await build({
        absWorkingDir: root,
        entryPoints: [source],
        bundle: true,
        write: false,
        format: 'esm',
        platform: 'node',
        logLevel: 'error',
        plugins: [readFresh(fromGrammar)],
    });
    const text = outputFiles[0]?.text ?? '';
    const { workOutParserTables } = await import(`data:text/javascript;base64,${Buffer.from(text).toString('base64')}`);
    return new Map([[parserTablesFile, writeFile(workOutParserTables())]]);
}

/**
 * @param {ReadonlyMap<string, string>} texts
 * @returns {import('esbuild').Plugin}
 */
function readFresh(texts) {
    return {
        name: 'read-fresh',
        setup(bundler) {
            bundler.onLoad({ filter: /\.ts$/ }, ({ path }) => {
                const contents = texts.get(relative(root, path).split(sep).join('/'));
                return contents === undefined ? undefined : { contents, loader: 'ts' };
            });
        },
    };
}

/** @param {WorkedOutTables} tables */
function writeFile(tables) {
    return `/** What is known of the grammar before a file is read. Written by \`npm run generate\`: do not edit. */
export interface ParserTables {
    /** The words and signs of the language in the order in which they are tried, each with the tokens that may be longer. */
    readonly words: readonly (readonly string[])[];
    /** The names of all tokens; the other lists go by their numbers. */
    readonly tokens: readonly string[];
    readonly sets: readonly (readonly number[])[];
    /** Pairs of the number of a set, and the branch for its tokens: -1 is none, -2 asks the grammar, -3 and less is a tree. */
    readonly trees: readonly (readonly number[])[];
    /** For each rule pairs of the number of a decision and of its tree. */
    readonly decisions: readonly (readonly number[])[];
    /** For each rule groups of four: a repetition, the token that must follow or -1, which of these, and 1 at the rule's end. */
    readonly afterRepetitions: readonly (readonly number[])[];
}

export function parserTables(): ParserTables {
    return {
${Object.entries(tables)
    .map(([name, list]) => `        ${name}: ${JSON.stringify(list)},\n`)
    .join('')}    };
}
`;
}
