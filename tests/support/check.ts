/** Short forms for tests of rules: a text in, its findings as lines out; a text with a cursor in, the mended text out. */
import type { Edit, Finding } from '../../language/src/core/findings/finding.js';
import { lineStarts, positionAt } from '../../language/src/core/text/positions.js';
import { findingsOf, type ReadTextsOptions, type Texts } from './read-texts.js';

/** The file that a lone text is taken for. */
export const onlyFile = 'example.fault';

/** Each finding as `code at line:column-line:column: message`; with several files the file's name stands before the line. */
export function check(text: string | Texts, options: ReadTextsOptions = {}): string[] {
    const texts = toTexts(text);
    const several = Object.keys(texts).length > 1;
    return findingsOf(texts, options).map(finding => {
        const place = several ? `${finding.file}:${rangeOf(finding, texts)}` : rangeOf(finding, texts);
        return `${finding.code} at ${place}: ${finding.message}`;
    });
}

/** The text after the mend of this title, of the finding at the cursor `<|>`, has been applied. */
export function checkMend(marked: string, title: string): string {
    const cursor = marked.indexOf('<|>');
    if (cursor < 0) throw new Error('The text has no cursor `<|>`.');
    const text = marked.replace('<|>', '');
    const findings = findingsOf({ [onlyFile]: text });
    const here = findings.filter(({ start, end }) => start <= cursor && cursor <= end);
    const mends = here.flatMap(finding => finding.mends);
    const mend = mends.find(one => one.title === title);
    if (!mend) {
        const titles = mends.map(one => one.title).join(', ');
        throw new Error(`There is no mend \`${title}\` at the cursor; there is: ${titles === '' ? 'none' : titles}.`);
    }
    return applyEdits(text, mend.edits);
}

/** A text with edits applied; they must lie in it and may not overlap. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
    const ordered = [...edits].sort((one, other) => one.start - other.start || one.end - other.end);
    let result = '';
    let done = 0;
    for (const { start, end, text: inserted } of ordered) {
        if (start < done || end < start || end > text.length) {
            throw new Error(`The edit from ${start} to ${end} lies outside the text or over another edit.`);
        }
        result += text.slice(done, start) + inserted;
        done = end;
    }
    return result + text.slice(done);
}

/** `line:column-line:column`, both counted from 1. */
export function rangeOf({ file, start, end }: Pick<Finding, 'file' | 'start' | 'end'>, texts: Texts): string {
    const starts = lineStarts(texts[file] ?? '');
    const [from, to] = [positionAt(starts, start), positionAt(starts, end)];
    return `${from.line}:${from.column}-${to.line}:${to.column}`;
}

function toTexts(text: string | Texts): Texts {
    return typeof text === 'string' ? { [onlyFile]: text } : text;
}
