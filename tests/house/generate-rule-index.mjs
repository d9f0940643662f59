/** Makes the index of the rules, and the text of their pages, from the folders under language/src/rules. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { listFiles, readText, root } from './project.mjs';

const rulesFolder = 'language/src/rules';

/**
 * Makes both files. The pages are bundled as text so that nothing has to read a file at run time.
 *
 * @returns {Map<string, string>} the text of each file by its path
 */
export function generateRuleFiles() {
    const codes = listRuleCodes();
    return new Map([
        [`${rulesFolder}/index.ts`, writeIndex(codes)],
        ['language/src/generated/rule-pages.ts', writePages(codes)],
    ]);
}

/** @returns {string[]} the codes of all rules, which are the names of their folders, sorted */
export function listRuleCodes() {
    if (!existsSync(join(root, rulesFolder))) {
        return [];
    }
    return listFiles(rulesFolder)
        .map(path => /^language\/src\/rules\/([^/]+)\/rule\.ts$/.exec(path)?.[1])
        .filter(code => code !== undefined)
        .sort();
}

/** @param {string[]} codes */
function writeIndex(codes) {
    return [
        '/** Every rule there is, in the order of the codes. Written by `npm run generate`: do not edit. */',
        "import type { Rule } from '../core/findings/rule.js';",
        ...codes.map(code => `import ${toIdentifier(code)} from './${code}/rule.js';`),
        '',
        'export const rules: readonly Rule[] = [',
        ...codes.map(code => `    ${toIdentifier(code)},`),
        '];',
        '',
    ].join('\n');
}

/** @param {string[]} codes */
function writePages(codes) {
    return [
        '/** The page of every rule as text, by the code of the rule. Written by `npm run generate`: do not edit. */',
        'export const rulePages: Readonly<Record<string, string>> = {',
        ...codes.flatMap(code => [
            `    '${code}': [`,
            ...readPage(code).map(line => `        ${JSON.stringify(line)},`),
            "    ].join('\\n'),",
        ]),
        '};',
        '',
    ].join('\n');
}

/**
 * @param {string} code
 * @returns {string[]} the lines of the rule's page; none where it has no page, which a test of its own reports
 */
function readPage(code) {
    const path = `${rulesFolder}/${code}/rule.md`;
    return existsSync(join(root, path)) ? readText(path).split('\n') : [];
}

/** @param {string} code such as reading-gap, which becomes readingGap */
function toIdentifier(code) {
    return code.replace(/-(.)/g, (_, letter) => letter.toUpperCase());
}
