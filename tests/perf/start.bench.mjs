/**
 * Compares how long the command line takes to start, and to check one small file, with how long Node itself takes.
 * Use: npm run bench -- start [--rounds 15]
 */
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { root, runNode } from '../house/project.mjs';
import { measureInTurn, showTable, writeWorkspace } from './measure.mjs';

const { values } = parseArgs({ options: { rounds: { type: 'string', default: '15' } } });
if (runNode('tests/house/build.mjs', ['cli']) !== 0) {
    process.exit(1);
}
const command = join(root, 'cli/bin/halfsplit.cjs');
const folder = writeWorkspace('small-file', [{ path: 'lamp.fault', text: smallFile() }]);
const [node, version, check] = measureInTurn(
    [
        { name: 'Node', words: ['-e', '0'] },
        { name: 'the version', words: [command, '--version'] },
        { name: 'the check', words: [command, 'check', join(folder, 'lamp.fault')] },
    ],
    Number(values.rounds),
);
showTable([
    ['start', 'time', 'ratio', 'at most', 'memory'],
    row('node -e 0', node, ''),
    row('halfsplit --version', version, '2'),
    row('halfsplit check lamp.fault', check, '4'),
]);

/**
 * @param {string} name
 * @param {import('./measure.mjs').Measured} measured
 * @param {string} most
 */
function row(name, { milliseconds, megabytes }, most) {
    const ratio = (milliseconds / node.milliseconds).toFixed(2);
    return [name, `${milliseconds.toFixed(0)} ms`, ratio, most, `${megabytes.toFixed(0)} MB`];
}

function smallFile() {
    return `// A lamp with one fault. It is invented.
equipment lamp "Work lamp" {
  supply spur "Supply"
  part bulb "Bulb" {
    replace "Fit a new bulb" takes 2 min
    fault burnt "Burnt out" rate 90 per 1e6 h
  }
  flow power: spur -> bulb -> [light]
  test light "Is there light?" { observe by eye  normal yes  absent no }
}
tree dark "The lamp stays dark" of lamp {
  complaint light absent
  step look { test light { normal -> fine  absent -> bad-bulb } }
  conclude bad-bulb "The bulb is burnt out" { bulb.burnt }
  refer fine "Nothing to do" because "there is light"
}
`;
}
