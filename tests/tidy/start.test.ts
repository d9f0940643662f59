/** The script that `npm test` and `npm run demo` begin with installs what is missing, once, and says when it cannot. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readText } from '../house/project.mjs';
import { plant } from './support.js';

const lockFile = JSON.stringify({
    packages: {
        '': {},
        'node_modules/needed': { version: '1.0.0', integrity: 'sum' },
        'node_modules/for-another-platform': { version: '1.0.0', integrity: 'sum', optional: true },
    },
});
const record = (version: string) =>
    JSON.stringify({ packages: { 'node_modules/needed': { version, integrity: 'sum' } } });
// Stands in for npm: it writes what npm ci would write, and that it was run.
const npmThatInstalls = `
    const { mkdirSync, writeFileSync } = require('node:fs');
    mkdirSync('node_modules/needed', { recursive: true });
    writeFileSync('node_modules/needed/package.json', '{}');
    writeFileSync('node_modules/.package-lock.json', ${JSON.stringify(record('1.0.0'))});
    writeFileSync('installed.txt', process.argv.slice(2).join(' '));
`;

test('installs from the lock file where nothing is installed, then runs the script', () => {
    const { folder, status, output } = start({ npm: npmThatInstalls });
    expect(readFileSync(join(folder, 'installed.txt'), 'utf8')).toMatch(/^ci\b/);
    expect(output).toContain('nothing is installed yet');
    expect(output).toContain('the script ran with one,two');
    expect(status).toBe(7);
});

test('installs again where a package has another version than the lock file', () => {
    const { folder, output } = start({ npm: npmThatInstalls, installed: '0.9.0' });
    expect(existsSync(join(folder, 'installed.txt'))).toBe(true);
    expect(output).toContain('version 0.9.0 and not 1.0.0');
});

test('installs nothing where all is there', () => {
    const { folder, status, output } = start({ npm: npmThatInstalls, installed: '1.0.0' });
    expect(existsSync(join(folder, 'installed.txt'))).toBe(false);
    expect(output).toContain('the script ran');
    expect(status).toBe(7);
});

test('stops with a message where npm does not succeed', () => {
    const { status, output } = start({ npm: 'process.exit(3);' });
    expect(status).toBe(1);
    expect(output).toContain('npm ci did not succeed');
    expect(output).not.toContain('the script ran');
});

test('stops with a message where npm succeeds without installing', () => {
    const { status, output } = start({ npm: '' });
    expect(status).toBe(1);
    expect(output).toContain('nothing is installed yet');
    expect(output).not.toContain('the script ran');
});

interface Planted {
    /** The text of the script that stands in for npm. */
    readonly npm: string;
    /** The version that is installed of the one package that is needed. */
    readonly installed?: string;
}

function start({ npm, installed }: Planted): { folder: string; status: number | null; output: string } {
    const folder = plant({
        'package-lock.json': lockFile,
        'npm.cjs': npm,
        'tests/house/start.mjs': readText('tests/house/start.mjs'),
        'script.mjs': "console.log('the script ran with ' + process.argv.slice(2));\nprocess.exit(7);\n",
        ...(installed === undefined
            ? {}
            : {
                  'node_modules/.package-lock.json': record(installed),
                  'node_modules/needed/package.json': '{}',
              }),
    });
    const { status, stdout, stderr } = spawnSync(
        process.execPath,
        [join(folder, 'tests/house/start.mjs'), 'script.mjs', 'one', 'two'],
        { encoding: 'utf8', env: { ...process.env, npm_execpath: join(folder, 'npm.cjs') } },
    );
    return { folder, status, output: stdout + stderr };
}
