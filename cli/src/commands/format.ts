// The verb `format`: lays out sources in the one layout.

import { realpathSync } from 'node:fs';
import { type Finding, formatSource, listRules, plural } from 'halfsplit-language';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import { decodeText, readWholeFile } from '../files/read-file.js';
import { toFileId } from '../files/workspace-root.js';
import { writeFiles } from '../files/write-files.js';
import { findSources, pathFinding, shownPath } from '../find-sources.js';
import type { Io } from '../io.js';
import { mostBytes } from '../open-workspace.js';
import { showProgress } from '../progress.js';
import { plainReport } from '../report/report.js';
import { textFindings } from '../report/text.js';
import { readInputText } from './check.js';

export const format: Command = {
    name: 'format',
    summary: 'lays out sources in the one layout',
    usage: ['halfsplit format [PATH…] [--check]', 'halfsplit format - [--name FILE] [--check]'],
    help: [
        'A PATH is a `.fault` file or a folder, which is searched for `.fault` files. Without one it is the current folder.',
        'With `-` the source is read from standard input, and what it should look like goes to standard output.',
        'Only blanks, line breaks and the spelling of a few signs change, never what a file says.',
        'A file that cannot be read without errors stays as it is.',
    ],
    examples: [
        ['halfsplit format', 'lays out everything in the current folder'],
        ['halfsplit format --check', 'changes nothing; names the files that would change and ends with status 1'],
    ],
    options: {
        check: { summary: 'change nothing, and name the files that would change' },
        name: { value: 'FILE', summary: 'the name of the file that standard input stands for' },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runFormat,
};

async function runFormat(words: Words, io: Io): Promise<number> {
    const { operands } = words;
    const name = words.value('name');
    if (operands.includes('-')) {
        if (operands.length > 1) {
            throw new Refusal('Standard input, `-`, cannot be laid out together with other paths.');
        }
        return formatInput(name, words.has('check'), io);
    }
    if (name !== undefined) throw new Refusal('`--name` belongs to standard input: `halfsplit format - --name FILE`.');
    return formatFiles(operands.length === 0 ? ['.'] : operands, words.has('check'), io);
}

async function formatInput(name: string | undefined, check: boolean, io: Io): Promise<number> {
    const { path, bytes } = await readInputText(name, io);
    const text = decodeText(bytes);
    const file = toFileId(path, realpathSync(io.folder));
    const formatted = await formatSource(text, file);
    if (formatted.findings.length > 0) {
        await showFindings(formatted.findings, realpathSync(io.folder), new Map([[file, text]]), io);
        return somethingFound;
    }
    if (!check) io.output.write(formatted.text);
    else if (formatted.text !== text) io.output.write(`${shownPath(file, realpathSync(io.folder), io)}\n`);
    return check && formatted.text !== text ? somethingFound : nothingFound;
}

async function formatFiles(paths: readonly string[], check: boolean, io: Io): Promise<number> {
    const { root, files, problems } = findSources(paths, io);
    const counts = { changed: 0, refused: 0, unreadable: 0 };
    counts.unreadable = problems.filter(({ code }) => code === 'unreadable-file').length;
    const found = problems.map(problem => pathFinding(problem, root));
    await showFindings(found, root, new Map(), io);
    const progress = showProgress(io, check ? 'Comparing' : 'Laying out', files.length);
    for (const path of files) {
        const outcome = await formatFile(path, root, check, io);
        progress.step();
        if (outcome.sort === 'same') continue;
        counts[outcome.sort] += 1;
        progress.end();
        if (outcome.sort !== 'changed') await showFindings(outcome.findings, root, outcome.texts, io);
        else if (check) io.output.write(`${outcome.shown}\n`);
        else io.messages.write(`Changed \`${outcome.shown}\`.\n`);
    }
    progress.end();
    io.messages.write(closingLine(files.length, check, counts));
    if (counts.unreadable > 0) return wrongUse;
    return counts.refused > 0 || (check && counts.changed > 0) ? somethingFound : nothingFound;
}

function closingLine(
    files: number,
    check: boolean,
    counts: { readonly changed: number; readonly refused: number },
): string {
    const { changed, refused } = counts;
    const done = `${changed === 0 ? 'none' : changed} ${check ? 'would change' : 'changed'}`;
    const kept = plural(refused, 'file stays as it is', 'files stay as they are');
    return `${plural(files, 'file')}: ${done}${refused === 0 ? '' : `; ${kept} because of errors`}.\n`;
}

type Outcome =
    | { readonly sort: 'same' }
    | { readonly sort: 'changed'; readonly shown: string }
    | {
          readonly sort: 'refused' | 'unreadable';
          readonly findings: readonly Finding[];
          readonly texts: ReadonlyMap<string, string>;
      };

async function formatFile(path: string, root: string, check: boolean, io: Io): Promise<Outcome> {
    const file = toFileId(path, root);
    const read = readWholeFile(path, mostBytes);
    if (read.sort === 'unreadable') {
        const finding = pathFinding({ path, code: 'unreadable-file', message: read.message }, root);
        return { sort: 'unreadable', findings: [finding], texts: new Map() };
    }
    const text = decodeText(read.bytes);
    const formatted = await formatSource(text, file);
    if (formatted.findings.length > 0) {
        return { sort: 'refused', findings: formatted.findings, texts: new Map([[file, text]]) };
    }
    if (formatted.text === text) return { sort: 'same' };
    const shown = shownPath(file, root, io);
    // Through a link the file itself is written, and the link stays one.
    if (!check) await writeFiles([{ path: realpathSync(path), shown, text: formatted.text, mode: read.mode }], io);
    return { sort: 'changed', shown };
}

async function showFindings(
    findings: readonly Finding[],
    root: string,
    texts: ReadonlyMap<string, string>,
    io: Io,
): Promise<void> {
    if (findings.length === 0) return;
    const codes = new Set((await listRules()).map(rule => rule.code));
    io.messages.write(textFindings(plainReport(findings, root, texts), io.messages, io, codes));
}
