/** The verb `export`: verified documents, where they go, and that nothing is ever half written. */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { TreeDocument } from '../../language/src/document/types.js';
import { schemaErrors } from '../document/support.js';
import { bell, cleanFiles, listAll, makeFolder, read, run, silent, wrongSilent } from './support.js';

const loud = silent.replaceAll('silent', 'loud').replace('does not ring', 'does not stop');

describe('a verified tree', () => {
    test('becomes a valid document with the digests of its sources', async () => {
        const folder = makeFolder(cleanFiles);
        expect(await run(['export', 'silent'], { folder })).toEqual({
            status: 0,
            output: '',
            messages: 'Wrote `silent.json`.\n',
        });
        const document = JSON.parse(read(folder, 'silent.json')) as TreeDocument;
        expect(schemaErrors(document)).toEqual([]);
        expect(document.verification.tool).toEqual({ name: 'halfsplit', version: '0.1.0' });
        // The same digests as Node's own SHA-256 of the files gives.
        expect(document.verification.sources).toEqual(
            ['bell.fault', 'silent.fault'].map(path => ({
                path,
                sha256: createHash('sha256')
                    .update(readFileSync(join(folder, path)))
                    .digest('hex'),
            })),
        );
    });

    test('carries the digests of the pictures that it shows', async () => {
        const picture = '<svg xmlns="http://www.w3.org/2000/svg"/>';
        const shown = silent.replace('  complaint', '  picture "a.svg" "The button"\n  complaint');
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': shown, 'a.svg': picture });
        await run(['export', 'silent'], { folder });
        const document = JSON.parse(read(folder, 'silent.json')) as TreeDocument;
        const sha256 = createHash('sha256').update(picture).digest('hex');
        expect(document.pictures).toEqual([{ path: 'a.svg', sha256 }]);
    });

    test('is written in the locale of the workspace', async () => {
        const folder = makeFolder({ ...cleanFiles, 'halfsplit.json': '{ "locale": "de-AT" }' });
        const { output } = await run(['export', 'silent', '--out', '-'], { folder });
        expect((JSON.parse(output) as TreeDocument).locales).toEqual(['de-AT']);
    });

    test('gives the same bytes each time, from every folder, and however it is named', async () => {
        const files = Object.fromEntries(Object.entries(cleanFiles).map(([path, text]) => [`world/${path}`, text]));
        const folder = makeFolder(files);
        const inner = join(folder, 'world');
        const texts = [
            await run(['export', 'silent', '--out', '-'], { folder: inner }),
            await run(['export', 'silent.fault', '--out', '-'], { folder: inner }),
            await run(['export', '--out', '-'], { folder: inner }),
            await run(['export', 'world', '--out', '-'], { folder }),
            await run(['export', 'world/silent.fault', '--out', '-'], { folder }),
        ].map(({ output }) => output);
        expect(texts[0]?.length).toBeGreaterThan(1000);
        expect(new Set(texts).size).toBe(1);
    });

    test('can be written for people or in canonical form', async () => {
        const folder = makeFolder(cleanFiles);
        const plain = await run(['export', 'silent', '--out', '-'], { folder });
        const pretty = await run(['export', 'silent', '--out', '-', '--pretty'], { folder });
        const canonical = await run(['export', 'silent', '--out', '-', '--canonical'], { folder });
        expect(pretty.output).toBe(plain.output);
        expect(pretty.output).toMatch(/^\{\n {2}"format"/);
        expect(canonical.output).not.toContain('\n');
        expect(JSON.parse(canonical.output)).toEqual(JSON.parse(pretty.output));
        expect((await run(['export', '--pretty', '--canonical'], { folder })).status).toBe(2);
    });
});

describe('the place', () => {
    const twoTrees = { ...cleanFiles, 'loud.fault': loud };

    test('is the current folder, or another folder, which is made where needed', async () => {
        const folder = makeFolder(twoTrees);
        const { messages } = await run(['export', '--out', 'a/b'], { folder });
        expect(messages).toBe(
            `Wrote \`${join('a', 'b', 'loud.json')}\`.\nWrote \`${join('a', 'b', 'silent.json')}\`.\n`,
        );
        expect(listAll(join(folder, 'a'))).toEqual(['b/loud.json', 'b/silent.json']);
    });

    test('is one file for one tree', async () => {
        const folder = makeFolder(twoTrees);
        await run(['export', 'loud', '--out', 'out/mine.json'], { folder });
        expect(listAll(join(folder, 'out'))).toEqual(['mine.json']);
        expect((await run(['export', '--out', 'mine.json'], { folder })).status).toBe(2);
        expect((await run(['export', '--out', '-'], { folder })).status).toBe(2);
    });

    test('may be a folder with the ending of a file', async () => {
        const folder = makeFolder(twoTrees);
        mkdirSync(join(folder, 'out.json'));
        await run(['export', 'loud', '--out', 'out.json'], { folder });
        expect(read(folder, 'out.json/loud.json')).toContain('"loud"');
    });

    test('has safe names, whatever a tree is called', async () => {
        const files = Object.fromEntries(
            ['con', 'Über-Strom', 'a_b'].map(name => [`${name}.fault`, silent.replace('tree silent', `tree ${name}`)]),
        );
        const folder = makeFolder({ 'bell.fault': bell, ...files });
        await run(['export', '--out', 'out'], { folder });
        expect(listAll(join(folder, 'out'))).toEqual(['a_b.json', 'tree-con.json', 'Über-Strom.json'].sort());
    });

    test('is refused where two trees would have the same file', async () => {
        const files = { ...cleanFiles, 'other.fault': silent.replace('tree silent', 'tree SILENT') };
        const folder = makeFolder(files);
        const { status, messages } = await run(['export', '--out', 'out'], { folder });
        expect(messages).toContain('Two trees would be written to');
        expect(status).toBe(2);
        expect(listAll(folder)).toEqual(Object.keys(files).sort());
    });

    test('replaces a link and does not write through it', async () => {
        const outside = makeFolder({ 'precious.json': 'precious' });
        const folder = makeFolder(cleanFiles);
        symlinkSync(join(outside, 'precious.json'), join(folder, 'silent.json'));
        await run(['export', 'silent'], { folder });
        expect(read(outside, 'precious.json')).toBe('precious');
        expect(read(folder, 'silent.json')).toContain('"silent"');
    });
});

describe('errors', () => {
    test('keep everything from being written, and are shown', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent, 'loud.fault': loud });
        const { status, output, messages } = await run(['export', '--out', 'out'], { folder });
        expect(messages).toContain('silent.fault:7:47   error   unknown-name');
        expect(messages).toContain('Nothing is written: 1 error stands in the way of `silent`.\n');
        expect(output).toBe('');
        expect(status).toBe(1);
        expect(listAll(folder)).not.toContain('out/loud.json');
    });

    test('count only in files that the tree reaches', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent, 'loud.fault': loud });
        expect((await run(['export', 'loud'], { folder })).status).toBe(0);
        const broken = makeFolder({ ...cleanFiles, 'bell.fault': `${bell}\npart` });
        const { status, messages } = await run(['export', 'silent'], { folder: broken });
        expect(messages).toContain('bell.fault:16:1   error   unexpected-text');
        expect(status).toBe(1);
    });

    test('in the settings count too', async () => {
        const folder = makeFolder({ ...cleanFiles, 'halfsplit.json': '{' });
        expect(await run(['export', 'silent', '--out', '-'], { folder })).toMatchObject({ status: 1, output: '' });
    });

    test('and warnings that are set to be errors count, other warnings do not', async () => {
        const files = { ...cleanFiles, 'bell.fault': bell.replace('  test ring', '  zone hall "Hall"\n\n  test ring') };
        expect((await run(['export', 'silent'], { folder: makeFolder(files) })).status).toBe(0);
        const settings = '{ "severities": { "unused-declaration": "error" } }';
        const strict = makeFolder({ ...files, 'halfsplit.json': settings });
        expect((await run(['export', 'silent'], { folder: strict })).status).toBe(1);
    });
});

