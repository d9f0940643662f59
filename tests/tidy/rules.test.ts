/** Every rule is a folder with its code and its page, and the index of the rules holds them all. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { rulePages } from '../../language/src/generated/rule-pages.js';
import { rules } from '../../language/src/rules/index.js';
import { root } from '../house/project.mjs';

const rulesFolder = join(root, 'language/src/rules');
const folders = readdirSync(rulesFolder, { withFileTypes: true })
    .filter(entry => entry.isDirectory())
    .map(entry => entry.name)
    .sort();

test('there are rules to look at', () => {
    expect(folders.length).toBeGreaterThan(0);
});

test('every rule folder holds its code and its page, and nothing else', () => {
    const contents = folders.map(folder => [folder, ...readdirSync(join(rulesFolder, folder)).sort()]);
    expect(contents).toEqual(folders.map(folder => [folder, 'rule.md', 'rule.ts']));
});

test('the code of every rule is the name of its folder, in kebab case', () => {
    expect(rules.map(({ code }) => code)).toEqual(folders);
    expect(folders.filter(folder => !/^[a-z]+(-[a-z]+)*$/.test(folder))).toEqual([]);
});

test('every rule has a page that is called as the rule is', () => {
    expect(Object.keys(rulePages).sort()).toEqual(folders);
    expect(folders.filter(folder => !rulePages[folder]?.startsWith(`# ${folder}\n`))).toEqual([]);
});
