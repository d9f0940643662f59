/** Makes the folder of a new rule from a template: `npm run new:rule -- reading-overlap`. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readText, root, runNode, writeText } from './project.mjs';

const [code, ...rest] = process.argv.slice(2);
if (code === undefined || rest.length > 0 || !/^[a-z]+(-[a-z]+)*$/.test(code)) {
    console.error(
        'Give one name in small letters and hyphens that names the bad thing: npm run new:rule -- reading-gap',
    );
    process.exit(2);
}
const folder = `language/src/rules/${code}`;
if (existsSync(join(root, folder))) {
    console.error(`There is a rule ${code} already.`);
    process.exit(2);
}
const { version } = JSON.parse(readText('package.json'));
for (const file of ['rule.ts', 'rule.md']) {
    const template = readText(`tests/house/templates/${file}.txt`);
    writeText(`${folder}/${file}`, template.replaceAll('{code}', code).replaceAll('{version}', version));
}
console.log(`Made ${folder}. Write rule.md first: its examples are the tests of the rule.`);
process.exit(runNode('tests/house/generate.mjs'));
