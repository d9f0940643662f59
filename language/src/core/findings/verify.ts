// Runs the rules over the linked model and applies severities and acceptances.

import type { FileModel } from '../model/file.js';
import type { Model } from '../model/model.js';
import type { FileId } from '../model/written.js';
import { walkWithFormulas } from '../questions/walks.js';
import { TooManyNodes } from '../walk/sets/world-sets.js';
import { acceptancesOf, type AcceptedStretch } from './acceptances.js';
import type { Finding, Severity } from './finding.js';
import { type Report, type Rule, type Signal, fillMessage, makeFinding } from './rule.js';
import type { Settings } from './settings.js';

/** A finding that the author accepted, with the reason. */
export interface AcceptedFinding {
    readonly finding: Finding;
    readonly reason: string;
}

export interface Verdict {
    /** In the order of files and places; the most severe first at one place. */
    readonly findings: readonly Finding[];
    /** In the same order. */
    readonly accepted: readonly AcceptedFinding[];
}

export interface VerifyOptions {
    readonly rules: readonly Rule[];
    readonly settings: Settings;
    readonly signal: Signal;
    /** Which files to look at; all where it is absent. */
    readonly files?: readonly FileId[];
    /** `fast` leaves out what is too slow to run at every keystroke. */
    readonly cost?: 'fast' | 'slow';
    /** Called after each file, for progress. */
    readonly onFile?: (file: FileId) => void;
}

/**
 * Asks every rule about every file. `given` are the findings of reading, parsing and lowering.
 * Undefined when the signal says that the answer is no longer wanted.
 */
export function verify(model: Model, given: readonly Finding[], options: VerifyOptions): Verdict | undefined {
    const files = options.files ?? [...model.files.keys()];
    const givenByFile = groupByFile(given);
    const unreadable = new Set(given.filter(({ severity }) => severity === 'error').map(({ file }) => file));
    const findings: Finding[] = [];
    const accepted: AcceptedFinding[] = [];
    for (const file of files) {
        if (options.signal.aborted) return undefined;
        const isReadable = model.visibleFiles(file).every(one => !unreadable.has(one.file));
        const raw = [...(givenByFile.get(file) ?? []), ...runRules(model, file, isReadable, options)];
        settle(model, file, raw, options, findings, accepted);
        options.onFile?.(file);
    }
    // Findings about files that could not be read have no model, but must not be lost.
    const known = new Set(files);
    for (const finding of given) if (!known.has(finding.file) && !model.files.has(finding.file)) findings.push(finding);
    accepted.sort((one, other) => compareFindings(one.finding, other.finding));
    return { findings: sortFindings(findings), accepted };
}

function groupByFile(findings: readonly Finding[]): Map<FileId, Finding[]> {
    const groups = new Map<FileId, Finding[]>();
    for (const finding of findings) {
        const group = groups.get(finding.file);
        if (group) group.push(finding);
        else groups.set(finding.file, [finding]);
    }
    return groups;
}

function runRules(model: Model, file: FileId, isReadable: boolean, options: VerifyOptions): Finding[] {
    const rules = options.rules.filter(rule => rule.check && !(options.cost === 'fast' && rule.cost === 'slow'));
    const walked = isReadable ? rules.filter(({ asks }) => asks === 'walked') : [];
    const plain = askAll(
        rules.filter(({ asks }) => asks !== 'walked'),
        model,
        file,
        options,
    );
    let asked = askAll(walked, model, file, options);
    const fileModel = model.files.get(file);
    // What the rules ask may be too large where the walks were not.
    if (asked.unfinished && fileModel && walkAgain(fileModel, model, options.signal)) {
        asked = askAll(walked, model, file, options);
    }
    const findings = [...plain.findings, ...asked.findings];
    const rule = options.rules.find(one => one.code === 'undecided-walk');
    const isTold = findings.some(({ code }) => code === rule?.code);
    if (rule && asked.unfinished && !isTold) findings.push(walkUndecided(rule, file, model));
    return findings;
}

function walkAgain(file: FileModel, model: Model, signal: Signal): boolean {
    try {
        return walkWithFormulas(file, model, signal);
    } catch (problem) {
        if (problem instanceof TooManyNodes) return false;
        throw problem;
    }
}

/** What rules find; `unfinished` where one of them had to give up because there are too many worlds. */
function askAll(
    rules: readonly Rule[],
    model: Model,
    file: FileId,
    { signal, settings }: VerifyOptions,
): { readonly findings: Finding[]; readonly unfinished: boolean } {
    const findings: Finding[] = [];
    let unfinished = false;
    for (const rule of rules) {
        const report: Report = (message, place, values, extras) => {
            const template = rule.messages[message] ?? message;
            const severity = extras?.severity ?? rule.severity;
            findings.push(makeFinding(rule.code, severity, fillMessage(template, values), place, extras));
        };
        try {
            rule.check?.(model, file, report, signal, settings);
        } catch (problem) {
            if (problem instanceof TooManyNodes) unfinished = true;
            else findings.push(ruleFailed(rule, file, model.files.get(file)?.length ?? 0, problem));
        }
    }
    return { findings, unfinished };
}

