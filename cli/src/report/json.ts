// The report for programs: JSON with a version, described in the README of this package.

import {
    type Counterexample,
    type Edit,
    type Finding,
    lineStarts,
    positionAt,
    type RelatedPlace,
    safetyNotice,
    type Span,
} from 'halfsplit-language';
import { programName, programVersion } from '../version.js';
import { countBySeverity, type Report } from './report.js';

/** It changes when a reader of an earlier version would no longer understand the report. */
export const reportVersion = 1;

interface JsonPosition {
    /** UTF-16 units from the beginning of the file, from 0. */
    readonly offset: number;
    /** From 1. */
    readonly line: number;
    /** UTF-16 units, from 1. */
    readonly column: number;
}

interface JsonPlace {
    /** Relative to the workspace, with slashes. */
    readonly file: string;
    readonly start: JsonPosition;
    /** The first position behind the stretch. */
    readonly end: JsonPosition;
}

/** The report as JSON with a line feed at the end. The same findings give the same text. */
export function jsonReport(report: Report): string {
    const place = placer(report);
    const { error, warning, information } = countBySeverity(report.findings);
    const document = {
        formatVersion: reportVersion,
        tool: { name: programName, version: programVersion },
        safety: safetyNotice(),
        summary: {
            files: report.files,
            errors: error,
            warnings: warning,
            information,
            accepted: report.accepted.length,
            notOpened: report.notOpened,
            failOn: report.failOn,
            exitStatus: report.status,
        },
        findings: report.findings.map(finding => toJson(finding, place)),
        accepted: report.accepted.map(({ finding, reason }) => ({ ...toJson(finding, place), reason })),
        elsewhere: [...report.elsewhere].map(([file, errors]) => ({ file, errors })),
    };
    return `${JSON.stringify(document, null, 2)}\n`;
}

/** Gives a place with line and column. */
export type Placer = (span: Span) => JsonPlace;

function toJson(finding: Finding, place: Placer) {
    const { code, severity, message, counterexample } = finding;
    return {
        code,
        severity,
        message,
        ...place(finding),
        unnecessary: finding.unnecessary,
        related: finding.related.map(related => relatedToJson(related, place)),
        counterexample: counterexample ? counterexampleToJson(counterexample, place) : null,
        advice: finding.advice ?? null,
        mends: finding.mends.map(({ title, safety, edits }) => ({
            title,
            safety,
            edits: edits.map(edit => editToJson(edit, place)),
        })),
    };
}

/** One case that shows something, with its way. */
export function counterexampleToJson({ build, fault, path, sentence }: Counterexample, place: Placer) {
    return {
        build,
        fault: fault ?? null,
        path: path.map(stop => ({ step: stop.step, ...relatedToJson(stop, place) })),
        sentence,
    };
}

function relatedToJson(related: RelatedPlace, place: Placer) {
    return { text: related.text, ...place(related) };
}

function editToJson(edit: Edit, place: Placer) {
    return { ...place(edit), text: edit.text };
}

/** Gives places with line and column. The lines of each file are counted once. */
export function placer({ texts }: Pick<Report, 'texts'>): Placer {
    const starts = new Map<string, readonly number[]>();
    return ({ file, start, end }) => {
        let known = starts.get(file);
        if (known === undefined) {
            known = lineStarts(texts.get(file) ?? '');
            starts.set(file, known);
        }
        return { file, start: toPosition(known, start), end: toPosition(known, end) };
    };
}

function toPosition(starts: readonly number[], offset: number): JsonPosition {
    return { offset, ...positionAt(starts, offset) };
}
