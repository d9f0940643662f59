// The verb `coverage`: says which faults the trees find, and which they do not.

import { resolve } from 'node:path';
import {
    coverTrees,
    type EquipmentCoverage,
    type Finding,
    listOf,
    listRules,
    nearNames,
    plural,
    quoteName,
    type Tree,
} from 'halfsplit-language';
import { blockingFindings, verifyReached } from '../blocking-findings.js';
import { type ChosenTrees, chooseTrees } from '../choose-trees.js';
import { colorsFor } from '../colors.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import { writeFiles } from '../files/write-files.js';
import type { Io, TextStream } from '../io.js';
import type { OpenedWorkspace } from '../open-workspace.js';
import { blocksAsMarkdown, blocksAsText } from '../report/coverage/blocks.js';
import { coverageBlocks } from '../report/coverage/contents.js';
import { coverageJson } from '../report/coverage/json.js';
import type { CoverageReport, CoveredEquipment } from '../report/coverage/report.js';
import { plainReport } from '../report/report.js';
import { textFindings } from '../report/text.js';
import { visible } from '../visible.js';

export const coverage: Command = {
    name: 'coverage',
    summary: 'says which faults the trees find, and which they miss',
    usage: ['halfsplit coverage [TREE|PATH…] [--tree NAME] [--build CHOICES] [--format FORMAT] [--out FILE|-]'],
    help: [
        'A TREE is the name of a tree in the current folder; a PATH is a `.fault` file or a folder, and means all trees in it.',
        'Without either, all trees of the current folder are meant.',
        'Every fault is walked through every tree in all builds, and counts by its rate.',
        'The figures are the fraction of faults detected and the fractions isolated to one, two and three parts (MIL-HDBK-2165, IEEE 1522).',
        'Those of the whole fleet come only where all trees of an equipment are meant.',
    ],
    examples: [
        ['halfsplit coverage', 'reports on everything in the current folder'],
        ['halfsplit coverage --tree no-airflow --build three-phase,bag', 'one tree, and only units with these choices'],
        ['halfsplit coverage --format markdown --out coverage.md', 'writes a report to paste into a review'],
    ],
    options: {
        tree: { value: 'NAME', summary: 'only the tree of this name' },
        build: {
            value: 'CHOICES',
            summary: 'only builds with these choices, with commas between them: CHOICE or OPTION.CHOICE',
        },
        format: {
            value: 'FORMAT',
            values: ['text', 'markdown', 'json'],
            summary: 'how to report: text for people (the default), markdown for reviews, json for programs',
        },
        out: { value: 'FILE', summary: 'the file to write, or - for standard output (the default)' },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runCoverage,
};

async function runCoverage(words: Words, io: Io): Promise<number> {
    const { opened, trees } = onlyTree(await chooseTrees(words.operands, io), words.value('tree'));
    const choices = (words.value('build') ?? '').split(',').map(name => name.trim());
    const named = choices.filter(name => name !== '');
    const covered = await coverTrees(opened.workspace, trees, named);
    const status = await refuseErrors(covered, trees, opened, io);
    if (status !== nothingFound) return status;
    const report: CoverageReport = { choices: named, equipment: covered.map(toCovered) };
    await writeReport(report, words, io);
    return nothingFound;
}

/** The tree of a name among those that were chosen; all of them where no name is given. */
function onlyTree({ opened, trees }: ChosenTrees, name: string | undefined): ChosenTrees {
    if (name === undefined) return { opened, trees };
    const called = trees.filter(tree => tree.name.text === name);
    if (called.length > 0 || opened.unopened > 0) return { opened, trees: called };
    const names = [...new Set(trees.map(tree => tree.name.text))];
    const near = nearNames(name, names).map(quoteName);
    throw new Refusal(
        `There is no tree called ${quoteName(name)} here.`,
        near.length > 0
            ? `There is a tree with a similar name: ${listOf(near, 'or')}.`
            : `There are the trees ${listOf(names.map(quoteName), 'and', 8)}.`,
    );
}

/** Shows what keeps trees from being walked, and counts the other errors, which do not. */
async function refuseErrors(
    covered: readonly EquipmentCoverage[],
    trees: readonly Tree[],
    opened: OpenedWorkspace,
    io: Io,
): Promise<number> {
    const files = trees.map(tree => tree.file);
    const verdict = await verifyReached(files, opened, io);
    const blocking = blockingFindings(trees, verdict, opened);
    const unreadable = covered.flatMap(({ answer }) => (answer.sort === 'unreadable' ? answer.trees : []));
    const shown = new Set<Finding>(
        opened.unopened > 0 ? verdict.findings.filter(({ code }) => code === 'unreadable-file') : [],
    );
    const whileReading = new Set(opened.workspace.findings);
    for (const finding of unreadable.flatMap(tree => blocking.get(tree) ?? [])) {
        if (whileReading.has(finding) || codesOfNames.has(finding.code)) shown.add(finding);
    }
    if (unreadable.length === 0 && opened.unopened === 0) {
        const others = new Set([...blocking.values()].flat());
        const count = plural(others.size, 'error stands', 'errors stand');
        if (others.size > 0) io.messages.write(`${count} in these trees; \`halfsplit check\` shows more.\n`);
        return nothingFound;
    }
    const codes = new Set((await listRules()).map(rule => rule.code));
    const report = plainReport([...shown], opened.found.root, opened.workspace.texts);
    io.messages.write(textFindings(report, io.messages, io, codes));
    const names = unreadable.map(tree => quoteName(tree.name.text));
    const of = names.length === 0 ? '' : ` of ${listOf(names, 'and', 6)}`;
    io.messages.write(`There is no report: ${plural(shown.size, 'error stands', 'errors stand')} in the way${of}.\n`);
    return opened.unopened > 0 ? wrongUse : somethingFound;
}

/** Of a tree with such errors nobody can say where its ways lead. */
const codesOfNames = new Set(['unknown-name', 'ambiguous-name']);

/** The coverage that there is; refuses where what was asked for does not fit the equipment. */
function toCovered({ equipment, trees, isWhole, answer }: EquipmentCoverage): CoveredEquipment {
    if (!equipment || answer.sort !== 'covered') throw refusalFor(equipment?.name.text ?? '', answer);
    const walked = answer.coverage.trees.filter(({ tree }) => trees.includes(tree));
    const notWalked = answer.coverage.notWalked.filter(tree => trees.includes(tree));
    return { equipment, coverage: answer.coverage, trees: walked, isWhole, notWalked };
}

function refusalFor(name: string, answer: EquipmentCoverage['answer']): Refusal {
    const equipment = quoteName(name);
    switch (answer.sort) {
        case 'unknown choice': {
            const near = answer.near.map(quoteName);
            return new Refusal(
                `${equipment} has no choice called ${quoteName(answer.name)}.`,
                near.length > 0 ? `There is a choice with a similar name: ${listOf(near, 'or')}.` : undefined,
            );
        }
        case 'ambiguous choice':
            return new Refusal(
                `${quoteName(answer.name)} is a choice of several options of ${equipment}.`,
                `Write the option before it: ${listOf(answer.written.map(quoteName), 'or')}.`,
            );
        case 'no build':
            return new Refusal(`No unit of ${equipment} is built with these choices together.`);
        default:
            return new Refusal(
                `${equipment} has too many builds and states to tell what its trees cover.`,
                'Limit the report to some builds with `--build`, or limit the trees with `for`.',
            );
    }
}

async function writeReport(report: CoverageReport, words: Words, io: Io): Promise<void> {
    const out = words.value('out') ?? '-';
    const text = reportText(report, words.value('format'), out === '-', io);
    if (out === '-') {
        io.output.write(text);
        return;
    }
    const shown = visible(out);
    await writeFiles([{ path: resolve(io.folder, out), shown, text }], io);
    io.messages.write(`Wrote \`${shown}\`.\n`);
}

const widest = 100;
const narrowest = 60;
const noTerminal: TextStream = { write: () => undefined, isTerminal: false, columns: undefined };

function reportText(report: CoverageReport, format: string | undefined, isShown: boolean, io: Io): string {
    if (format === 'json') return coverageJson(report);
    const blocks = coverageBlocks(report);
    if (format === 'markdown') return blocksAsMarkdown(blocks);
    const columns = isShown ? (io.output.columns ?? widest) : widest;
    // A file is read anywhere, so it has no colors.
    const colors = isShown ? colorsFor(io.output, io) : colorsFor(noTerminal, { environment: {} });
    return blocksAsText(blocks, Math.max(narrowest, Math.min(widest, columns)), colors);
}