/** The walks of the file's trees were within their budget, and what was asked of them was not. */
function walkUndecided(rule: Rule, file: FileId, model: Model): Finding {
    const fileModel = model.files.get(file);
    const place = fileModel?.trees[0]?.name ?? { file, start: 0, end: Math.min(1, fileModel?.length ?? 0) };
    return makeFinding(rule.code, rule.severity, rule.messages['unfinished'] ?? '', place, {
        advice: 'Divide the trees by their builds into several trees, or give options that always go together one name.',
    });
}

/** A rule that fails must not take the others with it; the tests fail on any such finding. */
function ruleFailed(rule: Rule, file: FileId, length: number, problem: unknown): Finding {
    const words = problem instanceof Error ? problem.message : String(problem);
    return makeFinding(
        'rule-failed',
        'error',
        `The rule \`${rule.code}\` could not be checked in this file: ${words}`,
        { file, start: 0, end: Math.min(1, length) },
        { advice: 'This is a mistake of the tool. Please report it with this file.' },
    );
}

function settle(
    model: Model,
    file: FileId,
    raw: readonly Finding[],
    options: VerifyOptions,
    findings: Finding[],
    accepted: AcceptedFinding[],
): void {
    const fileModel = model.files.get(file);
    const stretches = fileModel ? acceptancesOf(fileModel) : [];
    const used = new Set<AcceptedStretch>();
    for (const finding of raw) {
        const severity = severityOf(finding, options.settings);
        if (severity === 'off') continue;
        const stretch = severity === 'error' ? undefined : acceptanceOf(finding, stretches);
        if (stretch) {
            used.add(stretch);
            accepted.push({ finding: { ...finding, severity }, reason: stretch.acceptance.reason?.value ?? '' });
        } else {
            findings.push(severity === finding.severity ? finding : { ...finding, severity });
        }
    }
    // Slow rules have not spoken in a fast run, so nothing can be said of acceptances then.
    if (options.cost !== 'fast') findings.push(...idleAcceptances(stretches, used, raw, options));
}

/** The workspace may change any severity, but an error stays an error: the export depends on it. */
function severityOf(finding: Finding, settings: Settings): Severity | 'off' {
    if (finding.severity === 'error') return 'error';
    return settings.severities[finding.code] ?? finding.severity;
}

/** The innermost acceptance of this code that holds where the finding is, if it gives a reason. */
function acceptanceOf(finding: Finding, stretches: readonly AcceptedStretch[]): AcceptedStretch | undefined {
    let best: AcceptedStretch | undefined;
    for (const stretch of stretches) {
        if (stretch.acceptance.code.text !== finding.code || !hasReason(stretch)) continue;
        if (finding.start < stretch.start || finding.end > stretch.end) continue;
        if (!best || stretch.end - stretch.start < best.end - best.start) best = stretch;
    }
    return best;
}

function hasReason(stretch: AcceptedStretch): boolean {
    return (stretch.acceptance.reason?.value.trim() ?? '') !== '';
}

/** Acceptances that accept nothing, and why: a wrong code, no reason, an error, or nothing there any more. */
function idleAcceptances(
    stretches: readonly AcceptedStretch[],
    used: ReadonlySet<AcceptedStretch>,
    raw: readonly Finding[],
    options: VerifyOptions,
): Finding[] {
    const rule = options.rules.find(one => one.code === 'idle-acceptance');
    if (!rule || options.settings.severities[rule.code] === 'off') return [];
    const codes = new Set(options.rules.map(one => one.code));
    const findings: Finding[] = [];
    for (const stretch of stretches) {
        const code = stretch.acceptance.code.text;
        if (used.has(stretch) || code === '') continue;
        const message = whyIdle(stretch, codes, raw);
        findings.push(
            makeFinding(
                rule.code,
                options.settings.severities[rule.code] === 'error' ? 'error' : rule.severity,
                fillMessage(rule.messages[message] ?? message, { code }),
                stretch.acceptance,
                {
                    mends: [
                        {
                            title: `Take out this \`accept ${code}\``,
                            safety: message === 'nothing' ? 'safe' : 'suggestion',
                            edits: [{ ...spanOf(stretch.acceptance), text: '' }],
                        },
                    ],
                },
            ),
        );
    }
    return findings;
}

function whyIdle(
    stretch: AcceptedStretch,
    codes: ReadonlySet<string>,
    raw: readonly Finding[],
): 'unknown' | 'reason' | 'error' | 'nothing' {
    const code = stretch.acceptance.code.text;
    if (!codes.has(code)) return 'unknown';
    if (!hasReason(stretch)) return 'reason';
    const isError = raw.some(
        finding =>
            finding.code === code &&
            finding.severity === 'error' &&
            finding.start >= stretch.start &&
            finding.end <= stretch.end,
    );
    return isError ? 'error' : 'nothing';
}

function spanOf(place: { file: FileId; start: number; end: number }) {
    return { file: place.file, start: place.start, end: place.end };
}

const severityOrder: Readonly<Record<Severity, number>> = { error: 0, warning: 1, information: 2 };

/** By file, then place, then severity, then code: the same order on every run. */
export function sortFindings(findings: readonly Finding[]): Finding[] {
    return [...findings].sort(compareFindings);
}

function compareFindings(one: Finding, other: Finding): number {
    return (
        compare(one.file, other.file) ||
        one.start - other.start ||
        one.end - other.end ||
        severityOrder[one.severity] - severityOrder[other.severity] ||
        compare(one.code, other.code) ||
        compare(one.message, other.message)
    );
}

function compare(one: string, other: string): number {
    return one < other ? -1 : one > other ? 1 : 0;
}
