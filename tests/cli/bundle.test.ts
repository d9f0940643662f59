/** The bundled program as a process of its own: streams, signals, and what it loads. */
import { spawn, spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { build, type Metafile } from 'esbuild';
import { beforeAll, describe, expect, test } from 'vitest';
import { root, runNode } from '../house/project.mjs';
import { bell, cleanFiles, expectNoStack, listAll, makeFolder, read, verdict } from './support.js';

const program = join(root, 'cli/bin/halfsplit.cjs');
const messy = bell.replaceAll('  ', '\t');

beforeAll(() => {
    expect(runNode('tests/house/build.mjs', ['cli'])).toBe(0);
}, 120_000);

/** Runs the bundle to its end. */
function runBundle(words: readonly string[], folder: string, input = '') {
    const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
        cwd: folder,
        input,
        encoding: 'utf8',
    });
    expectNoStack(stdout + stderr);
    return { status, stdout, stderr };
}

test('the bundle does what the program does', () => {
    const folder = makeFolder(cleanFiles);
    expect(runBundle(['--version'], folder)).toMatchObject({ status: 0, stderr: '' });
    expect(runBundle(['check'], folder)).toEqual({ status: 0, stdout: verdict('2 files: nothing found.'), stderr: '' });
    expect(runBundle(['format', '--check'], folder).status).toBe(0);
    expect(runBundle(['draw', 'silent'], folder)).toEqual({ status: 0, stdout: '', stderr: 'Wrote `silent.svg`.\n' });
    expect(runBundle(['export', 'silent'], folder)).toEqual({
        status: 0,
        stdout: '',
        stderr: 'Wrote `silent.json`.\n',
    });
    expect(listAll(folder)).toEqual([...Object.keys(cleanFiles), 'silent.json', 'silent.svg'].sort());
    expect(runBundle(['new', 'more'], folder).status).toBe(0);
    expect(runBundle(['explain', 'unknown-name'], folder).stdout).toContain('WHAT IT FINDS');
    expect(runBundle(['chek'], folder).status).toBe(2);
});

test('standard input is read to its end', () => {
    const folder = makeFolder();
    expect(runBundle(['check', '-'], folder, bell).stdout).toContain('1 file');
    expect(runBundle(['format', '-'], folder, messy).stdout).toBe(bell);
    // More than a pipe holds at once.
    const long = `${bell}\n// ${'a comment\n// '.repeat(50_000)}\n`;
    expect(runBundle(['format', '-'], folder, long).stdout.length).toBeGreaterThan(500_000);
    expect(runBundle(['check', '-'], folder, 'x'.repeat(20_000_000)).stdout).toContain('larger than 5 MB');
});

test('a reader that stops reading is no error', async () => {
    const folder = makeFolder(
        Object.fromEntries(Array.from({ length: 50 }, (_, index) => [`${index}.fault`, 'tree\n'.repeat(40)])),
    );
    const child = spawn(process.execPath, [program, 'check', '--format', 'json'], { cwd: folder });
    let messages = '';
    child.stderr.on('data', (data: Buffer) => (messages += data.toString()));
    child.stdout.once('data', () => child.stdout.destroy());
    const status = await new Promise(resolve => child.on('close', resolve));
    expect(messages).toBe('');
    expect(status).toBe(1);
});

test('a program that is stopped while it writes ends with 130 and leaves every file whole', async () => {
    const names = Array.from({ length: 400 }, (_, index) => `${String(index).padStart(3, '0')}.fault`);
    const folder = makeFolder(Object.fromEntries(names.map(name => [name, messy])));
    const child = spawn(process.execPath, [program, 'format'], { cwd: folder });
    child.stderr.once('data', () => child.kill('SIGINT'));
    const [status, signal] = await new Promise<[number | null, string | null]>(resolve => {
        child.on('close', (code, name) => resolve([code, name]));
    });
    // A shell shows 130 for both.
    expect(status === 130 || signal === 'SIGINT').toBe(true);
    expect(listAll(folder)).toEqual(names);
    const texts = names.map(name => read(folder, name));
    expect(texts.filter(text => text !== messy && text !== bell)).toEqual([]);
    expect(texts.filter(text => text === bell).length).toBeGreaterThan(0);
    expect(texts.filter(text => text === messy).length).toBeGreaterThan(0);
});

test('a current folder that has been taken away is said to be gone', () => {
    const folder = makeFolder({ 'here/bell.fault': bell });
    const script = 'rm -r ../here && "$0" "$1" check';
    const { status, stderr } = spawnSync('/bin/sh', ['-c', script, process.execPath, program], {
        cwd: join(folder, 'here'),
        encoding: 'utf8',
    });
    expect(stderr).toBe('halfsplit: The current folder is not there any more.\nChange to another folder first.\n');
    expect(status).toBe(2);
});

test('without the bundle the program says that it has to be built', () => {
    const folder = makeFolder();
    mkdirSync(join(folder, 'bin'));
    copyFileSync(program, join(folder, 'bin/halfsplit.cjs'));
    const { status, stderr } = spawnSync(process.execPath, [join(folder, 'bin/halfsplit.cjs')], { encoding: 'utf8' });
    expect(stderr).toContain('has not been built yet');
    expect(status).toBe(2);
});

describe('what is loaded at the start', () => {
    const start = 'cli/src/main.ts';

    test('leaves out the parser, the rules, the formatter and the export', async () => {
        const { metafile } = await build({
            absWorkingDir: root,
            entryPoints: [start],
            bundle: true,
            write: false,
            metafile: true,
            platform: 'node',
            conditions: ['halfsplit-source', 'module'],
        });
        const atOnce = reach(metafile, false);
        const ever = reach(metafile, true);
        const late =
            /node_modules\/(langium|chevrotain)|language\/src\/(rules|lower\/lower-file|format|document|drawing|generated)/;
        expect(ever.filter(file => late.test(file)).length).toBeGreaterThan(50);
        expect(atOnce.filter(file => late.test(file))).toEqual([]);
        expect(atOnce).toContain('cli/src/commands/check.ts');
        expect(atOnce.filter(file => file.includes('node_modules'))).toEqual([]);
    });

    /** The files that are reached from the start, by what is imported at once or by all imports. */
    function reach({ inputs }: Metafile, dynamic: boolean): readonly string[] {
        const reached = new Set([start]);
        for (const file of reached) {
            for (const { path, kind, external } of inputs[file]?.imports ?? []) {
                if (external !== true && (dynamic || kind !== 'dynamic-import')) reached.add(path);
            }
        }
        return [...reached];
    }
});
