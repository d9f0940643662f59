// The help of the program and of each verb.

import { displayWidth, wrap } from 'halfsplit-language';
import type { Command, Option } from './command.js';
import type { Io, TextStream } from './io.js';
import { colorsFor } from './colors.js';
import { programVersion } from './version.js';

const widest = 90;

/** What the program is for, its verbs, and what to try first. */
export function programHelp(commands: readonly Command[], stream: TextStream, io: Io): string {
    const { strong } = colorsFor(stream, io);
    const width = widthOf(stream);
    const rows = commands.map(({ name, summary }) => [name, summary] as const);
    return [
        ...wrap(
            `Halfsplit ${programVersion} verifies fault isolation trees written in \`.fault\` files, and exports them.`,
            width,
        ),
        '',
        strong('Use'),
        '  halfsplit VERB [WORDS…]',
        '',
        strong('Verbs'),
        ...columns(rows, width),
        '',
        strong('Options'),
        ...columns([...everywhere, ['--version', 'show the version']], width),
        '',
        strong('To begin'),
        ...columns(
            [
                ['halfsplit new my-trees', 'makes a small workspace in the folder my-trees'],
                ['halfsplit check my-trees', 'verifies it'],
                ['halfsplit check --help', 'explains a verb'],
            ],
            width,
        ),
        '',
        ...wrap(
            'The exit status is 0 when nothing is wrong, 1 for findings, and 2 for wrong use or what cannot be opened.',
            width,
        ),
        '',
    ].join('\n');
}

/** How a verb is used. */
export function commandHelp(command: Command, stream: TextStream, io: Io): string {
    const { strong } = colorsFor(stream, io);
    const width = widthOf(stream);
    return [
        ...wrap(`\`halfsplit ${command.name}\` ${command.summary}.`, width),
        '',
        strong('Use'),
        ...command.usage.map(line => `  ${line}`),
        '',
        ...command.help.flatMap(line => wrap(line, width)),
        '',
        strong('Options'),
        ...columns([...Object.entries(command.options).map(optionRow), ...everywhere], width),
        '',
        strong(command.examples.length === 1 ? 'Example' : 'Examples'),
        ...command.examples.flatMap(([line, meaning]) => [
            `  ${line}`,
            ...wrap(meaning, width - 6).map(part => `      ${part}`),
        ]),
        '',
    ].join('\n');
}

const everywhere: readonly (readonly [string, string])[] = [['--help, -h', 'show this help']];

function optionRow([name, { value, summary }]: readonly [string, Option]): readonly [string, string] {
    return [`--${name}${value === undefined ? '' : ` ${value}`}`, summary];
}

/** Two columns; the second one is wrapped. */
function columns(rows: readonly (readonly [string, string])[], width: number): readonly string[] {
    const indent = Math.max(...rows.map(([first]) => displayWidth(first))) + 5;
    return rows.flatMap(([first, second]) =>
        wrap(second, Math.max(20, width - indent)).map(
            (line, index) => `${index === 0 ? `  ${first}`.padEnd(indent) : ' '.repeat(indent)}${line}`,
        ),
    );
}

function widthOf(stream: TextStream): number {
    return Math.max(40, Math.min(widest, stream.columns ?? widest));
}
