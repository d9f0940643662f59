// Turns the core's places and findings into those of the language server protocol. No other file makes a Range of a Span.

import type { TextDocument } from 'langium';
import {
    DiagnosticSeverity,
    DiagnosticTag,
    type Diagnostic,
    type DiagnosticRelatedInformation,
    type Location,
    type Range,
} from 'vscode-languageserver';
import type { Finding, Mend, RelatedPlace, Severity } from '../core/findings/finding.js';
import type { FileId } from '../core/model/written.js';
import type { DiagnosticData } from '../protocol/diagnostic-data.js';

/** A stretch of a text whose file is known already. */
export interface Stretch {
    readonly start: number;
    readonly end: number;
}

/** Gives a file's address and its text as it was read; undefined for a file that is no longer there. */
export type TextOf = (file: FileId) => { readonly uri: string; readonly text: TextDocument } | undefined;

export function toRange(text: TextDocument, { start, end }: Stretch): Range {
    return { start: text.positionAt(start), end: text.positionAt(end) };
}

/** Where a stretch of a file is; undefined where the file is no longer there. */
export function toLocation(place: Stretch & { readonly file: FileId }, textOf: TextOf): Location | undefined {
    const found = textOf(place.file);
    return found && { uri: found.uri, range: toRange(found.text, place) };
}

/**
 * A finding as a diagnostic: the sentence, how to mend it, and an example, each on its own line.
 * `version` is that of the client's text; undefined is answered for a file that is no longer there.
 */
export function toDiagnostic(finding: Finding, version: number, textOf: TextOf): Diagnostic | undefined {
    const own = textOf(finding.file);
    if (!own) return undefined;
    const data = toData(finding.mends, version, textOf);
    return {
        range: toRange(own.text, finding),
        severity: severities[finding.severity],
        code: finding.code,
        source: 'halfsplit',
        message: toMessage(finding),
        relatedInformation: toRelated(finding, textOf),
        ...(finding.unnecessary ? { tags: [DiagnosticTag.Unnecessary] } : {}),
        ...(data ? { data } : {}),
    };
}

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
    error: DiagnosticSeverity.Error,
    warning: DiagnosticSeverity.Warning,
    information: DiagnosticSeverity.Information,
};

function toMessage({ message, advice, counterexample }: Finding): string {
    const lines = [message];
    if (advice !== undefined && advice !== '') lines.push(advice);
    if (counterexample) lines.push(`For example, ${counterexample.sentence}.`);
    return lines.join('\n');
}

function toRelated({ related, counterexample }: Finding, textOf: TextOf): DiagnosticRelatedInformation[] {
    const path = (counterexample?.path ?? []).map((place, index) => ({
        ...place,
        text: `${index + 1}. ${place.text}`,
    }));
    return [...related, ...path].flatMap((place: RelatedPlace) => {
        const location = toLocation(place, textOf);
        return location ? [{ location, message: place.text }] : [];
    });
}

function toData(mends: readonly Mend[], version: number, textOf: TextOf): DiagnosticData | undefined {
    const whole = mends.flatMap(({ title, safety, edits }) => {
        const converted = edits.flatMap(edit => {
            const location = toLocation(edit, textOf);
            return location ? [{ ...location, newText: edit.text }] : [];
        });
        // Half a mend is none.
        return converted.length === edits.length && edits.length > 0 ? [{ title, safety, edits: converted }] : [];
    });
    return whole.length > 0 ? { version, mends: whole } : undefined;
}
