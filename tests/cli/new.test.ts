/** The verb `new`: a workspace that checks clean, and that never overwrites anything. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { starterFiles } from '../../cli/src/starter.js';
import { listAll, makeFolder, read, run, verdict } from './support.js';

test('the workspace checks clean, is laid out, can be drawn and exported', async () => {
    const folder = makeFolder();
    const { status, messages } = await run(['new', 'my trees'], { folder });
    expect(status).toBe(0);
    expect(messages).toContain('halfsplit check');
    const inner = join(folder, 'my trees');
    expect(listAll(inner)).toEqual(Object.keys(starterFiles).sort());
    const checked = await run(['check', '--fail-on', 'information'], { folder: inner });
    expect(checked).toEqual({ status: 0, output: verdict('2 files: nothing found.'), messages: '' });
    expect((await run(['format', '--check'], { folder: inner })).output).toBe('');
    expect((await run(['draw', 'no-water'], { folder: inner })).status).toBe(0);
    expect((await run(['export', 'no-water'], { folder: inner })).status).toBe(0);
    expect(listAll(inner)).toContain('no-water.json');
});

test('it uses the main forms of the language', () => {
    const text = Object.values(starterFiles).join('\n');
    for (const form of [
        'hazard',
        'zone',
        'supply',
        'part',
        'fault',
        'flow',
        'measure',
        'gate',
        'tree',
        'step',
        'scenario',
    ]) {
        expect(text).toMatch(new RegExp(`^ *${form} `, 'm'));
    }
});

test('every line that its README says to try works', async () => {
    const folder = makeFolder();
    await run(['new'], { folder });
    const lines = [...read(folder, 'README.md').matchAll(/^halfsplit ([^#\n]*)/gm)].map(([, words = '']) =>
        words.trim(),
    );
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) expect((await run(line.split(' '), { folder })).status).toBe(0);
});

test('it is made in the current folder where no other is named', async () => {
    const folder = makeFolder({ 'mine.txt': 'mine' });
    expect((await run(['new'], { folder })).status).toBe(0);
    expect(read(folder, 'mine.txt')).toBe('mine');
    expect(listAll(folder)).toContain('no-water.fault');
});

test('files that are there are never overwritten', async () => {
    const folder = makeFolder({ 'README.md': 'mine', 'fountain.fault': 'mine' });
    const { status, messages } = await run(['new'], { folder });
    expect(messages).toContain('these files are there already: `fountain.fault` and `README.md`.');
    expect(status).toBe(2);
    expect(listAll(folder)).toEqual(['README.md', 'fountain.fault']);
});

test('a file cannot become a workspace', async () => {
    const folder = makeFolder({ taken: '' });
    const { status, messages } = await run(['new', 'taken'], { folder });
    expect(messages).toContain('`taken` is a file, and a folder is needed.');
    expect(status).toBe(2);
    expect((await run(['new', 'taken/inner'], { folder })).status).toBe(2);
});
