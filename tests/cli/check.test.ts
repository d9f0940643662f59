/** The verb `check`: what is read, what is reported, and the exit status. */
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { bell, cleanFiles, makeFolder, run, silent, verdict, wrongSilent } from './support.js';

const unusedPart = bell.replace('  test ring', '  zone hall "Hall"\n\n  test ring');

describe('the exit status', () => {
    test('is 0 when nothing is found', async () => {
        const folder = makeFolder(cleanFiles);
        expect(await run(['check'], { folder })).toEqual({
            status: 0,
            output: verdict('2 files: nothing found.'),
            messages: '',
        });
    });

    test('is 1 for an error', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('silent.fault:7:47   error   unknown-name');
        expect(output).toContain('2 files: 1 error.');
        expect(status).toBe(1);
    });

    test('is 0 for a warning, unless warnings fail', async () => {
        const folder = makeFolder({ ...cleanFiles, 'bell.fault': unusedPart });
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('warning   unused-declaration');
        expect(status).toBe(0);
        expect((await run(['check', '--fail-on', 'error'], { folder })).status).toBe(0);
        expect((await run(['check', '--fail-on', 'warning'], { folder })).status).toBe(1);
        expect((await run(['check', '--fail-on', 'information'], { folder })).status).toBe(1);
    });

    test('is 2 where something cannot be opened, also when there are findings', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
        expect((await run(['check', '.', 'other.fault'], { folder })).status).toBe(2);
    });

    test('is 2 where there is nothing to check', async () => {
        const folder = makeFolder();
        const { status, messages } = await run(['check'], { folder });
        expect(status).toBe(2);
        expect(messages).toBe(
            'halfsplit: There is no `.fault` file in this folder.\n`halfsplit new FOLDER` makes a small workspace to begin with.\n',
        );
    });
});

describe('what is read', () => {
    test('is every source below a folder, except in hidden folders and installed packages', async () => {
        const folder = makeFolder({
            ...cleanFiles,
            'a/b/other.fault': bell.replaceAll('bell', 'gong'),
            '.hidden/wrong.fault': 'wrong',
            'node_modules/x/wrong.fault': 'wrong',
            'notes.txt': 'wrong',
        });
        const { output } = await run(['check'], { folder });
        expect(output).toContain('3 files');
        expect(output).not.toContain('wrong.fault');
    });

    test('includes the files that a source uses, but errors in them are only counted', async () => {
        const wrongBell = bell.replace('battery.flat', 'battery.flta');
        const folder = makeFolder({ ...cleanFiles, 'bell.fault': wrongBell });
        const { status, output } = await run(['check', 'silent.fault'], { folder });
        expect(output).toBe(
            verdict('1 file: nothing found.', 'There are errors in files that these use: 1 in `bell.fault`.'),
        );
        expect(status).toBe(0);
    });

    test('includes the rest of the workspace, so that what only another file names is used', async () => {
        const light =
            '  test light "Is the light on?" { checks battery.flat as absent  observe by eye  normal yes  absent no }';
        const bellWithTree = [bell.replace(/\}\n$/, `${light}\n}\n`), silent.replace('uses "bell.fault"\n', '')].join(
            '\n',
        );
        const dark = [
            'uses "bell.fault"',
            'tree dark "Dark" of bell {',
            '  complaint light absent',
            '  step look { test light { normal -> ask  absent -> ask } }',
            '  refer ask "Ask" because "nobody knows"',
            '}',
        ].join('\n');
        const alone = makeFolder({ 'bell.fault': bellWithTree });
        expect((await run(['check', 'bell.fault'], { folder: alone })).output).toContain(
            'warning   unused-declaration',
        );
        const beside = makeFolder({ 'bell.fault': bellWithTree, 'dark.fault': dark });
        const settings = makeFolder({
            'halfsplit.json': '{}',
            'bell.fault': bellWithTree,
            'more/dark.fault': dark.replace('bell.fault', '../bell.fault'),
        });
        for (const folder of [beside, settings]) {
            expect((await run(['check', 'bell.fault'], { folder })).output).toBe(verdict('1 file: nothing found.'));
            const input = await run(['check', '-', '--name', 'bell.fault'], { folder, input: bellWithTree });
            expect(input.output).toBe(verdict('1 file: nothing found.'));
        }
    });

    test('may have what cannot be opened beside it', async () => {
        const folder = makeFolder(cleanFiles);
        symlinkSync('nothing.fault', join(folder, 'dangling.fault'));
        expect(await run(['check', 'silent.fault'], { folder })).toMatchObject({ status: 0 });
    });

    test('includes what a used file uses in turn', async () => {
        const files = {
            'halfsplit.json': '{}',
            'parts/bell.fault': bell,
            'middle.fault': 'uses "parts/bell.fault"\n',
            'trees/silent.fault': silent.replace('bell.fault', '../middle.fault'),
        };
        const folder = makeFolder(files);
        expect((await run(['check', 'trees/silent.fault'], { folder })).output).toBe(verdict('1 file: nothing found.'));
    });

    test('is never outside the workspace', async () => {
        const folder = makeFolder({
            'bell.fault': bell,
            'trees/halfsplit.json': '{}',
            'trees/silent.fault': silent.replace('bell.fault', '../bell.fault'),
        });
        const { status, output } = await run(['check', 'trees'], { folder });
        expect(output).toContain('trees/silent.fault:1:6   error   path-outside');
        expect(status).toBe(1);
    });

    test('reaches up to the folder with the settings, from wherever the program is called', async () => {
        const folder = makeFolder({
            'halfsplit.json': '{}',
            'bell.fault': bell,
            'trees/silent.fault': silent.replace('bell.fault', '../bell.fault'),
        });
        expect((await run(['check', 'silent.fault'], { folder: `${folder}/trees` })).status).toBe(0);
        expect((await run(['check', 'trees/silent.fault'], { folder })).status).toBe(0);
    });

    test('says which folder it takes for the workspace where a path leads out of it and no settings say so', async () => {
        const folder = makeFolder({
            'bell.fault': bell,
            'trees/a.fault': silent.replace('bell.fault', '../bell.fault'),
        });
        const { output } = await run(['check', 'trees'], { folder });
        expect(output).toContain('The workspace is taken to be the folder `trees`.');
        expect((await run(['check', 'trees', 'bell.fault'], { folder })).status).toBe(0);
    });

    test('leaves settings below those of the workspace aside, and says so', async () => {
        const folder = makeFolder({ ...cleanFiles, 'inner/halfsplit.json': '{ "locale": 1 }' });
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain(
            'Settings that are not used, because the workspace is the folder `.`: `inner/halfsplit.json`.',
        );
        expect(status).toBe(0);
    });
});

