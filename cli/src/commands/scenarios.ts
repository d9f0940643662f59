// The verb `scenarios`: plays the author's scenarios and lists which of them pass.

import {
    type Counterexample,
    displayWidth,
    listOf,
    listRules,
    nearNames,
    plural,
    type PlayedScenario,
    playScenarios,
    quoteName,
    safetyNotice,
    wrap,
} from 'halfsplit-language';
import { type Colors, colorsFor } from '../colors.js';
import { type Command, Refusal, type Words } from '../command.js';
import { nothingFound, somethingFound, wrongUse } from '../exit-status.js';
import { shownPath } from '../find-sources.js';
import type { Io } from '../io.js';
import { openWorkspace, type OpenedWorkspace } from '../open-workspace.js';
import { counterexampleToJson, placer } from '../report/json.js';
import { plainReport } from '../report/report.js';
import { textFindings } from '../report/text.js';
import { programName, programVersion } from '../version.js';
import { visible } from '../visible.js';

export const scenarios: Command = {
    name: 'scenarios',
    summary: 'plays the scenarios and says which of them pass',
    usage: ['halfsplit scenarios [PATH…] [--name TITLE] [--format text|json]'],
    help: [
        'A PATH is a `.fault` file or a folder, which is searched for `.fault` files. Without one it is the current folder.',
        'Each scenario is played step by step, in every way that its case can go, and passes where it comes to its end in its time.',
        'The time is that of the longest way to the end, without the repair.',
        'The exit status is 1 when a scenario fails or cannot be played.',
    ],
    examples: [
        ['halfsplit scenarios', 'plays all scenarios in the current folder'],
        ['halfsplit scenarios --name "The coil is open"', 'plays one of them'],
        ['halfsplit scenarios trees --format json > scenarios.json', 'reports to a program'],
    ],
    options: {
        name: { value: 'TITLE', summary: 'only the scenario of this title' },
        format: {
            value: 'FORMAT',
            values: ['text', 'json'],
            summary: 'how to report: text for people (the default), json for programs',
        },
    },
    mostOperands: Number.POSITIVE_INFINITY,
    run: runScenarios,
};

async function runScenarios(words: Words, io: Io): Promise<number> {
    const opened = await openWorkspace(words.operands.length === 0 ? ['.'] : words.operands, io);
    await showUnopened(opened, io);
    const played = await playScenarios(opened.workspace, filesToPlay(opened, words.value('name')));
    const title = words.value('name');
    const chosen = title === undefined ? played : played.filter(({ scenario }) => scenario.title.value === title);
    const hasPassed = chosen.every(({ result }) => result === 'passed');
    const status = opened.unopened > 0 ? wrongUse : hasPassed ? nothingFound : somethingFound;
    const asJson = words.value('format') === 'json';
    io.output.write(asJson ? jsonText(chosen, status, opened) : reportText(chosen, opened, io));
    return status;
}

async function showUnopened({ workspace, found, unopened }: OpenedWorkspace, io: Io): Promise<void> {
    if (unopened === 0) return;
    const codes = new Set((await listRules()).map(rule => rule.code));
    const findings = workspace.findings.filter(({ code }) => code === 'unreadable-file');
    io.messages.write(textFindings(plainReport(findings, found.root, workspace.texts), io.messages, io, codes));
}

/** The files whose scenarios are asked for. Refuses where there is no scenario, or none of the title. */
function filesToPlay({ workspace, given, unopened }: OpenedWorkspace, title: string | undefined): readonly string[] {
    const files = [...given].filter(file => (workspace.model.files.get(file)?.scenarios.length ?? 0) > 0);
    if (files.length === 0 && unopened === 0) throw new Refusal('There is no scenario in these sources.');
    const titles = files.flatMap(file => workspace.model.files.get(file)?.scenarios ?? []).map(one => one.title.value);
    if (title === undefined || titles.includes(title) || unopened > 0) return files;
    const near = nearNames(title, titles).map(quoteName);
    const advice =
        near.length > 0
            ? `There is a scenario with a similar title: ${listOf(near, 'or')}.`
            : `There are the scenarios ${listOf([...new Set(titles)].map(quoteName), 'and', 8)}.`;
    throw new Refusal(`There is no scenario called ${quoteName(title)} in these sources.`, advice);
}

const widest = 100;
const narrowest = 40;

