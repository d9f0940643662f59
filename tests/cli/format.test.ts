/** The verb `format`: what it changes, what it leaves alone, and how it writes. */
import { chmodSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bell, cleanFiles, listAll, makeFolder, read, run, silent } from './support.js';

const messy = bell.replaceAll('  ', '\t').replace('{\n', '{\n\n\n');

describe('files', () => {
    test('are laid out, and stay as they are the second time', async () => {
        const folder = makeFolder({ ...cleanFiles, 'bell.fault': messy });
        expect(await run(['format'], { folder })).toEqual({
            status: 0,
            output: '',
            messages: 'Changed `bell.fault`.\n2 files: 1 changed.\n',
        });
        expect(read(folder, 'bell.fault')).toBe(bell);
        expect((await run(['format'], { folder })).messages).toBe('2 files: none changed.\n');
    });

    test('are only named with --check', async () => {
        const folder = makeFolder({ ...cleanFiles, 'bell.fault': messy });
        expect(await run(['format', '--check'], { folder })).toEqual({
            status: 1,
            output: 'bell.fault\n',
            messages: '2 files: 1 would change.\n',
        });
        expect(read(folder, 'bell.fault')).toBe(messy);
        expect((await run(['format', '--check', 'silent.fault'], { folder })).status).toBe(0);
    });

    test('with errors stay as they are, and the others are laid out all the same', async () => {
        const wrong = `${messy}\npart`;
        const folder = makeFolder({ 'bell.fault': messy, 'wrong.fault': wrong });
        const { status, messages } = await run(['format'], { folder });
        expect(messages).toContain('wrong.fault:18:1   error   unexpected-text');
        expect(messages).toContain('2 files: 1 changed; 1 file stays as it is because of errors.\n');
        expect(status).toBe(1);
        expect(read(folder, 'wrong.fault')).toBe(wrong);
        expect(read(folder, 'bell.fault')).toBe(bell);
    });

    test('that are no UTF-8 are never written', async () => {
        const bytes = Buffer.from(messy.replace('Flat', 'Flach für'), 'latin1');
        const folder = makeFolder({ 'bell.fault': bytes });
        const { status, messages } = await run(['format'], { folder });
        expect(messages).toContain('UTF-8');
        expect(status).toBe(1);
        expect(Buffer.from(read(folder, 'bell.fault'), 'latin1')).not.toEqual(bell);
        expect(statSync(join(folder, 'bell.fault')).size).toBe(bytes.length);
    });

    test('keep their permissions', async () => {
        const folder = makeFolder({ 'bell.fault': messy });
        chmodSync(join(folder, 'bell.fault'), 0o750);
        await run(['format'], { folder });
        expect(read(folder, 'bell.fault')).toBe(bell);
        expect(statSync(join(folder, 'bell.fault')).mode & 0o7777).toBe(0o750);
    });

    test('keep the line ends and the byte order mark that they have', async () => {
        const folder = makeFolder({ 'bell.fault': `\uFEFF${messy.replaceAll('\n', '\r\n')}` });
        await run(['format'], { folder });
        const text = read(folder, 'bell.fault');
        expect(text.replaceAll('\r\n', '\n').replace('\uFEFF', '')).toBe(bell);
        expect(text).toMatch(/\r\n$/);
        expect((await run(['format', '--check'], { folder })).status).toBe(0);
    });

    test('are whole when the disk is full', async () => {
        const folder = makeFolder({ 'bell.fault': messy });
        const createFile = () => {
            throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' });
        };
        const { status, messages } = await run(['format'], { folder, disk: { createFile } });
        expect(messages).toContain('`bell.fault` cannot be written. The disk is full.');
        expect(status).toBe(2);
        expect(read(folder, 'bell.fault')).toBe(messy);
        expect(listAll(folder)).toEqual(['bell.fault']);
    });
});

describe('standard input', () => {
    test('comes out laid out', async () => {
        const folder = makeFolder();
        expect(await run(['format', '-'], { folder, input: messy })).toEqual({ status: 0, output: bell, messages: '' });
        expect(await run(['format', '-'], { folder, input: bell })).toMatchObject({ status: 0, output: bell });
    });

    test('is only compared with --check', async () => {
        const folder = makeFolder();
        const words = ['format', '-', '--check', '--name', 'bell.fault'];
        expect(await run(words, { folder, input: messy })).toMatchObject({ status: 1, output: 'bell.fault\n' });
        expect(await run(words, { folder, input: bell })).toMatchObject({ status: 0, output: '' });
    });

    test('with errors gives findings and no text', async () => {
        const folder = makeFolder();
        const { status, output, messages } = await run(['format', '-', '--name', 'a.fault'], { folder, input: 'tree' });
        expect(messages).toContain('a.fault:1:');
        expect(output).toBe('');
        expect(status).toBe(1);
    });

    test('is not mixed with paths', async () => {
        const folder = makeFolder(cleanFiles);
        expect((await run(['format', '-', 'bell.fault'], { folder, input: silent })).status).toBe(2);
        expect((await run(['format', '--name', 'bell.fault'], { folder })).status).toBe(2);
    });
});
