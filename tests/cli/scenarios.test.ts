/** The verb `scenarios`: which scenarios pass, why others do not, and what a program is told. */
import { expect, test } from 'vitest';
import { safetyNotice } from '../../language/src/core/safety/notice.js';
import { wrap } from '../../language/src/core/text/width.js';
import { bell, makeFolder, run, silent } from './support.js';

const passing = `uses "silent.fault"

scenario "The battery is flat" of silent {
  fault battery.flat
  expect flat-battery within 2 min
}

scenario "The bell rings" of silent {
  fault healthy
  expect no-fault
}
`;

const failing = `uses "silent.fault"

scenario "A hopeless case" of silent {
  fault battery.flat
  expect no-fault
}

scenario "In a great hurry" of silent {
  fault battery.flat
  expect flat-battery within 30 s
}
`;

const notice = wrap(safetyNotice(), 100);

const files = { 'halfsplit.json': '{}\n', 'bell.fault': bell, 'silent.fault': silent, 'cases.fault': passing };

test('scenarios that pass are listed with their times', async () => {
    expect(await run(['scenarios'], { folder: makeFolder(files) })).toEqual({
        status: 0,
        output: [
            'cases.fault',
            '  passed      1 of 2 min   The battery is flat',
            '  passed           1 min   The bell rings',
            '',
            '2 scenarios: 2 passed.',
            '',
            ...notice,
            '',
        ].join('\n'),
        messages: '',
    });
});

test('one that fails shows the way of its unit, and ends with status 1', async () => {
    const folder = makeFolder({ ...files, 'more.fault': failing });
    const { status, output } = await run(['scenarios', 'more.fault'], { folder });
    expect(output).toBe(
        [
            'more.fault',
            '  failed             1 min   A hopeless case',
            '      Scenario `A hopeless case` ends at `flat-battery`, not at `no-fault`.',
            '        any unit, with `battery.flat`',
            '        1. press: `ring` shows `absent`',
            '      If the scenario is right, look where its path takes the wrong way; else expect the other end.',
            '  failed      1 of 0.5 min   In a great hurry',
            '      Scenario `In a great hurry` takes 1 min to its end; the limit is 0.5 min.',
            '        any unit, with `battery.flat`',
            '        1. press: `ring` shows `absent`',
            '      Ask the quick tests first, or allow the time.',
            '',
            '2 scenarios: 2 failed.',
            '',
            ...notice,
            '',
        ].join('\n'),
    );
    expect(status).toBe(1);
});

test('one of them is played where its title is given', async () => {
    const folder = makeFolder({ ...files, 'more.fault': failing });
    const { status, output } = await run(['scenarios', '--name', 'The bell rings'], { folder });
    const lines = [
        'cases.fault',
        '  passed      1 min   The bell rings',
        '',
        '1 scenario: 1 passed.',
        '',
        ...notice,
        '',
    ];
    expect(output).toBe(lines.join('\n'));
    expect(status).toBe(0);
    const all = await run(['scenarios'], { folder });
    expect(all.output).toContain('4 scenarios: 2 passed and 2 failed.\n');
});

test('a title that nobody has, and sources without scenarios, are refused', async () => {
    const folder = makeFolder(files);
    for (const [words, advice] of [
        [['--name', 'The bell ring'], 'There is a scenario with a similar title: `The bell rings`.'],
        [['--name', 'x'], 'There are the scenarios `The battery is flat` and `The bell rings`.'],
        [['bell.fault'], 'There is no scenario in these sources.'],
    ] as const) {
        const { status, messages } = await run(['scenarios', ...words], { folder });
        expect(messages).toContain(advice);
        expect(status).toBe(2);
    }
});

test('what cannot be played is told, and is no success', async () => {
    const slip = { ...files, 'bell.fault': bell.replace('observe by ear', 'observ by ear') };
    const looseName = { ...files, 'silent.fault': silent.replace('-> flat-battery', '-> flat-batery') };
    for (const wrong of [slip, looseName]) {
        const { status, output } = await run(['scenarios', '--name', 'The bell rings'], { folder: makeFolder(wrong) });
        expect(output).toBe(
            [
                'cases.fault',
                '  not played     The bell rings',
                '      Errors stand in its file, its tree or its equipment.',
                '      `halfsplit check` shows them.',
                '',
                '1 scenario: 1 not played.',
                '',
                ...notice,
                '',
            ].join('\n'),
        );
        expect(status).toBe(1);
    }
});

test('a path that is not there ends with status 2', async () => {
    const { status, messages } = await run(['scenarios', 'nowhere.fault'], { folder: makeFolder(files) });
    expect(messages).toContain('nowhere.fault');
    expect(status).toBe(2);
});

test('on a terminal what fails is red, and a title cannot move the cursor', async () => {
    const title = 'A hopeless case';
    const sneaky = failing.replace(title, `${title}\u001B[2J`);
    const folder = makeFolder({ ...files, 'more.fault': sneaky });
    const { output } = await run(['scenarios', 'more.fault'], { folder, terminal: true });
    expect(output).toContain('\u001B[31mfailed\u001B[0m');
    expect(output).toContain(`${title}\\u{1B}[2J`);
    expect(output).not.toContain('\u001B[2J');
});

interface Report {
    readonly formatVersion: number;
    readonly tool: { readonly name: string };
    readonly safety: string;
    readonly summary: unknown;
    readonly scenarios: readonly unknown[];
}

test('a program gets every scenario with its place, its end, its time and its way', async () => {
    const folder = makeFolder({ ...files, 'more.fault': failing });
    const { status, output } = await run(['scenarios', '--format', 'json'], { folder });
    const report = JSON.parse(output) as Report;
    expect(report.formatVersion).toBe(1);
    expect(report.tool.name).toBe('halfsplit');
    expect(report.safety).toBe(safetyNotice());
    expect(report.summary).toEqual({ scenarios: 4, passed: 2, failed: 2, notPlayed: 0, notOpened: 0, exitStatus: 1 });
    expect(status).toBe(1);
    expect(report.scenarios[0]).toEqual({
        title: 'The battery is flat',
        tree: 'silent',
        file: 'cases.fault',
        start: { offset: passing.indexOf('scenario'), line: 3, column: 1 },
        end: { offset: passing.indexOf('}') + 1, line: 6, column: 2 },
        result: 'passed',
        expected: 'flat-battery',
        reached: 'flat-battery',
        minutes: 1,
        within: 2,
        why: null,
        advice: null,
        counterexample: null,
    });
    expect(report.scenarios[3]).toMatchObject({
        title: 'In a great hurry',
        result: 'failed',
        reached: 'flat-battery',
        minutes: 1,
        within: 0.5,
        why: 'Scenario `In a great hurry` takes 1 min to its end; the limit is 0.5 min.',
        counterexample: {
            build: [],
            fault: 'with `battery.flat`',
            path: [{ step: 'press', text: '`ring` shows `absent`', file: 'silent.fault' }],
        },
    });
});

test('the same sources give the same report', async () => {
    const folder = makeFolder({ ...files, 'more.fault': failing });
    const words = ['scenarios', '--format', 'json'];
    expect(await run(words, { folder })).toEqual(await run(words, { folder }));
});
