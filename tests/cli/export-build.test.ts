/** Documents for one build, the record of the verification in them, and the time that is put into them. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { sliceToBuild } from '../../language/src/document/slice.js';
import type { CoverageKnown, TreeDocument } from '../../language/src/document/types.js';
import { rules } from '../../language/src/rules/index.js';
import { filesOf, schemaErrors } from '../document/support.js';
import { cleanFiles, listAll, makeFolder, read, run } from './support.js';

/** An invented lamp. Where it has a battery, its tree does not tell a flat one from a burnt bulb. */
const lamp = `equipment lamp "Lamp" {
  option feed "Feed" { mains "Mains" share 30 %  battery "Battery" share 70 % }
  option dimmer "Dimmer" for mains { knob "Knob" share 50 %  none "None" share 50 % }
  option finish "Finish" { red "Red" share 50 %  none "None" share 50 % }
  exclude battery with finish.none because "It would rust."

  part bulb "Bulb" {
    replace "Fit a new bulb." takes 2 min
    fault burnt "Burnt" rate 10 per 1e6 h
  }

  part cell "Cell" for battery {
    replace "Fit a new cell." takes 2 min
    fault flat "Flat" rate 30 per 1e6 h
  }

  test glow "Does it glow?" {
    checks bulb.burnt as dark, cell.flat as dark
    observe by eye
    takes 1 min
    normal yes
    dark no
  }
}
`;

const dark = `uses "lamp.fault"

tree dark "It does not glow" of lamp {
  complaint glow dark

  step look "Look" {
    test glow { normal -> no-fault  dark -> out }
  }

  conclude out "Something is used up" { bulb.burnt, cell.flat for battery }
  refer no-fault "No fault found" because "it glows"
}
`;

const settings = '{ "severities": { "unused-declaration": "off", "ambiguous": "information" } }\n';
const files = { 'halfsplit.json': settings, 'lamp.fault': lamp, 'dark.fault': dark };

function documentIn(folder: string, path: string): TreeDocument {
    return JSON.parse(read(folder, path)) as TreeDocument;
}

