/** The linter finds nothing in our sources, and finds what is planted. */
import { join } from 'node:path';
import { ESLint } from 'eslint';
import { expect, test } from 'vitest';
import { listSources, root } from '../house/project.mjs';

const minutes = 60_000;
// A typed check of planted text needs the path of a file that belongs to a project.
const fileInCore = 'language/src/core/quantities/decimal.ts';

test('the linter finds nothing in any source', { timeout: 5 * minutes }, async () => {
    const sources = listSources();
    const eslint = new ESLint({ cwd: root });
    const results = await eslint.lintFiles(['.']);
    const looked = results.map(({ filePath }) => filePath);
    const missed = sources.filter(path => !looked.includes(join(root, path)));
    const formatter = await eslint.loadFormatter('stylish');
    const found = results.filter(({ errorCount, warningCount }) => errorCount + warningCount > 0);
    expect(missed, 'sources that the linter did not look at').toEqual([]);
    expect(sources.length).toBeGreaterThan(0);
    expect(await formatter.format(found)).toBe('');
});

test.each([
    ['an explicit any', 'export const value: any = 1;', '@typescript-eslint/no-explicit-any'],
    ['a promise that nobody awaits', 'Promise.resolve(1);', '@typescript-eslint/no-floating-promises'],
    ['an unused variable', 'const unused = 1;', '@typescript-eslint/no-unused-vars'],
    [
        'an import of a value for its type',
        "import { Rule } from '../findings/rule.js';\nexport type Mine = Rule;",
        '@typescript-eslint/consistent-type-imports',
    ],
    ['an import of the parser library in the core', "export { URI } from 'langium';", 'no-restricted-imports'],
    ['an import of a Node module in the core', "export { join } from 'node:path';", 'no-restricted-imports'],
    ['an import upward from the core', "export { format } from '../../format/format.js';", 'no-restricted-imports'],
    ['a clock in the core', 'export const now = Date.now();', 'no-restricted-properties'],
])('the linter reports %s', { timeout: 2 * minutes }, async (_, text, rule) => {
    const [result] = await new ESLint({ cwd: root }).lintText(`${text}\n`, { filePath: join(root, fileInCore) });
    expect(result?.messages.map(({ ruleId }) => ruleId)).toContain(rule);
});
