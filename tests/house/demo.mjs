/** Shows what Halfsplit does, on the examples: `npm run demo`. Everything that it writes goes into the folder out. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, runNode } from './project.mjs';

const examples = 'examples';
const example = `${examples}/dust-extractor`;
const out = join(root, 'out');

const built = runNode('tests/house/build.mjs', ['cli']);
if (built !== 0) {
    process.exit(built);
}
mkdirSync(out, { recursive: true });

say(
    'Three invented machines: a workshop dust extractor with three trees, a charging point and a cold room with two each. First all is verified:',
);
show(0, 'check', examples);

say('A mistake gets a finding with its place, a unit that shows it, and how to mend it. Here is one made on purpose:');
const broken = copyWithMistake();
show(1, 'check', broken);

say('The verified trees are exported as JSON documents for a field app, and drawn:');
show(0, 'export', examples, '--out', 'out');
show(0, 'draw', examples, '--out', 'out');

say(`All of it is in the folder out:

  out/*.json              the exported trees; their schema is language/schema/tree-document.schema.json
  out/*.svg               the drawings: open one in a browser
  out/with-a-mistake      the copy with the mistake

To try next:

  node cli/bin/halfsplit.cjs --help                   what else there is
  node cli/bin/halfsplit.cjs new out/mine             a small workspace of your own
  node cli/bin/halfsplit.cjs explain branch-missing   a finding explained

To read next:

  ${example}/README.md   how the example is made
  language/reference.md              the language, form by form`);

/** Copies the example, and limits one branch of one of its trees to some of the builds. */
function copyWithMistake() {
    const copy = 'out/with-a-mistake';
    rmSync(join(root, copy), { recursive: true, force: true });
    cpSync(join(root, example), join(root, copy), { recursive: true });
    const file = `${copy}/no-airflow.fault`;
    const text = readFileSync(join(root, file), 'utf8');
    writeFileSync(join(root, file), text.replace('absent -> trip }', 'absent -> trip for single-phase }'));
    return file;
}

/**
 * Runs the command line with its output shown; any other ending than the expected one ends the demo.
 *
 * @param {number} expected the exit status
 * @param {...string} words what stands behind `halfsplit`
 */
function show(expected, ...words) {
    console.log(`$ halfsplit ${words.join(' ')}`);
    const { status } = spawnSync(process.execPath, [join(root, 'cli/bin/halfsplit.cjs'), ...words], {
        cwd: root,
        stdio: 'inherit',
    });
    if (status !== expected) {
        console.error(`\nhalfsplit ${words[0]} ended with status ${status}, and ${expected} was expected.`);
        process.exit(status === 0 || status === null ? 1 : status);
    }
}

/** @param {string} text */
function say(text) {
    console.log(`\n${text}\n`);
}
