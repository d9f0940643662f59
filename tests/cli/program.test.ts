/** The program: help, version, and words that it does not understand. */
import { describe, expect, test } from 'vitest';
import { commands } from '../../cli/src/program.js';
import { readWords } from '../../cli/src/read-words.js';
import { programVersion } from '../../cli/src/version.js';
import { displayWidth } from '../../language/src/core/text/width.js';
import { readText } from '../house/project.mjs';
import { cleanFiles, makeFolder, run } from './support.js';

const folder = import.meta.dirname;

test('the version is that of the package', async () => {
    const { version } = JSON.parse(readText('cli/package.json')) as { version: string };
    expect(programVersion).toBe(version);
    expect(await run(['--version'], { folder })).toEqual({ status: 0, output: `halfsplit ${version}\n`, messages: '' });
});

describe('the help', () => {
    test('names every verb with its summary', async () => {
        const { status, output } = await run(['--help'], { folder });
        for (const { name, summary } of commands) expect(output).toMatch(new RegExp(`^ {2}${name} +${summary}$`, 'm'));
        expect(status).toBe(0);
        expect((await run(['-h'], { folder })).output).toBe(output);
        expect((await run(['help'], { folder })).output).toBe(output);
    });

    test('is shown where no verb is given, as a message', async () => {
        const { status, output, messages } = await run([], { folder });
        expect(messages).toBe((await run(['--help'], { folder })).output);
        expect(output).toBe('');
        expect(status).toBe(2);
    });

    test.each(commands.map(command => ({ command, name: command.name })))(
        'of $name shows its options and an example',
        async ({ command }) => {
            const { status, output } = await run([command.name, '--help'], { folder });
            for (const option of Object.keys(command.options)) expect(output).toContain(`  --${option}`);
            expect(command.examples.length).toBeGreaterThan(0);
            for (const [line] of command.examples) expect(output).toContain(`\n  ${line}\n`);
            expect(status).toBe(0);
            expect((await run([command.name, '-h', '--wrong'], { folder })).output).toBe(output);
            expect((await run(['help', command.name], { folder })).output).toBe(output);
            expect((await run(['--help', command.name], { folder })).output).toBe(output);
        },
    );

    test.each(['--help', ...commands.map(({ name }) => name)])('of %s fits a narrow terminal', async name => {
        const { output } = await run(name === '--help' ? [name] : [name, '--help'], { folder, columns: 60 });
        // Lines to copy are kept whole.
        const prose = output.split('\n').filter(line => !line.startsWith('  halfsplit'));
        expect(prose.filter(line => displayWidth(line) > 60)).toEqual([]);
    });

    test('gives examples that the program understands', () => {
        for (const command of commands) {
            for (const [line] of command.examples) {
                const [program, verb, ...words] = line.replace(/ >.*$/, '').split(' ');
                expect([program, verb]).toEqual(['halfsplit', command.name]);
                expect(readWords(command, words).help).toBe(false);
            }
        }
    });
});

describe('words that are not understood', () => {
    test.each([
        [['chek'], 'There is no verb `chek`.\nThere is a verb with a similar name: `check`.\n'],
        [
            ['walk-the-dog'],
            'The verbs are new, check, scenarios, coverage, explain, format, walk, draw, export and verify; `halfsplit --help` explains them.\n',
        ],
        [['--verbose'], 'There is no option `--verbose`.'],
        [['help', 'chek'], 'There is no verb `chek`.'],
        [
            ['check', '--formt', 'json'],
            '`check` has no option `--formt`.\nThere is an option with a similar name: `--format`.\n',
        ],
        [['check', '-x'], '`check` has no option `-x`.\n`halfsplit check --help` explains the verb.\n'],
        [['check', '--format'], '`--format` needs a value: `--format FORMAT`.'],
        [['check', '--format='], '`--format` needs a value'],
        [['check', '--format', '--name'], '`--format` needs a value'],
        [['check', '--format', 'xml'], '`--format` takes `text` or `json`, not `xml`.'],
        [['check', '--format', 'json', '--format=text'], '`--format` is given twice.'],
        [['format', '--check=yes'], '`--check` takes no value.'],
        [['explain', 'a', 'b'], '`explain` cannot use `b`: that is one word too many.'],
        [['check', '--constructor'], '`check` has no option `--constructor`.'],
        [['a\nb\u001B[31m'], 'There is no verb `a\\u{A}b\\u{1B}[31m`.'],
    ])('%j', async (words, expected) => {
        const { status, output, messages } = await run(words, { folder });
        expect(messages).toContain(`halfsplit: ${expected.startsWith('The verbs') ? '' : expected}`);
        expect(messages).toContain(expected);
        expect(messages).not.toContain('\u001B');
        expect(output).toBe('');
        expect(status).toBe(2);
    });

    test('may follow two hyphens as what they are', async () => {
        const odd = makeFolder({ '--format.fault': 'tree' });
        expect((await run(['check', '--', '--format.fault'], { folder: odd })).output).toContain('--format.fault:1:');
    });

    test('may stand behind the operands', async () => {
        const { output } = await run(['check', 'bell.fault', '--format=json'], { folder: makeFolder(cleanFiles) });
        expect(output).toContain('"formatVersion": 1');
    });
});

test('a mistake of the program is a message and no stack trace', async () => {
    const broken = makeFolder(cleanFiles);
    const rename = () => {
        throw new TypeError('something unheard of');
    };
    const { status, messages } = await run(['export', 'silent'], { folder: broken, disk: { rename } });
    expect(messages).toContain('something unheard of');
    expect(status).toBe(2);
});