describe('what is not there', () => {
    test('is said with what is there', async () => {
        const folder = makeFolder(cleanFiles);
        const { status, messages } = await run(['export', 'slient'], { folder });
        expect(messages).toBe(
            'halfsplit: There is no tree called `slient` in this folder.\nThere is a tree with a similar name: `silent`.\n',
        );
        expect(status).toBe(2);
        expect((await run(['export', 'other'], { folder })).messages).toContain('There are the trees `silent`.');
        expect((await run(['export', 'bell.fault'], { folder })).messages).toContain(
            'There is no tree in `bell.fault`.',
        );
        expect((await run(['export', 'none.fault'], { folder })).status).toBe(2);
    });

    test('is said with both places where two trees have the name', async () => {
        const folder = makeFolder({ ...cleanFiles, 'other.fault': silent });
        const { status, messages } = await run(['export', 'silent'], { folder });
        expect(messages).toContain('Give the file instead: `other.fault` or `silent.fault`.');
        expect(status).toBe(2);
    });
});

describe('the disk', () => {
    const failing = (code: string) => () => {
        throw Object.assign(new Error(`${code}: the words of the system`), { code });
    };

    test.each([
        ['full', 'ENOSPC', 'The disk is full.'],
        ['read-only', 'EROFS', 'the disk is read-only'],
        ['broken', 'EIO', 'The disk cannot be read or written there.'],
        ['not ours', 'EACCES', 'There is no permission for it.'],
    ])('may be %s: nothing is left behind', async (_, code, words) => {
        for (const step of ['createFile', 'rename', 'makeFolder'] as const) {
            const folder = makeFolder({ ...cleanFiles, 'silent.json': 'before' });
            const { status, messages } = await run(['export', 'silent'], { folder, disk: { [step]: failing(code) } });
            expect(messages).toBe(
                `halfsplit: \`silent.json\` cannot be written. ${words[0] === 't' ? `Nothing can be written there: ${words}.` : words}\nNo file has been left half written.\n`,
            );
            expect(status).toBe(2);
            expect(read(folder, 'silent.json')).toBe('before');
            expect(listAll(folder)).toEqual([...Object.keys(cleanFiles), 'silent.json'].sort());
        }
    });

    test('may fill up between two files: neither is written', async () => {
        const folder = makeFolder({ ...cleanFiles, 'loud.fault': loud });
        const { processDisk } = await import('../../cli/src/files/disk.js');
        let files = 0;
        const createFile: typeof processDisk.createFile = (file, text, mode) => {
            files += 1;
            if (files === 2) failing('ENOSPC')();
            processDisk.createFile(file, text, mode);
        };
        expect((await run(['export', '--out', 'out'], { folder, disk: { createFile } })).status).toBe(2);
        expect(listAll(join(folder, 'out'))).toEqual([]);
    });

    test('may have a file where a folder is needed', async () => {
        const folder = makeFolder({ ...cleanFiles, out: 'a file' });
        const { status, messages } = await run(['export', 'silent', '--out', 'out/'], { folder });
        expect(messages).toContain('cannot be written.');
        expect(status).toBe(2);
        expect(read(folder, 'out')).toBe('a file');
    });

    test('may have a folder where the file should be', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.json/inner': '' });
        const { status, messages } = await run(['export', 'silent'], { folder });
        expect(messages).toContain('`silent.json` cannot be written.');
        expect(status).toBe(2);
        expect(listAll(folder)).toEqual([...Object.keys(cleanFiles), 'silent.json/inner'].sort());
    });
});
