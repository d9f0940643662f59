/** Imports go in the directions that the table names, by what they resolve to and not only by how they are written. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { cruise, type ICruiseOptions, type ICruiseResult } from 'dependency-cruiser';
import extractTypeScriptConfiguration from 'dependency-cruiser/config-utl/extract-ts-config';
import { expect, test } from 'vitest';
import configuration from '../../dependency-cruiser.config.mjs';
import { areaOf } from '../house/import-directions.mjs';
import { isGenerated, listFiles, root } from '../house/project.mjs';
import { plant } from './support.js';

const minutes = 60_000;

test('every import goes in a direction that the table names', { timeout: 3 * minutes }, async () => {
    const sources = listFiles().filter(path => /^(language|cli|extension)\/src\/.*\.ts$/.test(path));
    const { modules, summary } = await cruiseFolders(root, ['language', 'cli', 'extension']);
    const looked = new Set(modules.map(({ source }) => source));
    expect(
        sources.filter(path => !looked.has(path)),
        'sources that were not looked at',
    ).toEqual([]);
    expect(summary.totalCruised).toBeGreaterThanOrEqual(sources.length);
    expect(summary.totalDependenciesCruised ?? 0).toBeGreaterThan(sources.length / 2);
    expect(summary.violations.map(({ rule, from, to }) => `${from} imports ${to} (${rule.name})`)).toEqual([]);
});

test('every folder of sources has its line in the table', () => {
    const sources = listFiles().filter(path => /^(language|cli|extension)\/src\/.*\.ts$/.test(path));
    expect(sources.length).toBeGreaterThan(0);
    expect(sources.filter(path => !isGenerated(path) && areaOf(path) === undefined)).toEqual([]);
});

const language = 'language/src';
const forbidden: [from: string, to: string][] = [
    [`${language}/core/a.ts`, `${language}/rules/b.ts`],
    [`${language}/core/a.ts`, `${language}/lower/b.ts`],
    [`${language}/core/a.ts`, 'langium'],
    [`${language}/core/a.ts`, 'node:fs'],
    [`${language}/rules/a.ts`, 'langium'],
    [`${language}/rules/a.ts`, `${language}/generated/b.ts`],
    [`${language}/drawing/a.ts`, `${language}/document/b.ts`],
    [`${language}/document/a.ts`, `${language}/core/b.ts`],
    [`${language}/document/writing/a.ts`, `${language}/lower/b.ts`],
    [`${language}/player/a.ts`, `${language}/core/b.ts`],
    [`${language}/player/a.ts`, `${language}/document/b.ts`],
    [`${language}/format/a.ts`, `${language}/rules/b.ts`],
    [`${language}/lower/a.ts`, 'vscode-languageserver'],
    [`${language}/lower/a.ts`, 'node:fs'],
    [`${language}/protocol/a.ts`, `${language}/core/b.ts`],
    [`${language}/services/a.ts`, `${language}/server/b.ts`],
    [`${language}/server/a.ts`, `${language}/core/b.ts`],
    [`${language}/index.ts`, `${language}/services/b.ts`],
    ['cli/src/a.ts', `${language}/core/b.ts`],
    ['cli/src/a.ts', 'langium'],
    ['extension/src/a.ts', `${language}/index.ts`],
    ['extension/src/webview/a.ts', 'node:fs'],
    ['extension/src/webview/a.ts', 'extension/src/b.ts'],
];
const allowed: [from: string, to: string][] = [
    [`${language}/core/a.ts`, `${language}/core/b.ts`],
    [`${language}/core/a.ts`, 'fraction.js'],
    [`${language}/rules/a.ts`, `${language}/core/b.ts`],
    [`${language}/lower/a.ts`, `${language}/generated/b.ts`],
    [`${language}/lower/a.ts`, 'langium'],
    [`${language}/services/a.ts`, `${language}/protocol/b.ts`],
    [`${language}/services/a.ts`, 'vscode-languageserver'],
    [`${language}/server/a.ts`, `${language}/services/b.ts`],
    [`${language}/document/writing/a.ts`, `${language}/core/b.ts`],
    [`${language}/index.ts`, `${language}/document/b.ts`],
    ['cli/src/a.ts', `${language}/index.ts`],
    ['cli/src/a.ts', 'node:fs'],
    ['extension/src/a.ts', `${language}/protocol/b.ts`],
    ['extension/src/webview/a.ts', `${language}/protocol/b.ts`],
];

test.each(forbidden)('%s may not import %s', { timeout: minutes }, async (from, to) => {
    const found = await cruisePlanted(from, to, 'import');
    expect(found.length).toBeGreaterThan(0);
});

test.each(allowed)('%s may import %s', { timeout: minutes }, async (from, to) => {
    expect(await cruisePlanted(from, to, 'import')).toEqual([]);
});

test('the document may import types of the core', { timeout: minutes }, async () => {
    expect(await cruisePlanted(`${language}/document/a.ts`, `${language}/core/b.ts`, 'import type')).toEqual([]);
});

test('two files may not import each other', { timeout: minutes }, async () => {
    const folder = plant({
        [`${language}/core/a.ts`]: "import { b } from './b.js';\nexport const a = () => b;\n",
        [`${language}/core/b.ts`]: "import { a } from './a.js';\nexport const b = () => a;\n",
    });
    const { summary } = await cruiseFolders(folder, ['language']);
    expect(summary.violations.map(({ rule }) => rule.name)).toContain('no-circle');
});

/** Plants one file that imports another file or a package, and gives the names of the rules that it breaks. */
async function cruisePlanted(from: string, to: string, form: string): Promise<string[]> {
    const depth = from.split('/').length - 1;
    const specifier = to.endsWith('.ts') ? `${'../'.repeat(depth)}${to.replace(/\.ts$/, '.js')}` : to;
    const folder = plant({
        [from]: `${form} { b } from '${specifier}';\nexport const a: typeof b | undefined = undefined;\n`,
        ...(to.endsWith('.ts') ? { [to]: 'export const b = 1;\n' } : {}),
        ...(to.endsWith('.ts') || to.startsWith('node:') ? {} : plantedPackage(to)),
    });
    const { summary } = await cruiseFolders(
        folder,
        readdirSync(folder).filter(name => name !== 'node_modules'),
    );
    expect(summary.totalDependenciesCruised).toBeGreaterThan(0);
    return summary.violations.map(({ rule }) => rule.name);
}

function plantedPackage(name: string): Record<string, string> {
    return {
        [`node_modules/${name}/package.json`]: JSON.stringify({ name, main: 'index.js' }),
        [`node_modules/${name}/index.js`]: 'exports.b = 1;\n',
    };
}

async function cruiseFolders(baseDir: string, folders: string[]): Promise<ICruiseResult> {
    const { options, forbidden: rules } = configuration;
    const cruiseOptions: ICruiseOptions = {
        ...options,
        baseDir,
        validate: true,
        ruleSet: { forbidden: rules ?? [] },
    };
    const tsConfig = extractTypeScriptConfiguration(join(root, 'tsconfig.json'));
    const { output } = await cruise(folders, cruiseOptions, {}, { tsConfig });
    if (typeof output === 'string') {
        throw new Error(output);
    }
    return output;
}
