// The verb `check`: verifies sources and reports what it finds.

import { resolve } from 'node:path';
import { type Finding, listOf, listRules, type Severity } from 'halfsplit-language';
import { verifyReached } from '../blocking-findings.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import { toFileId } from '../files/workspace-root.js';
import { type FoundSources, shownPath } from '../find-sources.js';
import type { Io } from '../io.js';
import { type InputText, mostBytes, openWorkspace, type OpenedWorkspace } from '../open-workspace.js';
import { jsonReport } from '../report/json.js';
import { type Report, severities } from '../report/report.js';
import { textReport } from '../report/text.js';

export const check: Command = {
    name: 'check',
    summary: 'verifies sources and says what is wrong in them',
    usage: ['halfsplit check [PATH…] [--format text|json] [--fail-on SEVERITY]', 'halfsplit check - [--name FILE]'],
    help: [
        'A PATH is a `.fault` file or a folder, which is searched for `.fault` files. Without one it is the current folder.',
        'With `-` the source is read from standard input; `--name` says where it would lie, so that its `uses` are found.',
        'The rest of the workspace is read too, so that names are found; errors in what the sources use are counted.',
        'The workspace is the nearest folder upward that holds a file `halfsplit.json`; nothing outside it is read.',
    ],
    examples: [
        ['halfsplit check', 'verifies everything in the current folder'],
        ['halfsplit check no-airflow.fault', 'verifies one file'],
        ['halfsplit check --fail-on warning --format json > report.json', 'is strict, and reports to a program'],
    ],
    options: {
        format: {
            value: 'FORMAT',
            values: ['text', 'json'],
            summary: 'how to report: text for people (the default), json for programs',
        },
        'fail-on': {
            value: 'SEVERITY',
            values: severities,
            summary: 'the mildest severity that ends with status 1: error (the default), warning or information',
        },
        name: { value: 'FILE', summary: 'the name of the file that standard input stands for' },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runCheck,
};

async function runCheck(words: Words, io: Io): Promise<number> {
    const failOn = severities.find(severity => severity === words.value('fail-on')) ?? 'error';
    const opened = await openOperands(words, io);
    const report = await makeReport(opened, failOn, io);
    const codes = new Set((await listRules()).map(rule => rule.code));
    const asJson = words.value('format') === 'json';
    io.output.write(asJson ? jsonReport(report) : textReport(report, io.output, io, codes));
    return report.status;
}

/** Opens what the operands name: paths, or standard input for `-`. Without any it is the current folder. */
async function openOperands(words: Words, io: Io): Promise<OpenedWorkspace> {
    const { operands } = words;
    const name = words.value('name');
    if (operands.includes('-')) {
        if (operands.length > 1) throw new Refusal('Standard input, `-`, cannot be checked together with other paths.');
        return openWorkspace([], io, { input: await readInputText(name, io) });
    }
    if (name !== undefined) throw new Refusal('`--name` belongs to standard input: `halfsplit check - --name FILE`.');
    return openWorkspace(operands.length === 0 ? ['.'] : operands, io);
}

/** Standard input as a file of the given name; a little more than is ever read, so that too much is noticed. */
export async function readInputText(name: string | undefined, io: Io): Promise<InputText> {
    const bytes = await io.readInput(mostBytes + 1);
    return { path: resolve(io.folder, name ?? 'standard-input.fault'), bytes };
}

async function makeReport(opened: OpenedWorkspace, failOn: Severity, io: Io): Promise<Report> {
    const { found, workspace, given } = opened;
    const verdict = await verifyReached(given, opened, io);
    const isAsked = ({ file }: Finding): boolean => given.has(file) || !workspace.model.files.has(file);
    const findings = verdict.findings.filter(isAsked);
    const elsewhere = new Map<string, number>();
    for (const finding of verdict.findings) {
        if (!isAsked(finding) && finding.severity === 'error') {
            elsewhere.set(finding.file, (elsewhere.get(finding.file) ?? 0) + 1);
        }
    }
    const notes = [elsewhereNote(elsewhere, found, io), innerSettingsNote(found, io), outsideNote(findings, found, io)];
    return {
        root: found.root,
        texts: workspace.texts,
        findings,
        accepted: verdict.accepted.filter(({ finding }) => isAsked(finding)),
        files: [...given].filter(file => workspace.model.files.has(file)).length,
        notOpened: opened.unopened,
        elsewhere,
        failOn,
        status: statusOf(findings, failOn, opened),
        notes: notes.filter(note => note !== undefined),
    };
}

function statusOf(findings: readonly Finding[], failOn: Severity, { unopened }: OpenedWorkspace): number {
    if (unopened > 0) return wrongUse;
    const failing = severities.slice(0, severities.indexOf(failOn) + 1);
    return findings.some(({ severity }) => failing.includes(severity)) ? somethingFound : nothingFound;
}

function elsewhereNote(elsewhere: ReadonlyMap<string, number>, { root }: FoundSources, io: Io): string | undefined {
    if (elsewhere.size === 0) return undefined;
    const shown = [...elsewhere].map(([file, count]) => `${count} in \`${shownPath(file, root, io)}\``);
    return `There are errors in files that these use: ${listOf(shown, 'and', 4)}.`;
}

function innerSettingsNote({ innerSettings, root }: FoundSources, io: Io): string | undefined {
    if (innerSettings.length === 0) return undefined;
    const shown = innerSettings.map(path => `\`${shownPath(toFileId(path, root), root, io)}\``);
    return `Settings that are not used, because the workspace is the folder \`${shownPath('', root, io)}\`: ${listOf(shown, 'and', 4)}.`;
}

/** Without a settings file the folder of the workspace is only derived from the paths, and may be too low. */
function outsideNote(findings: readonly Finding[], { root, settingsFolder }: FoundSources, io: Io): string | undefined {
    if (settingsFolder !== undefined || !findings.some(({ code }) => code === 'path-outside')) return undefined;
    return [
        `The workspace is taken to be the folder \`${shownPath('', root, io)}\`.`,
        'A file `halfsplit.json` that holds `{}` makes the folder that it lies in the workspace.',
    ].join(' ');
}
