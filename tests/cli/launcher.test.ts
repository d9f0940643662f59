/** The file that starts the bundle keeps compiled code where the user's system keeps such things, and nowhere else. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readText, root, runNode } from '../house/project.mjs';

const program = join(root, 'cli/bin/halfsplit.cjs');
const folder = mkdtempSync(join(tmpdir(), 'halfsplit-launcher-'));
const keepsCode = Number(process.versions.node.split('.')[0]) >= 22;

beforeAll(() => {
    expect(runNode('tests/house/build.mjs', ['cli'])).toBe(0);
}, 120_000);

afterAll(() => {
    rmSync(folder, { recursive: true });
});

/** Starts the program with these variables, none of which leads to a folder of whoever runs the tests. */
function start(variables: Readonly<Record<string, string>>): void {
    const { status, stdout, stderr } = spawnSync(process.execPath, [program, '--version'], {
        cwd: folder,
        encoding: 'utf8',
        env: { PATH: process.env['PATH'], HOME: '/dev/null', TMPDIR: join(folder, 'temporary'), ...variables },
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toMatch(/^halfsplit \d+\.\d+\.\d+\n$/);
}

test('compiled code is kept in the cache folder of the user', () => {
    const places: Partial<Record<NodeJS.Platform, string>> = { darwin: 'home/Library/Caches', win32: 'local' };
    const home = join(folder, 'home');
    start({
        HOME: home,
        USERPROFILE: home,
        LOCALAPPDATA: join(folder, 'local'),
        XDG_CACHE_HOME: join(folder, 'cache'),
    });
    expect(existsSync(join(folder, places[process.platform] ?? 'cache', 'halfsplit'))).toBe(keepsCode);
});

test('without a folder that can be written to, the program starts all the same', () => {
    start({ XDG_CACHE_HOME: '/dev/null' });
    start({ HOME: '', XDG_CACHE_HOME: 'relative' });
    expect(existsSync(join(folder, 'relative'))).toBe(false);
});

test('a folder that the user has named to Node is used as it is', () => {
    start({ NODE_COMPILE_CACHE: join(folder, 'named'), XDG_CACHE_HOME: join(folder, 'other') });
    expect(existsSync(join(folder, 'other'))).toBe(false);
    if (keepsCode) expect(readdirSync(join(folder, 'named'))).not.toEqual([]);
});

test('the bundle holds what reading takes, and nothing of the language server', () => {
    const held = readText('cli/dist/third-party-licenses/language.cjs.txt').match(/^\S+ [\d.]+ \(.*\)$/gm);
    const packages = held?.map(line => line.slice(0, line.indexOf(' '))) ?? [];
    expect(packages).toContain('langium');
    expect(packages.filter(name => name.startsWith('vscode-'))).toEqual([]);
});
