// The verb `new`: makes a small workspace to begin with.

import { existsSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { listOf } from 'halfsplit-language';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound } from '../exit-status.js';
import { writeFiles } from '../files/write-files.js';
import type { Io } from '../io.js';
import { starterFiles } from '../starter.js';
import { visible } from '../visible.js';

export const newWorkspace: Command = {
    name: 'new',
    summary: 'makes a small workspace to begin with',
    usage: ['halfsplit new [FOLDER]'],
    help: [
        'The workspace goes into FOLDER, which is made where needed, or into the current folder.',
        'It holds an invented fountain with one tree, and a README that says what to try. Files that are there are never overwritten.',
    ],
    examples: [['halfsplit new my-trees', 'makes a workspace in the folder my-trees']],
    options: {},
    mostOperands: 1,
    run: runNew,
};

async function runNew({ operands }: Words, io: Io): Promise<number> {
    const [written = '.'] = operands;
    const folder = resolve(io.folder, written);
    if (existsSync(folder) && !statSync(folder).isDirectory()) {
        throw new Refusal(`\`${visible(written)}\` is a file, and a folder is needed.`);
    }
    const taken = Object.keys(starterFiles).filter(name => existsSync(join(folder, name)));
    if (taken.length > 0) {
        const names = listOf(
            taken.map(name => `\`${name}\``),
            'and',
        );
        throw new Refusal(
            `Nothing is made, because these files are there already: ${names}.`,
            'Give a folder that is not there yet: `halfsplit new FOLDER`.',
        );
    }
    const files = Object.entries(starterFiles).map(([name, text]) => ({
        path: join(folder, name),
        shown: visible(join(written, name)),
        text,
    }));
    await writeFiles(files, io);
    for (const { shown } of files) io.messages.write(`Wrote \`${shown}\`.\n`);
    const enter = written === '.' ? '' : `cd ${/^[\w./-]+$/.test(written) ? written : `"${visible(written)}"`}\n  `;
    io.messages.write(
        `\nThis is an invented fountain. Try:\n  ${enter}halfsplit check\n  halfsplit draw no-water\n  halfsplit export no-water\n`,
    );
    return nothingFound;
}