/** One line for each scenario, under the name of its file; below those that have not passed, why and by which way. */
function reportText(played: readonly PlayedScenario[], opened: OpenedWorkspace, io: Io): string {
    const colors = colorsFor(io.output, io);
    const width = Math.max(narrowest, Math.min(widest, io.output.columns ?? widest));
    const times = new Map(played.map(one => [one, timeText(one)]));
    const column = Math.max(0, ...[...times.values()].map(displayWidth));
    const files = [...new Set(played.map(({ scenario }) => scenario.file))];
    const blocks = files.map(file => [
        colors.strong(shownPath(file, opened.found.root, io)),
        ...played
            .filter(({ scenario }) => scenario.file === file)
            .flatMap(one => scenarioLines(one, (times.get(one) ?? '').padStart(column), width, colors)),
    ]);
    const notice = wrap(safetyNotice(), width).join('\n');
    return `${[...blocks.map(lines => lines.join('\n')), countText(played, colors), notice].join('\n\n')}\n`;
}

function scenarioLines(one: PlayedScenario, time: string, width: number, colors: Colors): readonly string[] {
    const { result, scenario, why, advice, counterexample } = one;
    const status = result === 'passed' ? 'passed' : colors.error(result === 'failed' ? 'failed' : 'not played');
    const head = `  ${status}${' '.repeat(statusWidth - result.length)}${time}   ${visible(scenario.title.value)}`;
    if (why === undefined) return [head];
    const below = (text: string, indent = 6) =>
        wrap(visible(text), width - indent).map(line => `${' '.repeat(indent)}${line}`);
    return [
        head,
        ...below(why),
        ...(counterexample ? pathLines(counterexample).flatMap(line => below(line, 8)) : []),
        ...(advice === undefined ? [] : below(advice)),
    ];
}

const statusWidth = 12;

/** The way of the unit, one line for each step. */
function pathLines({ build, fault, path }: Counterexample): readonly string[] {
    const unit = build.length === 0 ? 'any unit' : `a unit with ${build.join(', ')}`;
    const steps = path.map(({ step, text }, index) => `${index + 1}. ${step}${text === '' ? '' : `: ${text}`}`);
    return [fault === undefined ? unit : `${unit}, ${fault}`, ...steps];
}

function timeText({ time, within }: PlayedScenario): string {
    if (time === undefined) return '';
    const limit = within === undefined ? '' : ` of ${inMinutes(within)}`;
    return `${inMinutes(time)}${limit} min`;
}

/** Milliseconds as minutes, to two places. */
function inMinutes(time: number): number {
    return Math.round(time / 600) / 100;
}

function countText(played: readonly PlayedScenario[], colors: Colors): string {
    const counts = results.map(result => ({ result, count: countOf(result, played) })).filter(({ count }) => count > 0);
    const words = listOf(
        counts.map(({ result, count }) => `${count} ${result}`),
        'and',
    );
    const hasPassed = countOf('passed', played) === played.length;
    return `${plural(played.length, 'scenario')}: ${hasPassed ? words : colors.error(words)}.`;
}

const results: readonly PlayedScenario['result'][] = ['passed', 'failed', 'not played'];

function countOf(result: PlayedScenario['result'], played: readonly PlayedScenario[]): number {
    return played.filter(one => one.result === result).length;
}

/** It changes when a reader of an earlier version would no longer understand the report. */
const scenariosVersion = 1;

/** The report as JSON with a line feed at the end. The same sources give the same text. */
function jsonText(played: readonly PlayedScenario[], status: number, { workspace, unopened }: OpenedWorkspace): string {
    const place = placer(workspace);
    const document = {
        formatVersion: scenariosVersion,
        tool: { name: programName, version: programVersion },
        safety: safetyNotice(),
        summary: {
            scenarios: played.length,
            passed: countOf('passed', played),
            failed: countOf('failed', played),
            notPlayed: countOf('not played', played),
            notOpened: unopened,
            exitStatus: status,
        },
        scenarios: played.map(one => ({
            title: one.scenario.title.value,
            tree: one.scenario.tree.text,
            ...place(one.scenario),
            result: one.result,
            expected: one.scenario.expects[0]?.target.text ?? null,
            reached: one.end ?? null,
            minutes: one.time === undefined ? null : one.time / 60_000,
            within: one.within === undefined ? null : one.within / 60_000,
            why: one.why ?? null,
            advice: one.advice ?? null,
            counterexample: one.counterexample ? counterexampleToJson(one.counterexample, place) : null,
        })),
    };
    return `${JSON.stringify(document, null, 2)}\n`;
}
