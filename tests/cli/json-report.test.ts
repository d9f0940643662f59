/** The report for programs: its shape, its places, and that the page about it tells of all of it. */
import { describe, expect, test } from 'vitest';
import { safetyNotice } from '../../language/src/core/safety/notice.js';
import { readText } from '../house/project.mjs';
import { bell, cleanFiles, makeFolder, run, silent, wrongSilent } from './support.js';

interface Finding {
    readonly code: string;
    readonly file: string;
    readonly start: { readonly offset: number; readonly line: number; readonly column: number };
    readonly end: { readonly offset: number; readonly line: number; readonly column: number };
    readonly counterexample: { readonly sentence: string } | null;
}

interface Report {
    readonly formatVersion: number;
    readonly summary: Readonly<Record<string, unknown>>;
    readonly findings: readonly Finding[];
    readonly accepted: readonly Finding[];
}

async function reportOf(files: Readonly<Record<string, string>>, ...words: readonly string[]): Promise<Report> {
    const { output, messages } = await run(['check', '--format', 'json', ...words], { folder: makeFolder(files) });
    expect(messages).toBe('');
    expect(output.endsWith('}\n')).toBe(true);
    return JSON.parse(output) as Report;
}

test('a clean workspace gives the whole form with nothing in it', async () => {
    expect(await reportOf(cleanFiles)).toEqual({
        formatVersion: 1,
        tool: { name: 'halfsplit', version: '0.1.0' },
        safety: safetyNotice(),
        summary: {
            files: 2,
            errors: 0,
            warnings: 0,
            information: 0,
            accepted: 0,
            notOpened: 0,
            failOn: 'error',
            exitStatus: 0,
        },
        findings: [],
        accepted: [],
        elsewhere: [],
    });
});

test('a finding says everything that the text report says, and where as numbers', async () => {
    const { findings, summary } = await reportOf({ ...cleanFiles, 'silent.fault': wrongSilent });
    const offset = wrongSilent.indexOf('flat-batery');
    const place = {
        file: 'silent.fault',
        start: { offset, line: 7, column: 47 },
        end: { offset: offset + 11, line: 7, column: 58 },
    };
    expect(summary).toMatchObject({ errors: 1, exitStatus: 1 });
    expect(findings).toEqual([
        {
            code: 'unknown-name',
            severity: 'error',
            message: 'There is no step, conclusion or referral called `flat-batery` in tree `silent`.',
            ...place,
            unnecessary: false,
            related: [],
            counterexample: null,
            advice: 'There is a step, conclusion or referral with a similar name: `flat-battery`.',
            mends: [
                { title: 'Write `flat-battery`', safety: 'suggestion', edits: [{ ...place, text: 'flat-battery' }] },
            ],
        },
    ]);
});

test('a counterexample comes with its path', async () => {
    const { findings } = await reportOf({
        ...cleanFiles,
        'silent.fault': silent.replace('  absent -> flat-battery', ''),
    });
    const missing = findings.find(({ code }) => code === 'branch-missing');
    expect(missing?.counterexample).toMatchObject({
        build: [],
        fault: null,
        path: [{ step: 'press', file: 'silent.fault', start: { line: 7 } }],
    });
    expect(missing?.counterexample?.sentence).toContain('no branch follows');
});

test('places are relative to the workspace, wherever the program is called', async () => {
    const folder = makeFolder({ 'halfsplit.json': '{}', 'trees/bell.fault': bell, 'trees/silent.fault': wrongSilent });
    const { output } = await run(['check', '--format', 'json'], { folder: `${folder}/trees` });
    expect((JSON.parse(output) as Report).findings.map(({ file }) => file)).toEqual(['trees/silent.fault']);
});

test('a file that cannot be opened stands at its beginning', async () => {
    const { findings, summary } = await reportOf(cleanFiles, '.', 'other.fault');
    const start = { offset: 0, line: 1, column: 1 };
    expect(findings).toMatchObject([{ code: 'unreadable-file', file: 'other.fault', start, end: start }]);
    expect(summary).toMatchObject({ notOpened: 1, exitStatus: 2 });
});

test('accepted findings keep their reasons', async () => {
    const accepting = `${bell.replace('  test ring', '  zone hall "Hall"\n\n  test ring')}
accept unused-declaration because "the hall comes later"
`;
    const { accepted, findings } = await reportOf({ ...cleanFiles, 'bell.fault': accepting });
    expect(findings).toEqual([]);
    expect(accepted).toMatchObject([{ code: 'unused-declaration', reason: 'the hall comes later' }]);
});

test('the same workspace gives the same report, byte for byte', async () => {
    const files = { ...cleanFiles, 'silent.fault': wrongSilent, 'more.fault': 'tree a\ntree b\n' };
    const first = await run(['check', '--format', 'json'], { folder: makeFolder(files) });
    const second = await run(['check', '--format', 'json'], { folder: makeFolder(files) });
    expect(second).toEqual(first);
    expect(first.output.length).toBeGreaterThan(500);
});

describe('the page on the report', () => {
    const page = readText('cli/README.md');

    test('tells of every property', async () => {
        const files = { ...cleanFiles, 'silent.fault': wrongSilent.replace('normal -> no-fault  ', '') };
        const names = new Set<string>();
        JSON.stringify(await reportOf(files, '.', 'other.fault'), (key, value: unknown) => {
            if (key !== '' && !/^\d+$/.test(key)) names.add(key);
            return value;
        });
        expect(names.size).toBeGreaterThan(25);
        expect([...names].filter(name => !page.includes(`\`${name}\``))).toEqual([]);
    });

    test('has the version that the report has', async () => {
        const { formatVersion } = await reportOf(cleanFiles);
        expect(page).toContain(`This is version ${formatVersion} of the form.`);
    });
});
