/**
 * Writes the files that are made from other files: `npm run generate`.
 *
 * These are the grammar, the parser's tables and the syntax tree types (from the grammar), the index of the rules and their pages,
 * and the published schema and the types of the exported document.
 * With --check nothing is written: the status is 1 when a file is not what it would be written as.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { generateDocumentFiles } from './generate-document-types.mjs';
import { generateParserTables } from './generate-parser-tables.mjs';
import { generateRuleFiles } from './generate-rule-index.mjs';
import { buildFolder, listFiles, readText, root, tools, writeText } from './project.mjs';

const generatedFolder = 'language/src/generated';

const wanted = await generateAll();
const different = [...wanted].filter(([path, text]) => !existsSync(join(root, path)) || readText(path) !== text);
const leftOver = existsSync(join(root, generatedFolder))
    ? listFiles(generatedFolder).filter(path => !wanted.has(path))
    : [];

if (process.argv.includes('--check')) {
    const stale = [...different.map(([path]) => path), ...leftOver].sort();
    for (const path of stale) {
        console.error(`${path} is not what \`npm run generate\` would write.`);
    }
    console.log(`${wanted.size} generated files looked at, ${stale.length} not fresh.`);
    process.exit(stale.length === 0 ? 0 : 1);
}
for (const [path, text] of different) {
    writeText(path, text);
    console.log(`wrote ${path}`);
}
for (const path of leftOver) {
    rmSync(join(root, path));
    console.log(`removed ${path}`);
}
console.log(`${wanted.size} generated files are fresh.`);

/** @returns {Promise<Map<string, string>>} the text of every generated file by its path */
async function generateAll() {
    const fromGrammar = generateFromGrammar();
    return new Map([
        ...fromGrammar,
        ...(await generateParserTables(fromGrammar)),
        ...generateRuleFiles(),
        ...(await generateDocumentFiles()),
    ]);
}

/**
 * Lets Langium write into a folder of its own, so that checking changes nothing.
 *
 * @returns {Map<string, string>}
 */
function generateFromGrammar() {
    const workFolder = join(buildFolder, 'generate');
    const outFolder = join(workFolder, 'out');
    rmSync(workFolder, { recursive: true, force: true });
    const configuration = JSON.parse(readText('language/langium-config.json'));
    for (const language of configuration.languages) {
        language.grammar = relative(workFolder, join(root, 'language', language.grammar));
    }
    configuration.out = 'out';
    const configurationFile = join(workFolder, 'langium-config.json');
    writeText(relative(root, configurationFile), JSON.stringify(configuration));
    const result = spawnSync(
        process.execPath,
        [join(root, tools.langium), 'generate', '--file', configurationFile, '--mode', 'production'],
        { cwd: root, encoding: 'utf8' },
    );
    const written = existsSync(outFolder) ? readdirSync(outFolder) : [];
    if (result.status !== 0 || written.length === 0) {
        console.error(result.stdout, result.stderr);
        console.error('Langium could not generate from the grammar.');
        process.exit(1);
    }
    return new Map(
        written.map(name => [`${generatedFolder}/${name}`, readText(relative(root, join(outFolder, name)))]),
    );
}
