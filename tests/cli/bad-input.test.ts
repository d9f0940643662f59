/** Everything that can be wrong with what is read gives a clear finding, an exit status, and never a stack trace. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bell, cleanFiles, listAll, makeFolder, type Ran, read, run, silent, verdict } from './support.js';

/** Checks, lays out, draws and exports one bad file; each verb must say something and change nothing. */
async function checkFile(content: string | Uint8Array, path = 'bad.fault'): Promise<Ran> {
    const folder = makeFolder({ [path]: content });
    for (const words of [
        ['format', path],
        ['draw', path],
        ['export', path],
        ['format', '--check', path],
    ]) {
        await run(words, { folder });
        expect(listAll(folder).filter(file => !file.endsWith('.svg'))).toEqual([path]);
    }
    return run(['check', path], { folder });
}

describe('the content of a file', () => {
    test('may be empty', async () => {
        expect(await checkFile('')).toMatchObject({ status: 0, output: verdict('1 file: nothing found.') });
    });

    test.each([
        ['binary', Uint8Array.from({ length: 4096 }, (_, index) => index % 256), 'This is not a text file'],
        ['with zero characters', `${bell}\0`, 'it contains a zero character'],
        ['in UTF-16', Buffer.from(`\uFEFF${bell}`, 'utf16le'), 'zero character'],
        ['in another encoding than UTF-8', Buffer.from(bell.replace('Flat', 'Flach für'), 'latin1'), 'UTF-8'],
    ])('%s is said to be no text', async (_, content, words) => {
        const { status, output } = await checkFile(content);
        expect(output).toContain('bad.fault');
        expect(output).toMatch(/error {3}unreadable-file|error {3}unexpected-character/);
        expect(output).toContain(words);
        expect(status).toBe(1);
    });

    test('with a line of fifty million characters is refused before it is read', async () => {
        const { status, output } = await checkFile('a'.repeat(50_000_000));
        expect(output).toContain('error   unreadable-file');
        expect(output).toContain('This file has 47.7 MB; more than 15 MB is not read.');
        expect(output.length).toBeLessThan(1000);
        expect(status).toBe(2);
    });

    test('with a line of a million characters is refused, and the line is not printed', async () => {
        const { status, output } = await checkFile(`note "${'a'.repeat(1_000_000)}"`);
        expect(output).toContain('This line is longer than');
        expect(output.length).toBeLessThan(1000);
        expect(status).toBe(1);
    });

    test('with deep nesting is refused', async () => {
        const { status, output } = await checkFile(`equipment a { ${'('.repeat(100_000)}`);
        expect(output).toContain('bad.fault:1:');
        expect(status).toBe(1);
    });

    test('with line ends of another system, or a byte order mark, is as good as any', async () => {
        const returns = bell.replaceAll('\n', '\r\n');
        for (const content of [returns, `\uFEFF${bell}`, `\uFEFF${returns}`]) {
            const folder = makeFolder({ ...cleanFiles, 'bell.fault': content });
            expect(await run(['check'], { folder })).toMatchObject({ status: 0 });
        }
        const wrong = `uses "bell.fault"\r\n\r\ntree a "A" of gong {\r\n}\r\n`;
        const folder = makeFolder({ 'bell.fault': returns, 'wrong.fault': wrong });
        const { output } = await run(['check', 'wrong.fault'], { folder });
        expect(output).toContain('wrong.fault:3:15   error   unknown-name');
        expect(output).not.toContain('\r');
    });

    test('with ten thousand mistakes gives a report of moderate length', async () => {
        const { status, output } = await checkFile('tree tree\n'.repeat(10_000));
        expect(status).toBe(1);
        expect(output.length).toBeLessThan(500_000);
    });
});

describe('files that belong together', () => {
    test('may use each other in a circle', async () => {
        const folder = makeFolder({
            'a.fault': `uses "b.fault"\n${bell}`,
            'b.fault': `uses "c.fault"\n${silent.replace('uses "bell.fault"', '')}`,
            'c.fault': 'uses "a.fault"\nuses "c.fault"\n',
        });
        const { output } = await run(['check'], { folder });
        expect(output).toContain('warning   uses-circle');
        expect((await run(['check', 'b.fault'], { folder })).status).toBe(0);
    });

    test('may declare the same name twice', async () => {
        const folder = makeFolder({ ...cleanFiles, 'more.fault': `uses "silent.fault"\n${bell}` });
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('more.fault:2:11   error   name-taken');
        expect(status).toBe(1);
    });

    test('may be missing', async () => {
        const folder = makeFolder({ 'silent.fault': silent });
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('silent.fault:1:6   error   missing-file');
        expect(status).toBe(1);
    });
});

