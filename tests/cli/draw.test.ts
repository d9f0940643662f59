/** The verb `draw`: where drawings go, and what is drawn of trees that are not finished. */
import { expect, test } from 'vitest';
import { cleanFiles, listAll, makeFolder, read, run, silent, wrongSilent } from './support.js';

test('a tree becomes an SVG file of its name', async () => {
    const folder = makeFolder(cleanFiles);
    expect(await run(['draw', 'silent'], { folder })).toEqual({
        status: 0,
        output: '',
        messages: 'Wrote `silent.svg`.\n',
    });
    expect(read(folder, 'silent.svg')).toMatch(/^<svg [^]*<\/svg>\n$/);
});

test('it can go to another folder, another file or standard output', async () => {
    const folder = makeFolder(cleanFiles);
    await run(['draw', '--out', 'out'], { folder });
    await run(['draw', 'silent.fault', '--out', 'mine.svg'], { folder });
    const { output } = await run(['draw', '--out', '-'], { folder });
    expect(read(folder, 'out/silent.svg')).toBe(output);
    expect(read(folder, 'mine.svg')).toBe(output);
});

test('a tree with errors is drawn, and the errors are counted', async () => {
    const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
    const { status, messages } = await run(['draw', 'silent'], { folder });
    expect(messages).toContain('1 error stands in what is drawn, so the drawing may be wrong');
    expect(read(folder, 'silent.svg')).toContain('There is no such step');
    expect(status).toBe(0);
});

test('half a tree is drawn as far as it goes', async () => {
    for (let length = 30; length < silent.length; length += 40) {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': silent.slice(0, length) });
        const { status } = await run(['draw', 'silent.fault'], { folder });
        const drawn = listAll(folder).filter(file => file.endsWith('.svg'));
        for (const file of drawn) expect(read(folder, file)).toMatch(/^<svg [^]*<\/svg>\n$/);
        expect(status).toBe(drawn.length === 0 ? 2 : 0);
    }
});

test('a disk that is full leaves nothing behind', async () => {
    const folder = makeFolder(cleanFiles);
    const createFile = () => {
        throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' });
    };
    const { status, messages } = await run(['draw', 'silent'], { folder, disk: { createFile } });
    expect(messages).toContain('`silent.svg` cannot be written. The disk is full.');
    expect(status).toBe(2);
    expect(listAll(folder)).toEqual(Object.keys(cleanFiles).sort());
});
