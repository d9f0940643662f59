// The report for people: each finding with its place, the line, an example and how to mend it.

import {
    displayWidth,
    type Finding,
    lineStarts,
    listOf,
    plural,
    positionAt,
    safetyNotice,
    type Severity,
    wrap,
} from 'halfsplit-language';
import { type Colors, colorsFor } from '../colors.js';
import type { Io, TextStream } from '../io.js';
import { shownPath } from '../find-sources.js';
import { visible } from '../visible.js';
import { countBySeverity, type Report, severities } from './report.js';
import { showLine, type Source } from './source-line.js';

/** The report as text; it ends with a line that sums it up, and with what the verdict does not replace. `codes` are those that have a page. */
export function textReport(report: Report, stream: TextStream, io: Io, codes: ReadonlySet<string>): string {
    const layout = layOut(report, stream, io, codes);
    const findings = report.findings.map(finding => findingText(layout, finding));
    const notice = wrap(safetyNotice(), layout.width).join('\n');
    return `${[...findings, closingText(layout), notice].join('\n\n')}\n`;
}

/** The findings of a report alone, each with an empty line behind it. */
export function textFindings(report: Report, stream: TextStream, io: Io, codes: ReadonlySet<string>): string {
    const layout = layOut(report, stream, io, codes);
    return report.findings.map(finding => `${findingText(layout, finding)}\n\n`).join('');
}

function layOut(report: Report, stream: TextStream, io: Io, codes: ReadonlySet<string>): Layout {
    const width = Math.max(narrowest, Math.min(widest, stream.columns ?? widest));
    return { report, io, codes, colors: colorsFor(stream, io), width, sources: new Map() };
}

interface Layout {
    readonly report: Report;
    readonly io: Io;
    /** The codes that `explain` knows. */
    readonly codes: ReadonlySet<string>;
    readonly colors: Colors;
    readonly width: number;
    readonly sources: Map<string, Source | undefined>;
}

const widest = 100;
const narrowest = 40;
const labelWidth = 14;

function findingText(layout: Layout, finding: Finding): string {
    const { colors } = layout;
    const place = placeText(layout, finding);
    const severity = colors[finding.severity](finding.severity);
    return [
        `${colors.strong(place)}   ${severity}   ${finding.code}`,
        ...wrap(visible(finding.message), layout.width - 2).map(line => `  ${line}`),
        ...lineTexts(layout, finding, finding.severity),
        ...finding.related.flatMap(related => [
            `  ${colors.faint(placeText(layout, related))}   ${visible(related.text)}`,
            ...lineTexts(layout, related, 'faint'),
        ]),
        ...labelled(layout, 'For example', finding.counterexample?.sentence),
        ...labelled(layout, 'Mend', finding.advice),
        ...labelled(layout, 'More', layout.codes.has(finding.code) ? `halfsplit explain ${finding.code}` : undefined),
    ].join('\n');
}

/** `file:line:column`, or the file alone where it was not read. */
function placeText(layout: Layout, place: { readonly file: string; readonly start: number }): string {
    const { io, report } = layout;
    const file = shownPath(place.file, report.root, io);
    const source = findSource(layout, place.file);
    if (source === undefined) return file;
    const { line, column } = positionAt(source.lineStarts, place.start);
    return `${file}:${line}:${column}`;
}

function lineTexts(
    layout: Layout,
    place: Finding | Finding['related'][number],
    color: keyof Colors,
): readonly string[] {
    const source = findSource(layout, place.file);
    if (source === undefined || source.text === '') return [];
    const number = String(positionAt(source.lineStarts, place.start).line);
    const margin = `  ${number} |  `;
    const shown = showLine(source, place, layout.width - margin.length);
    const more = shown.moreLines === 0 ? '' : `  and ${plural(shown.moreLines, 'more line')}`;
    const { colors } = layout;
    return [
        `${colors.faint(margin.trimEnd())}${margin.slice(margin.trimEnd().length)}${shown.text}`.trimEnd(),
        `${' '.repeat(margin.length)}${colors[color](shown.underline)}${more}`,
    ];
}

function labelled({ colors, width }: Layout, label: string, text: string | undefined): readonly string[] {
    if (text === undefined || text === '') return [];
    const lines = wrap(visible(text), width - labelWidth - 2);
    const padded = `  ${colors.strong(label)}${' '.repeat(labelWidth - displayWidth(label))}`;
    return lines.map((line, index) => `${index === 0 ? padded : ' '.repeat(labelWidth + 2)}${line}`);
}

function findSource({ sources, report }: Layout, file: string): Source | undefined {
    if (!sources.has(file)) {
        const text = report.texts.get(file);
        sources.set(file, text === undefined ? undefined : { text, lineStarts: lineStarts(text) });
    }
    return sources.get(file);
}

function closingText({ report, colors }: Layout): string {
    const counts = countBySeverity(report.findings);
    const worst = severities.find(severity => counts[severity] > 0);
    const parts = severities
        .filter(severity => counts[severity] > 0)
        .map(severity => countText(severity, counts[severity]));
    const found = worst === undefined ? 'nothing found' : colors[worst](listOf(parts, 'and'));
    const accepted = report.accepted.length === 0 ? '' : `; ${report.accepted.length} accepted in the source`;
    const notOpened = report.notOpened === 0 ? '' : `; ${report.notOpened} not opened`;
    return [`${plural(report.files, 'file')}: ${found}${accepted}${notOpened}.`, ...report.notes].join('\n');
}

function countText(severity: Severity, count: number): string {
    return severity === 'information' ? `${count} for information` : plural(count, severity);
}
