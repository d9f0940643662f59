// What a report tells, whatever its format.

import type { AcceptedFinding, FileId, Finding, Severity } from 'halfsplit-language';

export interface Report {
    /** The folder that the files of the findings are relative to. Absolute. */
    readonly root: string;
    /** The text of each file that was read. */
    readonly texts: ReadonlyMap<FileId, string>;
    /** In the order of files and places. */
    readonly findings: readonly Finding[];
    readonly accepted: readonly AcceptedFinding[];
    /** How many of the files that were asked for have been read. */
    readonly files: number;
    /** How many files or folders could not be opened. */
    readonly notOpened: number;
    /** Files that were not asked for but are used, with the number of errors in each that has any. */
    readonly elsewhere: ReadonlyMap<FileId, number>;
    /** The mildest severity that fails. */
    readonly failOn: Severity;
    readonly status: number;
    /** What else there is to say, as sentences. */
    readonly notes: readonly string[];
}

/** From the worst to the mildest. */
export const severities: readonly Severity[] = ['error', 'warning', 'information'];

/** How many findings there are of each severity. */
export function countBySeverity(findings: readonly Finding[]): Readonly<Record<Severity, number>> {
    const counts = { error: 0, warning: 0, information: 0 };
    for (const { severity } of findings) counts[severity] += 1;
    return counts;
}

/** A report of a few findings, for verbs that do not check for checking's sake. */
export function plainReport(findings: readonly Finding[], root: string, texts: ReadonlyMap<FileId, string>): Report {
    return {
        root,
        texts,
        findings,
        accepted: [],
        files: texts.size,
        notOpened: 0,
        elsewhere: new Map(),
        failOn: 'error',
        status: 1,
        notes: [],
    };
}
