/** The verb `coverage`: its reports, what they are limited to, and what keeps it from reporting. */
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { safetyNotice } from '../../language/src/core/safety/notice.js';
import { displayWidth } from '../../language/src/core/text/width.js';
import { readText, root } from '../house/project.mjs';
import { readFolder } from '../support/read-folder.js';
import { cleanFiles, listAll, makeFolder, read, run, silent, wrongSilent } from './support.js';

/** An invented lamp whose trees find some faults, miss some, blame one wrongly, and do not know one. */
const lamp = `equipment lamp "Lamp" {
  option cord-color "Color of the cord" { black share 60 %  white }
  option wall-color "Color of the wall" { black  white }
  part plug { fault out rate 10 per 1e6 h }
  part bulb { fault burnt rate 60 per 1e6 h }
  part socket { fault loose rate 20 per 1e6 h  fault wet weakens rate 3 per 1e6 h }
  part cord for cord-color.white { fault cut rate 5 per 1e6 h }
  flow current: plug -> cord for cord-color.white -> [socket-voltage] -> socket -> bulb -> [light]
  test socket-voltage { observe by eye normal absent shows stopped }
  test light { observe by eye normal absent shows stopped }
}
`;
const dark = `uses "lamp.fault"
tree dark of lamp {
  complaint light absent
  step look { test light { normal -> fine  absent -> measure } }
  step measure { test socket-voltage { normal -> bulb-or-socket  absent -> bad-plug } }
  conclude bulb-or-socket { bulb.burnt, socket.loose }
  conclude bad-plug { plug.out }
  refer fine because "it shines"
}
`;
const flickers = `uses "lamp.fault"
tree flickers of lamp {
  complaint light absent
  step look { test light { normal -> fine  absent -> ask } }
  refer fine because "it shines"
  refer ask because "nobody knows" { plug.out }
}
`;
const lampFiles = { 'lamp.fault': lamp, 'dark.fault': dark, 'flickers.fault': flickers };

