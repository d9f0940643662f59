// The verb `draw`: draws trees as SVG files.

import { drawTree, plural } from 'halfsplit-language';
import { blockingFindings, verifyReached } from '../blocking-findings.js';
import { chooseTrees } from '../choose-trees.js';
import type { Command, Words } from '../command.js';
import { nothingFound, wrongUse } from '../exit-status.js';
import { writeFiles } from '../files/write-files.js';
import type { Io } from '../io.js';
import { placeOutputs } from '../output-files.js';

export const draw: Command = {
    name: 'draw',
    summary: 'draws trees as SVG pictures',
    usage: ['halfsplit draw [TREE|PATH…] [--out FOLDER|FILE.svg|-]'],
    help: [
        'A TREE is the name of a tree in the current folder; a PATH is a `.fault` file or a folder, and means all trees in it.',
        'Without either, all trees of the current folder are drawn.',
        'Each tree becomes a file `TREE.svg` in the current folder, or in the FOLDER of `--out`. A browser shows it.',
        'A tree that is not finished is drawn as far as it goes.',
    ],
    examples: [
        ['halfsplit draw no-airflow', 'writes no-airflow.svg'],
        ['halfsplit draw trees --out out', 'draws every tree in the folder trees into the folder out'],
    ],
    options: {
        out: {
            value: 'PLACE',
            summary: 'a folder, a file that ends in .svg for a single tree, or - for standard output',
        },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runDraw,
};

async function runDraw(words: Words, io: Io): Promise<number> {
    const { opened, trees } = await chooseTrees(words.operands, io);
    const place = placeOutputs(trees, words.value('out'), '.svg', io);
    const verdict = await verifyReached(
        trees.map(tree => tree.file),
        opened,
        io,
    );
    const errors = new Set([...blockingFindings(trees, verdict, opened).values()].flat());
    if (errors.size > 0) {
        const count = plural(errors.size, 'error stands', 'errors stand');
        io.messages.write(`${count} in what is drawn, so the drawing may be wrong; \`halfsplit check\` shows more.\n`);
    }
    if (place.sort === 'output') {
        for (const tree of trees) io.output.write(await drawTree(tree, opened.workspace.model));
    } else {
        const files = [];
        for (const { tree, path, shown } of place.files) {
            files.push({ path, shown, text: await drawTree(tree, opened.workspace.model) });
        }
        await writeFiles(files, io);
        for (const { shown } of files) io.messages.write(`Wrote \`${shown}\`.\n`);
    }
    return opened.unopened > 0 ? wrongUse : nothingFound;
}