describe('`--build`', () => {
    test('writes what one build has, into a file of its own', async () => {
        const folder = makeFolder(files);
        expect(await run(['export', '--build', 'battery,red'], { folder })).toEqual({
            status: 0,
            output: '',
            messages: 'Wrote `dark.battery.red.json`.\n',
        });
        const document = documentIn(folder, 'dark.battery.red.json');
        expect(schemaErrors(document)).toEqual([]);
        expect(document.build).toEqual(['feed.battery', 'finish.red']);
        expect(document.equipment.parts.map(({ id }) => id)).toEqual(['bulb', 'cell']);
        expect(JSON.stringify(document)).not.toContain('"guard":');
        await run(['export', '--build', 'mains,knob,red'], { folder });
        expect(documentIn(folder, 'dark.mains.knob.red.json').equipment.parts.map(({ id }) => id)).toEqual(['bulb']);
    });

    test('takes choices in any order, with their options and with spaces, and names the file alike', async () => {
        const folder = makeFolder(files);
        const texts = [];
        for (const choices of [
            'mains,dimmer.none,finish.none',
            'finish.none feed.mains, dimmer.none',
            'dimmer.none,,finish.none,mains,mains',
        ]) {
            const { messages } = await run(['export', 'dark', '--build', choices], { folder });
            expect(messages).toBe('Wrote `dark.mains.dimmer-none.finish-none.json`.\n');
            texts.push(read(folder, 'dark.mains.dimmer-none.finish-none.json'));
        }
        expect(new Set(texts).size).toBe(1);
    });

    test('leaves the name of a file that was given as it is, and standard output', async () => {
        const folder = makeFolder(files);
        await run(['export', 'dark', '--build', 'battery,red', '--out', 'out/mine.json'], { folder });
        await run(['export', 'dark', '--build', 'battery,red', '--out', 'out'], { folder });
        expect(listAll(join(folder, 'out'))).toEqual(['dark.battery.red.json', 'mine.json']);
        const { output } = await run(['export', 'dark', '--build', 'battery,red', '--out', '-'], { folder });
        expect(output).toBe(read(folder, 'out/mine.json'));
    });

    test.each([
        ['battery', 'Name one choice of `finish`: `finish.red`, `finish.none`.'],
        ['mains,red', 'Name one choice of `dimmer`: `dimmer.knob`, `dimmer.none`.'],
        ['mains,battery,red', 'Name one choice of `feed`: `feed.mains`, `feed.battery`.'],
        ['battery,knob,red', 'This build has no option `dimmer`.'],
        ['battery,none,red', '`none` can be `dimmer.none` or `finish.none`; say which.'],
        [
            'battery,finish.none',
            'There is no unit with `feed.battery`, `finish.none`. The author says why: It would rust.',
        ],
        ['batery,red', '`lamp` has no choice `batery`.'],
        [',', 'Name one choice of `feed`: `feed.mains`, `feed.battery`.'],
        ['red,\u001B[31m', String.raw`\u{1B}[31m`],
    ])('%j is no build, and is told as what is wrong with it', async (choices, problem) => {
        const folder = makeFolder(files);
        const { status, messages } = await run(['export', 'dark', '--build', choices], { folder });
        expect(messages).toContain(
            `halfsplit: \`dark\` cannot be exported for this build. ${choices.startsWith('red') ? '' : problem}`,
        );
        expect(messages).toContain(problem);
        expect(messages).not.toContain('\u001B');
        expect(status).toBe(2);
        expect(listAll(folder)).toEqual(Object.keys(files).sort());
    });

    test('offers similar choices, else all', async () => {
        const folder = makeFolder(files);
        const adviceFor = async (choices: string) =>
            (await run(['export', 'dark', '--build', choices], { folder })).messages.split('\n')[1];
        expect(await adviceFor('batery,red')).toBe('There is a choice with a similar name: `battery`.');
        expect(await adviceFor('steam')).toBe(
            'A build has one choice of each option that it has: feed (mains or battery), dimmer (knob or none) and finish (red or none).',
        );
        const bell = makeFolder(cleanFiles);
        expect((await run(['export', 'silent', '--build', 'red'], { folder: bell })).messages).toBe(
            'halfsplit: `silent` cannot be exported for this build. `bell` has no choice `red`.\nThe equipment has no options, so it has one build only: leave `--build` out.\n',
        );
    });

    test('is refused where the tree is for other builds', async () => {
        const folder = makeFolder({ ...files, 'dark.fault': dark.replace('of lamp {', 'of lamp for mains {') });
        const { status, messages } = await run(['export', 'dark', '--build', 'battery,red'], { folder });
        expect(messages).toContain('The tree `dark` is not for this build.');
        expect(status).toBe(2);
    });

    test('names the files of two builds apart, however long their names are', async () => {
        const names = Array.from({ length: 30 }, (_, index) => `a-choice-with-a-long-name-${index}`);
        const options = names.map((name, index) => `  option of-${index} { ${name}  other-${index} }`).join('\n');
        const folder = makeFolder({
            ...files,
            'lamp.fault': lamp.replace('  option feed', `${options}\n  option feed`),
        });
        for (const last of ['a-choice-with-a-long-name-29', 'other-29']) {
            const choices = [...names.slice(0, -1), last, 'battery', 'red'].join();
            expect((await run(['export', 'dark', '--build', choices, '--out', 'out'], { folder })).status).toBe(0);
        }
        const written = listAll(join(folder, 'out'));
        expect(written).toHaveLength(2);
        for (const name of written) expect(name).toMatch(/^dark\.[0-9a-f]{32}\.json$/);
    });
});

