/** Makes the parser's tables from the generated grammar, and the grammar in the form in which the parser loads it. */
import { build } from 'esbuild';
import { relative, sep } from 'node:path';
import { root } from './project.mjs';

/** @typedef {import('./work-out-parser-tables.js').WorkedOutTables} WorkedOutTables */

const source = 'tests/house/work-out-parser-tables.ts';
const parserTablesFile = 'language/src/generated/parser-tables.ts';
const grammarFile = 'language/src/generated/grammar.ts';
const grammarJsonFile = 'language/src/generated/grammar-json.ts';

/**
 * Makes both files from the grammar as it is generated now, whether or not that has been written yet.
 *
 * @param {ReadonlyMap<string, string>} fromGrammar the text of each file that Langium generates, by its path
 * @returns {Promise<Map<string, string>>} the text of each file by its path
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
    return new Map([
        [parserTablesFile, writeTables(workOutParserTables())],
        [grammarJsonFile, writeGrammarJson(fromGrammar.get(grammarFile) ?? '')],
    ]);
}

/** @param {string} text the file in which Langium puts its call of its own loader around the grammar */
function writeGrammarJson(text) {
    const json = /loadGrammarFromJson\(('.*')\)\);\n/.exec(text)?.[1];
    if (json === undefined) {
        throw new Error('Langium has written the grammar in another form than before.');
    }
    return `/** The grammar as JSON. Written by \`npm run generate\`: do not edit. */\nexport const grammarJson =\n    ${json};\n`;
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
function writeTables(tables) {
    return `/** What is known of the grammar before a file is read. Written by \`npm run generate\`: do not edit. */
export interface ParserTables {
    /** The words and signs of the language in the order in which they are tried, each with the tokens that may be longer. */
    readonly words: readonly (readonly string[])[];
    /** The words that may also be names somewhere. */
    readonly wordsAsNames: readonly string[];
    /** The name of each rule and the type of its nodes, which is empty where the rule gives a text. */
    readonly rules: readonly (readonly [name: string, type: string])[];
    /** For each type of nodes the properties that are there even where nothing is written for them. */
    readonly defaults: Readonly<Record<string, readonly (readonly [property: string, value: boolean | never[]])[]>>;
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

/** The tables; made when they are first asked for, because not every run reads a file. */
export function parserTables(): ParserTables {
    return (tables ??= makeTables());
}

let tables: ParserTables | undefined;

function makeTables(): ParserTables {
    return {
${Object.entries(tables)
    .map(([name, list]) => `        ${name}: ${JSON.stringify(list)},\n`)
    .join('')}    };
}
`;
}