describe('paths that cannot be opened', () => {
    test.each([
        ['a path that is not there', 'nothing.fault', 'There is no such file.'],
        ['a folder that is not there', 'nothing', 'There is no such file.'],
        ['a path through a file', 'bell.fault/more.fault', 'a part of its path is no folder'],
        ['a file of another kind', 'notes.txt', 'the name of a source ends in `.fault`'],
        ['a name that is too long', `${'a'.repeat(300)}.fault`, 'Its name is too long.'],
    ])('%s', async (_, path, words) => {
        const folder = makeFolder({ ...cleanFiles, 'notes.txt': bell });
        const { status, output } = await run(['check', path], { folder });
        expect(output).toContain(`${path}   error   unreadable-file`);
        expect(output).toContain(words);
        expect(output).toContain('not opened');
        expect(status).toBe(2);
    });

    test('a folder that is called as a source is', async () => {
        const folder = makeFolder({ ...cleanFiles, 'x.fault/inner.fault': '' });
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('x.fault   error   unreadable-file\n  This is a folder');
        expect(output).toContain('3 files');
        expect(status).toBe(2);
        expect((await run(['check', 'x.fault'], { folder })).output).toContain('This is a folder');
    });

    test('a link that leads nowhere, and one that leads to itself', async () => {
        const folder = makeFolder(cleanFiles);
        symlinkSync('nothing.fault', join(folder, 'dangling.fault'));
        symlinkSync('circle.fault', join(folder, 'circle.fault'));
        symlinkSync('nothing.txt', join(folder, 'of-no-interest.txt'));
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain(
            'dangling.fault   error   unreadable-file\n  This link leads to a file that is not there.',
        );
        expect(output).toContain('circle.fault   error   unreadable-file\n  Its links lead in a circle.');
        expect(output).not.toContain('of-no-interest');
        expect(output).toContain('2 files: 2 errors; 2 not opened.');
        expect(status).toBe(2);
    });

    test('a pipe, which is never waited for', async () => {
        const folder = makeFolder(cleanFiles);
        expect(spawnSync('mkfifo', [join(folder, 'pipe.fault')]).status).toBe(0);
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('pipe.fault   error   unreadable-file\n  This is no ordinary file');
        expect(status).toBe(2);
        expect((await run(['format', 'pipe.fault'], { folder })).status).toBe(2);
        expect((await run(['export', 'pipe.fault'], { folder })).status).toBe(2);
    });

    test('settings that cannot be read', async () => {
        const folder = makeFolder(cleanFiles);
        writeFileSync(join(folder, 'halfsplit.json'), ' '.repeat(2_000_000));
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain(
            'halfsplit.json   error   settings-invalid\n  The settings are not read. This file has 1.9 MB',
        );
        expect(status).toBe(1);
    });
});

describe('links', () => {
    test('out of the workspace are not followed', async () => {
        const outside = makeFolder({ 'secret.fault': 'secret' });
        const folder = makeFolder(cleanFiles);
        symlinkSync(outside, join(folder, 'folder'));
        symlinkSync(join(outside, 'secret.fault'), join(folder, 'file.fault'));
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('file.fault   error   path-outside\n  This link leads out of the workspace');
        expect(output).toContain('folder   error   path-outside');
        expect(output).not.toContain('secret');
        expect(status).toBe(1);
    });

    test('out of the workspace are no way for `uses` either', async () => {
        const outside = makeFolder({ 'bell.fault': bell });
        const folder = makeFolder({ 'halfsplit.json': '{}', 'silent.fault': silent });
        symlinkSync(join(outside, 'bell.fault'), join(folder, 'bell.fault'));
        const { output } = await run(['check', 'silent.fault'], { folder });
        expect(output).toContain('silent.fault:1:6   error   path-outside');
    });

    test('within the workspace are followed once, also in a circle', async () => {
        const folder = makeFolder({ ...cleanFiles, 'inner/more.fault': '' });
        symlinkSync('..', join(folder, 'inner', 'up'));
        symlinkSync('.', join(folder, 'here'));
        symlinkSync('bell.fault', join(folder, 'alias.fault'));
        expect(await run(['check'], { folder })).toMatchObject({
            status: 0,
            output: verdict('3 files: nothing found.'),
        });
    });

    test('given by hand are followed wherever they lead', async () => {
        const outside = makeFolder(cleanFiles);
        const folder = makeFolder();
        symlinkSync(outside, join(folder, 'link'));
        expect((await run(['check', 'link'], { folder })).output).toBe(verdict('2 files: nothing found.'));
    });

    test('to a source stay links when the source is laid out', async () => {
        const folder = makeFolder({ ...cleanFiles, 'real/messy.txt': bell.replaceAll('  ', ' ') });
        symlinkSync('real/messy.txt', join(folder, 'messy.fault'));
        await run(['format', 'messy.fault'], { folder });
        expect(read(folder, 'real/messy.txt')).toBe(bell.replaceAll('  ', ' '));
        await run(['format', '.'], { folder });
        expect(read(folder, 'real/messy.txt')).toBe(bell);
        expect(listAll(folder)).toContain('messy.fault');
    });
});

describe('names of files', () => {
    test.each(['with blanks.fault', 'with \'quotes".fault', 'mit Umläuten äöü.fault', '日本語.fault', '-dash.fault'])(
        '%s is a name like any other',
        async name => {
            const folder = makeFolder({ [name]: 'tree' });
            const { status, output } = await run(['check'], { folder });
            expect(output).toContain(`${name}:1:`);
            expect(status).toBe(1);
            expect((await run(['check', `./${name}`], { folder })).output).toContain(`${name}:1:`);
        },
    );

    test('with line breaks and control characters are shown as codes', async () => {
        const folder = makeFolder({ 'a\nb\u001B[31m.fault': 'tree' });
        const { output } = await run(['check'], { folder });
        expect(output).toContain('a\\u{A}b\\u{1B}[31m.fault:1:');
        expect(output).not.toContain('\u001B');
    });

    test('that are no UTF-8 do no harm', async () => {
        const folder = makeFolder(cleanFiles);
        writeFileSync(
            Buffer.concat([Buffer.from(`${folder}/`), Buffer.from([0xff, 0xfe]), Buffer.from('.fault')]),
            bell,
        );
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('error   unreadable-file');
        expect(status).toBe(2);
    });

    test('deep inside many folders are found', async () => {
        const folder = makeFolder(cleanFiles);
        const deep = join(folder, ...Array.from({ length: 60 }, () => 'deep'));
        mkdirSync(deep, { recursive: true });
        writeFileSync(join(deep, 'more.fault'), '');
        expect((await run(['check'], { folder })).output).toContain('3 files');
    });
});