describe('the record of the verification', () => {
    test('tells the rules, what was found, and what it was made from', async () => {
        const folder = makeFolder(files);
        await run(['export'], { folder });
        const { verification } = documentIn(folder, 'dark.json');
        expect(Object.keys(verification)).toEqual(['tool', 'rules', 'accepted', 'coverage', 'sources', 'settings']);
        const asked = new Map(verification.rules?.map(({ code, ...rule }) => [code, rule]));
        expect([...asked.keys()]).toEqual(rules.map(({ code }) => code).sort());
        expect(asked.get('unused-declaration')).toEqual({ since: '0.1.0', severity: 'off' });
        expect(asked.get('ambiguous')?.severity).toBe('information');
        // The settings cannot make less of an error.
        const unknown = rules.find(({ code }) => code === 'unknown-name');
        expect(asked.get('unknown-name')?.severity).toBe(unknown?.severity);
        const digest = (path: string) =>
            createHash('sha256')
                .update(readFileSync(join(folder, path)))
                .digest('hex');
        expect(verification.settings).toEqual({ path: 'halfsplit.json', sha256: digest('halfsplit.json') });
        expect(verification.sources.map(({ path }) => path)).toEqual(['dark.fault', 'lamp.fault']);
    });

    test('tells the fractions for each build, as they come out by hand', async () => {
        const folder = makeFolder(files);
        await run(['export'], { folder });
        const { coverage } = documentIn(folder, 'dark.json').verification;
        // With a battery 40 faults come in 1e6 h, and all end at a choice of two parts. With mains there is only the bulb.
        // Units are made with a battery in red (0.7 × 0.5), and with mains in both finishes with both dimmers (0.3 / 4 each): 0.65 in all.
        const [battery, mains] = [0.35 / 0.65, 0.3 / 0.65];
        const withMains = (dimmer: string, finish: string) => ({
            choices: ['feed.mains', `dimmer.${dimmer}`, `finish.${finish}`],
            share: round(mains / 4),
            figures: { detected: 1, isolated: [1, 1, 1] },
        });
        expect(coverage).toEqual({
            type: 'known',
            figures: { detected: 1, isolated: [round((10 * mains) / (10 * mains + 40 * battery)), 1, 1] },
            buildsAre: 'builds',
            builds: [
                withMains('knob', 'red'),
                withMains('knob', 'none'),
                withMains('none', 'red'),
                withMains('none', 'none'),
                {
                    choices: ['feed.battery', 'finish.red'],
                    share: round(battery),
                    figures: { detected: 1, isolated: [0, 1, 1] },
                },
            ],
        });
    });

    test('is the same for one build, whether it is walked or cut out', async () => {
        const folder = makeFolder(files);
        await run(['export'], { folder });
        const whole = documentIn(folder, 'dark.json');
        for (const { choices } of (whole.verification.coverage as CoverageKnown).builds) {
            const { output } = await run(['export', '--build', choices.join(), '--out', '-'], { folder });
            expect(JSON.parse(output)).toEqual(sliceToBuild(whole, choices).document);
        }
    });

    test('with too many builds to list tells of each choice, and of one build where that is asked for', async () => {
        const options = Array.from(
            { length: 7 },
            (_, index) => `  option more-${index} { yes-${index}  no-${index} }`,
        ).join('\n');
        const folder = makeFolder({
            ...files,
            'lamp.fault': lamp.replace('  option feed', `${options}\n  option feed`),
        });
        await run(['export'], { folder });
        const whole = documentIn(folder, 'dark.json');
        const { buildsAre, builds } = whole.verification.coverage as CoverageKnown;
        expect(buildsAre).toBe('choices');
        expect(builds.find(({ choices }) => choices.join() === 'feed.battery')?.figures.isolated?.[0]).toBe(0);
        const choices = [...Array.from({ length: 7 }, (_, index) => `yes-${index}`), 'battery', 'red'];
        const { output } = await run(['export', '--build', choices.join(), '--out', '-'], { folder });
        const one = (JSON.parse(output) as TreeDocument).verification.coverage as CoverageKnown;
        expect(one).toMatchObject({ buildsAre: 'builds', figures: { isolated: [0, 1, 1] }, builds: [{ share: 1 }] });
        const cut = sliceToBuild(whole, choices).document?.verification.coverage as CoverageKnown;
        expect(cut.builds.map(build => build.choices)).toEqual((one.builds[0]?.choices ?? []).map(choice => [choice]));
    });

    test('agrees with what `coverage` tells', async () => {
        const folder = makeFolder(filesOf('examples/dust-extractor'));
        await run(['export', '--out', 'out'], { folder });
        const { output } = await run(['coverage', '--format', 'json'], { folder });
        const report = JSON.parse(output) as {
            equipment: { trees: { name: string; figures: { detected: number; isolated: number[] } }[] }[];
        };
        const trees = report.equipment.flatMap(one => one.trees);
        expect(trees.length).toBeGreaterThan(1);
        for (const { name, figures } of trees) {
            expect(documentIn(folder, `out/${name}.json`).verification.coverage).toMatchObject({
                figures: { detected: round(figures.detected), isolated: figures.isolated.map(round) },
            });
        }
    });
});

describe('`--time`', () => {
    test('is in the document as it was given, and nothing is without it', async () => {
        const folder = makeFolder(cleanFiles);
        for (const time of ['2026-01-31T09:30:00Z', '2024-02-29T23:59:59.125Z']) {
            await run(['export', 'silent', '--time', time], { folder });
            const document = documentIn(folder, 'silent.json');
            expect(document.verification.time).toBe(time);
            expect(schemaErrors(document)).toEqual([]);
        }
        await run(['export', 'silent'], { folder });
        expect(documentIn(folder, 'silent.json').verification).not.toHaveProperty('time');
    });

    test.each([
        'now',
        '2026-01-31',
        '2026-01-31T09:30:00',
        '2026-01-31T09:30:00+01:00',
        '2026-02-30T00:00:00Z',
        '2025-02-29T00:00:00Z',
        '2026-13-01T00:00:00Z',
        '2026-01-31T24:00:00Z',
        '2026-01-31t09:30:00z',
        '2026-01-31T09:30:00Z\n',
    ])('%j is no time', async time => {
        const folder = makeFolder(cleanFiles);
        const { status, messages } = await run(['export', 'silent', '--time', time], { folder });
        expect(messages).toContain('is no time; a time is in UTC, such as `2026-01-31T09:30:00Z`.');
        expect(status).toBe(2);
        expect(listAll(folder)).not.toContain('silent.json');
    });
});

function round(fraction: number): number {
    return Math.round(fraction * 1e6) / 1e6;
}
