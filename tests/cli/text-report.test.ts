/** The report for people: its layout, the line with the stretch, colors, and what must never get to a terminal. */
import { describe, expect, test } from 'vitest';
import { lineStarts } from '../../language/src/core/text/positions.js';
import { showLine } from '../../cli/src/report/source-line.js';
import { bell, cleanFiles, makeFolder, run, silent, wrongSilent } from './support.js';

test('the report of a small file is the golden one', async () => {
    const files = {
        'halfsplit.json': '{}',
        'bell.fault': bell.replace('  test ring', '  zone hall "Hall"\n\n  test ring'),
        'silent.fault': `uses "bell.fault"

tree silent "The bell does not ring" of bell {
  complaint ring absent

  step press "Press the button" {
    test ring { normal -> no-falt }
  }

  conclude flat-battery "The battery is flat" { battery.flat }
  refer no-fault "No fault found" because "the bell rings"
}
`,
    };
    const { output } = await run(['check'], { folder: makeFolder(files) });
    await expect(output).toMatchFileSnapshot('golden/text-report.txt');
});

describe('the line of a finding', () => {
    /** Shows the line with the stretch between the two marks. */
    function show(marked: string, width = 60): string {
        const start = marked.indexOf('<|');
        const end = marked.indexOf('|>') - 2;
        const text = marked.replace('<|', '').replace('|>', '');
        const shown = showLine({ text, lineStarts: lineStarts(text) }, { start, end }, width);
        return [shown.text, shown.underline, ...(shown.moreLines > 0 ? [`+${shown.moreLines}`] : [])].join('\n');
    }

    test.each([
        ['one word', 'test <|ring|> {', 'test ring {\n     ~~~~'],
        ['one word of a later line', 'a\n\nb <|c|>\nd', 'b c\n  ~'],
        ['the whole line', '<|abc|>', 'abc\n~~~'],
        ['nothing within a line', 'ab<||>cd', 'abcd\n  ~'],
        ['nothing at the end of a line', 'abcd<||>\nef', 'abcd\n    ~'],
        ['nothing in an empty line', 'ab\n<||>\ncd', '\n~'],
        ['nothing at the end of the file', 'ab\n<||>', '\n~'],
        ['several lines', 'a <|b\nc\nd|> e', 'a b\n  ~\n+2'],
        ['lines that end with returns', 'a <|b\r\nc|>\r\n', 'a b\n  ~\n+1'],
        ['a word behind tabs', '\ta\t<|b|>', '    a   b\n        ~'],
        ['a tab', 'ab<|\t|>c', 'ab  c\n  ~~'],
        ['wide characters', '日本 <|語|> x', '日本 語 x\n     ~~'],
        ['what stands behind an emoji', '👩‍🔧 <|x|>', '👩‍🔧 x\n   ~'],
        ['what stands behind a letter with a loose mark', 'e\u0301 <|x|>', 'e\u0301 x\n  ~'],
        ['control characters', '\u001B[31m<|x|>\u0007', '\uFFFD[31mx\uFFFD\n     ~'],
    ])('with %s', (_, marked, expected) => {
        expect(show(marked)).toBe(expected);
    });

    test('is cut where it is too long, so that the stretch stays in view', () => {
        const long = 'x'.repeat(200);
        expect(show(`<|ab|> ${long}`, 20)).toBe(`ab ${'x'.repeat(16)}…\n~~`);
        expect(show(`${long} <|ab|>`, 20)).toBe(`…${'x'.repeat(11)} ab\n${' '.repeat(13)}~~`);
        expect(show(`${long} <|ab|> ${long}`, 20)).toBe(`…${'x'.repeat(11)} ab ${'x'.repeat(3)}…\n${' '.repeat(13)}~~`);
        expect(show(`<|${long}|>`, 20)).toBe(`${'x'.repeat(19)}…\n${'~'.repeat(19)}`);
    });

    test('never takes more columns than there are', () => {
        for (const before of ['', 'ab', '日本語'.repeat(30), '\t'.repeat(30)]) {
            for (const after of ['', 'ab', '日本語'.repeat(30), '\t'.repeat(30)]) {
                for (const line of show(`${before}<|語x|>${after}`, 30).split('\n')) {
                    expect(
                        [...line].reduce((sum, sign) => sum + (/[日本語]/.test(sign) ? 2 : 1), 0),
                    ).toBeLessThanOrEqual(30);
                }
            }
        }
    });
});

describe('colors', () => {
    const folderWithError = () => makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
    const escape = '\u001B[';

    test('are only for terminals', async () => {
        const folder = folderWithError();
        expect((await run(['check'], { folder })).output).not.toContain(escape);
        expect((await run(['check'], { folder, terminal: true })).output).toContain(`${escape}31merror${escape}0m`);
    });

    test('are wanted or not wanted by the environment', async () => {
        const folder = folderWithError();
        const output = async (environment: Record<string, string>, terminal: boolean) =>
            (await run(['check'], { folder, terminal, environment })).output.includes(escape);
        expect(await output({ NO_COLOR: '1' }, true)).toBe(false);
        expect(await output({ NO_COLOR: '' }, true)).toBe(true);
        expect(await output({ TERM: 'dumb' }, true)).toBe(false);
        expect(await output({ FORCE_COLOR: '1' }, false)).toBe(true);
        expect(await output({ FORCE_COLOR: '0' }, true)).toBe(false);
        expect(await output({ FORCE_COLOR: '1', NO_COLOR: '1' }, false)).toBe(true);
    });

    test('say nothing that is not said in words', async () => {
        const folder = folderWithError();
        const plain = (await run(['check'], { folder })).output;
        const colored = (await run(['check'], { folder, terminal: true })).output;

        expect(colored.replace(/\u001B\[\d+m/g, '')).toBe(plain);
    });
});

test('the report fits a narrow terminal', async () => {
    const folder = makeFolder({ ...cleanFiles, 'silent.fault': wrongSilent });
    const { output } = await run(['check'], { folder, columns: 44 });
    for (const line of output.split('\n')) {
        // The first line of a finding is kept whole, so that it can be clicked on and copied.
        if (!line.includes('unknown-name')) expect(line.length).toBeLessThanOrEqual(44);
    }
});

test('what an author wrote cannot reach the terminal unseen', async () => {
    const evil = silent.replace('"No fault found"', '"\u001B]0;title\u0007\u202Eevil" wrong');
    const { output } = await run(['check'], { folder: makeFolder({ ...cleanFiles, 'silent.fault': evil }) });
    expect(output).toContain('silent.fault');

    expect(output).not.toMatch(/[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u202A-\u202E]/);
});
