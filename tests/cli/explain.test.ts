/** The verb `explain`: the pages of the findings on a terminal. */
import { describe, expect, test } from 'vitest';
import { colorsFor } from '../../cli/src/colors.js';
import { renderPage } from '../../cli/src/render-page.js';
import { displayWidth } from '../../language/src/core/text/width.js';
import { rules } from '../../language/src/rules/index.js';
import { makeFolder, run } from './support.js';

// No test here reads or writes anything, so any folder will do.
const folder = import.meta.dirname;

test.each(rules.map(({ code }) => code))('the page of %s is shown, and its prose fits the width', async code => {
    const { status, output } = await run(['explain', code], { folder, columns: 60 });
    expect(output.startsWith(`${code}\n`)).toBe(true);
    expect(output).toContain('WHAT IT FINDS');
    expect(output).not.toMatch(/^(#|```|\|)/m);
    // Examples are shown as they are written; everything else is wrapped.
    const prose = output.split('\n').filter(line => !line.startsWith('    '));
    expect(prose.filter(line => displayWidth(line) > 60)).toEqual([]);
    expect(status).toBe(0);
});

test('without a code all findings are listed, each with one sentence', async () => {
    const { status, output } = await run(['explain'], { folder });
    for (const { code } of rules) expect(output).toMatch(new RegExp(`^ {2}${code} +\\S`, 'm'));
    expect(output).toMatch(/^ {2}unused-declaration +A declaration that nothing uses\. \(warning\)$/m);
    expect(status).toBe(0);
});

test('a code that is not there is answered with those like it', async () => {
    const near = await run(['explain', 'unkown-name'], { folder });
    expect(near.messages).toContain('There is a code like it: `unknown-name`.');
    expect(near.status).toBe(2);
    expect((await run(['explain', 'branch'], { folder })).messages).toContain(
        '`branch-missing`, `branch-twice` and `impossible-branch`',
    );
    expect((await run(['explain', 'quite-another-thing'], { folder })).messages).toContain('lists all codes');
    for (const odd of ['', '__proto__', 'constructor', 'a\nb\u001B[31m']) {
        const { status, messages } = await run(['explain', odd], { folder });
        expect(status).toBe(2);
        expect(messages).not.toContain('\u001B');
    }
});

describe('a page', () => {
    const show = (page: string, width = 30) => {
        const stream = { write: () => undefined, isTerminal: false, columns: undefined };
        return renderPage(page, width, colorsFor(stream, { environment: {} }));
    };

    test('has its paragraphs wrapped and its headings set apart', () => {
        expect(show('# name\n\nOne sentence that is long\nenough for two lines.\n\n## What\n\nMore.\n')).toBe(
            'name\n\nOne sentence that is long\nenough for two lines.\n\nWHAT\n\nMore.\n',
        );
    });

    test('keeps its examples as they are, indented', () => {
        expect(show('```fault\ntree a {\n\n  step b { go c }  // a line that is longer than the width\n}\n```\n')).toBe(
            '    tree a {\n\n      step b { go c }  // a line that is longer than the width\n    }\n',
        );
    });

    test('has its lists hanging', () => {
        expect(show('- one that goes on for more than a line\n- two\n  and more\n1. first\n')).toBe(
            '- one that goes on for more\n  than a line\n- two and more\n1. first\n',
        );
    });

    test('has its tables in columns', () => {
        expect(
            show('| word | meaning |\n|---|---|\n| a | short |\n| bc \\| d | long enough to be wrapped |\n', 24),
        ).toBe('word    meaning\na       short\nbc | d  long enough to\n        be wrapped\n');
    });

    test('may end in the middle of an example', () => {
        expect(show('```\nopen')).toBe('    open\n');
    });
});

test('no file is needed', async () => {
    expect((await run(['explain'], { folder: makeFolder() })).status).toBe(0);
});