describe('standard input', () => {
    test('is checked for a single hyphen', async () => {
        const folder = makeFolder();
        expect((await run(['check', '-'], { folder, input: bell })).output).toContain('1 file');
        const { output } = await run(['check', '-'], { folder, input: 'tree' });
        expect(output).toContain('standard-input.fault:1:');
    });

    test('stands for the named file, so that what it uses is found', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
        const words = ['check', '-', '--name', 'silent.fault'];
        expect((await run(words, { folder, input: silent })).output).toBe(verdict('1 file: nothing found.'));
        expect((await run(words, { folder, input: wrongSilent })).output).toContain('silent.fault:7:47');
    });

    test('is not mixed with paths, and its name belongs to it', async () => {
        const folder = makeFolder(cleanFiles);
        expect((await run(['check', '-', 'bell.fault'], { folder })).status).toBe(2);
        expect((await run(['check', '--name', 'a.fault'], { folder })).status).toBe(2);
    });
});

describe('the settings', () => {
    test('change severities', async () => {
        const settings = '{ "severities": { "unused-declaration": "off" } }';
        const folder = makeFolder({ ...cleanFiles, 'bell.fault': unusedPart, 'halfsplit.json': settings });
        expect((await run(['check'], { folder })).output).toBe(verdict('2 files: nothing found.'));
    });

    test('are findings with places where they are wrong', async () => {
        const settings = '{\n  "severities": { "unused-declaraton": "off" }\n}\n';
        const folder = makeFolder({ ...cleanFiles, 'halfsplit.json': settings });
        const { status, output } = await run(['check'], { folder });
        expect(output).toContain('halfsplit.json:2:19   error   settings-invalid');
        expect(output).toContain('There is a finding with a similar name: `unused-declaration`.');
        expect(status).toBe(1);
    });
});

describe('progress', () => {
    test('is shown on a terminal when the work takes long, and taken away again', async () => {
        const folder = makeFolder(cleanFiles);
        const { messages } = await run(['check'], { folder, terminal: true, slowness: 600 });
        expect(messages).toContain('\rReading: 1 files');
        expect(messages).toContain('\rChecking: 2 of 2 files');
        expect(messages.endsWith('\r\u001B[K')).toBe(true);
    });

    test('is not shown for quick work, nor where nobody watches', async () => {
        const folder = makeFolder(cleanFiles);
        expect((await run(['check'], { folder, terminal: true, slowness: 1 })).messages).toBe('');
        expect((await run(['check'], { folder, slowness: 600 })).messages).toBe('');
    });
});