describe('the report for people', () => {
    test('says of a clean workspace in one sentence that all is found', async () => {
        const folder = makeFolder(cleanFiles);
        expect(await run(['coverage'], { folder })).toEqual({
            status: 0,
            messages: '',
            output: `Coverage of \`bell\`

100 % of the faults, counted by how often they come, are found, and none is missed.

Whatever is found is narrowed down to one part.

By build:

  builds      share  found  1 part  2 parts  3 parts  missed  wrong  lost  no tree
  all builds  100 %  100 %   100 %    100 %    100 %     0 %    0 %   0 %      0 %

By tree:

  tree      faults  found  1 part  2 parts  3 parts  missed  wrong  lost
  \`silent\`       1  100 %   100 %    100 %    100 %     0 %    0 %   0 %

Tree \`silent\`:

1 fault comes to this tree.

  fault           share  result       end
  \`battery.flat\`  100 %  found alone  \`flat-battery\`

How this is counted:

  Faults count by their rates, over all builds by their shares.
  A fault that a referral names counts as found. Whoever ends in one of several ways counts by the
    worst of them.
  Found is the fraction of faults detected. The columns after it are the fractions isolated: the
    part of what is found that is narrowed down to one part, to at most 2, to at most 3. Source:
    MIL-HDBK-2165 and IEEE 1522.

Verification is an aid: it checks what is written and does not know the machine. The equipment
maker's instructions, local codes and licensed practice come first.
`,
        });
    });

    test('says first what is covered and what is not, and then lists what is not', async () => {
        const { output } = await run(['coverage'], { folder: makeFolder(lampFiles) });
        // Rates: plug 10, bulb 60, socket 20 and 3, cord 0.4 times 5, in all 95. Found: (90 + 10) / 2 of what both trees judge
        // alike, less what one of them misses.
        expect(output.slice(0, output.indexOf('By build:'))).toBe(`Coverage of \`lamp\`

52.6 % of the faults, counted by how often they come, are found; 43.2 % are missed, 1.1 % end
wrongly and 3.2 % come to no tree.

Of what is found, 20.0 % is narrowed down to one part, 100 % to at most 2 and 100 % to at most 3.

4 faults are judged by several trees; in these figures each counts in equal parts for all of them.

Missed, and so unresolved: they end at a referral that does not name them:

  \`bulb.burnt\`: 65.2 % of what \`flickers\` judges, at \`ask\`
  \`socket.loose\`: 21.7 % of what \`flickers\` judges, at \`ask\`
  \`cord.cut\`: 2.2 % of what \`flickers\` judges, at \`ask\`

Wrong: they end at a conclusion that is not right for them:

  \`cord.cut\`: 2.2 % of what \`dark\` judges, at \`bad-plug\`

In no tree’s scope: they show no complaint of any tree:

  \`socket.wet\`: 3.2 % of all faults

`);
    });

    test('fits 100 columns, and a narrower terminal as far as the numbers allow', async () => {
        const folder = makeFolder({ ...lampFiles, ...readFolder('examples/dust-extractor') });
        const wide = await run(['coverage'], { folder });
        expect(wide.output.split('\n').filter(line => displayWidth(line) > 100)).toEqual([]);
        const narrow = await run(['coverage'], { folder, terminal: true, columns: 70, environment: { NO_COLOR: '1' } });
        const prose = narrow.output.split('\n').filter(line => !/^ {2}.* %/.test(line) && !/^ {2}\S+ +\S/.test(line));
        expect(prose.filter(line => displayWidth(line) > 70)).toEqual([]);
    });

    test('is in color on a terminal and never in a file', async () => {
        const folder = makeFolder(cleanFiles);
        expect((await run(['coverage'], { folder, terminal: true })).output).toContain('\u001B[1mCoverage');
        await run(['coverage', '--out', 'report.txt'], { folder, terminal: true, environment: { FORCE_COLOR: '1' } });
        expect(read(folder, 'report.txt')).toBe((await run(['coverage'], { folder })).output);
    });

    test('reads row by row: every fault of a tree has a line with its result in words', async () => {
        const { output } = await run(['coverage', 'flickers'], { folder: makeFolder(lampFiles) });
        expect(output).toContain(`
  fault            share  result       end
  \`bulb.burnt\`    65.2 %  missed       \`ask\`
  \`socket.loose\`  21.7 %  missed       \`ask\`
  \`plug.out\`      10.9 %  handed over  \`ask\`
  \`cord.cut\`       2.2 %  missed       \`ask\`
`);
    });

    test('tells what is handed on, and judges it where it is handed on to', async () => {
        const giving = flickers
            .replace('absent -> ask', 'absent -> give')
            .replace('  refer fine', '  step give { continue with dark }\n  refer fine');
        const folder = makeFolder({ ...lampFiles, 'flickers.fault': giving.replace('"lamp.fault"', '"dark.fault"') });
        const { output } = await run(['coverage'], { folder });
        expect(output).toContain(
            'Handed on to `dark`, and judged there: `plug.out`, `bulb.burnt`, `socket.loose` and `cord.cut`.',
        );
        expect(output).toContain(
            '94.7 % of the faults, counted by how often they come, are found; 2.1 % end wrongly and',
        );
        expect(output).not.toContain('judged by several trees');
    });

    test('shows small parts and large ones as what they are, never as nothing or all', async () => {
        const rare = lamp
            .replace('rate 5 per 1e6 h', 'rate 1 per 1e9 h')
            .replace('rate 3 per 1e6 h', 'rate 0 per 1e6 h');
        const { output } = await run(['coverage', 'dark'], {
            folder: makeFolder({ ...lampFiles, 'lamp.fault': rare }),
        });
        expect(output).toContain('More than 99.9 % of the faults that come to `dark`');
        expect(output).toContain('less\nthan 0.1 % end wrongly.');
    });

    test.each(['text', 'markdown', 'json'])(
        'says once in %s that verification is an aid, of however many products',
        async format => {
            const files = { ...lampFiles, ...cleanFiles };
            const { output } = await run(['coverage', '--format', format], { folder: makeFolder(files) });
            expect(output).toContain('bell');
            expect(output.replaceAll('\n', ' ').split(safetyNotice())).toHaveLength(2);
        },
    );

    test('in Markdown has the same sentences, lists and tables', async () => {
        const { output } = await run(['coverage', '--format', 'markdown'], { folder: makeFolder(lampFiles) });
        expect(output).toMatch(/^# Coverage of `lamp`\n\n52\.6 % of the faults, counted/);
        expect(output).toContain('\n- `cord.cut`: 2.2 % of what `dark` judges, at `bad-plug`\n');
        expect(output).toContain(`
## By tree

| tree | faults | found | 1 part | 2 parts | 3 parts | missed | wrong | lost |
|---|---:|---:|---:|---:|---:|---:|---:|---:|
| \`dark\` | 4 | 97.8 % | 11.1 % | 100 % | 100 % | 0 % | 2.2 % | 0 % |
| \`flickers\` | 4 | 10.9 % | 100 % | 100 % | 100 % | 89.1 % | 0 % | 0 % |
`);
        const tables = output.split('\n\n').filter(block => block.startsWith('|'));
        expect(tables).toHaveLength(4);
        for (const table of tables) {
            const cells = table
                .trimEnd()
                .split('\n')
                .map(line => line.split('|').length);
            expect(new Set(cells).size).toBe(1);
        }
    });
});

describe('the report for programs', () => {
    test('holds the figures, the builds, and every fault of every tree', async () => {
        const { output } = await run(['coverage', '--format', 'json'], { folder: makeFolder(lampFiles) });
        const { equipment, ...rest } = JSON.parse(output) as Record<string, unknown> & { equipment: [Json] };
        expect(rest).toEqual({
            formatVersion: 1,
            tool: { name: 'halfsplit', version: '0.1.0' },
            safety: safetyNotice(),
            choices: [],
        });
        const [one] = equipment;
        expect(one).toMatchObject({
            name: 'lamp',
            file: 'lamp.fault',
            wholeFleet: true,
            buildsAre: 'builds',
            notWalked: [],
        });
        expect(one.figures.rate).toBeCloseTo(95e-6, 15);
        expect(one.figures.found).toBeCloseTo(50e-6, 15);
        expect(one.figures.detected).toBeCloseTo(50 / 95, 12);
        expect(one.figures.isolated).toEqual([expect.closeTo(0.2, 12), 1, 1]);
        expect(one.builds.map(({ choices, share }) => `${choices.join(' ')} ${share.toFixed(2)}`)).toEqual([
            'cord-color.black wall-color.black 0.30',
            'cord-color.black wall-color.white 0.30',
            'cord-color.white wall-color.black 0.20',
            'cord-color.white wall-color.white 0.20',
        ]);
        expect(one.faults.map(({ fault, trees }) => `${fault}: ${trees.join(' ')}`)).toEqual([
            'plug.out: dark flickers',
            'bulb.burnt: dark flickers',
            'socket.loose: dark flickers',
            'socket.wet: ',
            'cord.cut: dark flickers',
        ]);
        expect(one.trees[0]?.faults[0]).toEqual({
            fault: 'plug.out',
            rate: expect.closeTo(10e-6, 15) as number,
            results: [
                { result: 'found', rate: expect.closeTo(10e-6, 15) as number, parts: 1, end: 'bad-plug', tree: null },
            ],
        });
    });

    test('has no figures of the fleet where only some trees are asked for', async () => {
        const { output } = await run(['coverage', 'dark', '--format', 'json'], { folder: makeFolder(lampFiles) });
        const { equipment } = JSON.parse(output) as { equipment: [Json] };
        expect(equipment[0]).toMatchObject({ wholeFleet: false, figures: null, builds: [], faults: [] });
        expect(equipment[0].trees.map(({ name }) => name)).toEqual(['dark']);
    });

    test('is the same, byte for byte, however the files are named and wherever it is asked from', async () => {
        const folder = makeFolder({ 'halfsplit.json': '{}', ...lampFiles });
        const first = await run(['coverage', '--format', 'json'], { folder });
        const second = await run(['coverage', 'flickers.fault', 'dark.fault', 'lamp.fault', '--format', 'json'], {
            folder,
        });
        expect(second).toEqual(first);
        expect(first.output.length).toBeGreaterThan(1000);
    });

    test('is described in the README, property by property', async () => {
        const page = readText('cli/README.md');
        const part = page.slice(page.indexOf('### The coverage report for programs'));
        const { output } = await run(['coverage', '--format', 'json'], { folder: makeFolder(lampFiles) });
        const names = new Set<string>();
        JSON.parse(output, (key, value: unknown) => {
            if (key !== '' && !/^\d+$/.test(key)) names.add(key);
            return value;
        });
        expect(names.size).toBeGreaterThan(25);
        expect([...names].filter(name => !part.includes(`\`${name}\``))).toEqual([]);
        expect(part).toContain(
            `This is version ${(JSON.parse(output) as { formatVersion: number }).formatVersion} of the form`,
        );
    });
});

interface Json {
    readonly figures: {
        readonly rate: number;
        readonly found: number;
        readonly detected: number;
        readonly isolated: number[];
    };
    readonly builds: { readonly choices: string[]; readonly share: number }[];
    readonly faults: { readonly fault: string; readonly trees: string[] }[];
    readonly trees: { readonly name: string; readonly faults: unknown[] }[];
}

describe('the report is limited', () => {
    test('to the tree of a name, with its figures for each build', async () => {
        const folder = makeFolder(lampFiles);
        const { output, status } = await run(['coverage', '--tree', 'dark'], { folder });
        expect(status).toBe(0);
        expect(output).toContain(
            '97.8 % of the faults that come to `dark`, counted by how often they come, are found; 2.2 % end',
        );
        expect(output).not.toContain('flickers');
        expect(output).not.toContain('no tree');
        expect(output).toContain('Tree `dark` by build:');
        expect(await run(['coverage', 'dark'], { folder })).toEqual(
            await run(['coverage', '--tree', 'dark'], { folder }),
        );
    });

    test('to builds with some choices', async () => {
        const folder = makeFolder(lampFiles);
        const { output } = await run(['coverage', '--build', 'cord-color.white, wall-color.black'], { folder });
        expect(output).toContain('Only builds with `cord-color.white` and `wall-color.black` count.');
        expect(output).toContain('51.0 % of the faults');
        const both = await run(['coverage', '--build', 'cord-color.white,cord-color.black', '--format', 'json'], {
            folder,
        });
        const all = await run(['coverage', '--format', 'json'], { folder });
        expect({ ...(JSON.parse(both.output) as object), choices: [] }).toEqual(JSON.parse(all.output));
    });

    test.each([
        ['--tree', 'darkk', 'There is no tree called `darkk` here.\nThere is a tree with a similar name: `dark`.\n'],
        ['--tree', 'x', 'There is no tree called `x` here.\nThere are the trees `dark` and `flickers`.\n'],
        ['--build', 'pink-and-blue', '`lamp` has no choice called `pink-and-blue`.\n'],
        [
            '--build',
            'cord-color.whit',
            '`lamp` has no choice called `cord-color.whit`.\nThere is a choice with a similar name: `cord-color.white`.\n',
        ],
        [
            '--build',
            'white',
            '`white` is a choice of several options of `lamp`.\nWrite the option before it: `cord-color.white` or `wall-color.white`.\n',
        ],
        [
            '--format',
            'csv',
            '`--format` takes `text`, `markdown` or `json`, not `csv`.\n`halfsplit coverage --help` explains the verb.\n',
        ],
    ])('but %s %s is refused', async (option, value, sentence) => {
        const { status, output, messages } = await run(['coverage', option, value], { folder: makeFolder(lampFiles) });
        expect(messages.slice(-sentence.length)).toBe(sentence);
        expect({ status, output }).toEqual({ status: 2, output: '' });
    });

    test('but builds that are never made are refused', async () => {
        const { status, messages } = await run(['coverage', 'examples/dust-extractor', '--build', 'bag,three-phase'], {
            folder: root,
        });
        expect(messages).toContain('No unit of `dust-extractor` is built with these choices together.');
        expect(status).toBe(2);
    });
});

describe('errors in the sources', () => {
    test('keep the verb from reporting where a name leads nowhere', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
        const { status, output, messages } = await run(['coverage', '--out', 'report.txt'], { folder });
        expect(messages).toContain('called `flat-batery` in tree `silent`');
        expect(messages).toContain('There is no report: 1 error stands in the way of `silent`.\n');
        expect({ status, output }).toEqual({ status: 1, output: '' });
        expect(listAll(folder)).toEqual(Object.keys(cleanFiles).sort());
    });

    test('keep it from reporting where a text cannot be read to its end', async () => {
        for (let length = 30; length < silent.length - 3; length += 40) {
            const folder = makeFolder({ ...cleanFiles, 'silent.fault': silent.slice(0, length) });
            const { status, output, messages } = await run(['coverage', 'silent.fault'], { folder });
            expect({ status: status > 0, output }).toEqual({ status: true, output: '' });
            expect(messages).not.toBe('');
        }
    });

    test('do not keep it from reporting on another tree of the same equipment', async () => {
        const folder = makeFolder({ ...lampFiles, 'flickers.fault': flickers.replace('-> ask', '-> nobody') });
        const { status, output } = await run(['coverage', 'dark'], { folder });
        expect(output).toContain('97.8 % of the faults that come to `dark`');
        expect(status).toBe(0);
    });

    test('that keep nobody from walking are counted in a message', async () => {
        const folder = makeFolder({ ...cleanFiles, 'silent.fault': silent.replace('normal -> no-fault  ', '') });
        const { status, output, messages } = await run(['coverage'], { folder });
        expect(messages).toMatch(/^\d errors? stands? in these trees; `halfsplit check` shows more\.\n$/);
        expect(output).toContain('100 % of the faults');
        expect(status).toBe(0);
    });

    test('are told where a tree has no steps: it is left out', async () => {
        const folder = makeFolder({
            ...cleanFiles,
            'more.fault': 'uses "bell.fault"\ntree later of bell {\n  complaint ring absent\n}\n',
        });
        const { output, status } = await run(['coverage'], { folder });
        expect(output).toContain('Left out, because they cannot be walked: `later`.');
        expect(status).toBe(0);
    });

    test('a file that cannot be opened is told, and nothing reported', async () => {
        const folder = makeFolder(cleanFiles);
        symlinkSync(join(folder, 'nowhere'), join(folder, 'gone.fault'));
        const { status, output, messages } = await run(['coverage'], { folder });
        expect(messages).toContain('gone.fault');
        expect(messages).toContain('There is no report: 1 error stands in the way.\n');
        expect({ status, output }).toEqual({ status: 2, output: '' });
    });

    test('a folder without trees is refused', async () => {
        const { status, messages } = await run(['coverage'], {
            folder: makeFolder({ 'bell.fault': cleanFiles['bell.fault'] }),
        });
        expect(messages).toContain('There is no tree in `.`.');
        expect(status).toBe(2);
    });
});

describe('the file', () => {
    test('holds the report, and a message says that it was written', async () => {
        const folder = makeFolder(cleanFiles);
        const words = ['coverage', '--format', 'markdown'];
        expect(await run([...words, '--out', 'out/coverage.md'], { folder })).toEqual({
            status: 0,
            output: '',
            messages: 'Wrote `out/coverage.md`.\n',
        });
        expect(read(folder, 'out/coverage.md')).toBe((await run([...words, '--out', '-'], { folder })).output);
    });

    test('is there whole or not at all', async () => {
        const folder = makeFolder(cleanFiles);
        const createFile = () => {
            throw Object.assign(new Error('ENOSPC'), { code: 'ENOSPC' });
        };
        const { status, messages } = await run(['coverage', '--out', 'a.txt'], { folder, disk: { createFile } });
        expect(messages).toContain('`a.txt` cannot be written. The disk is full.');
        expect(status).toBe(2);
        expect(listAll(folder)).toEqual(Object.keys(cleanFiles).sort());
    });
});
