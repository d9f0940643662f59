/** Tells which places of a finding do not lie in the text of their file. */
import type { Finding } from '../../language/src/core/findings/finding.js';
import type { Span } from '../../language/src/core/model/written.js';
import { applyEdits } from '../support/check.js';
import type { Texts } from '../support/read-texts.js';

/** What is wrong with the places of a finding, and of everything that belongs to it; each as one line. */
export function misplacedIn(finding: Finding, texts: Texts): string[] {
    const wrong: string[] = [];
    const look = (what: string, span: Span, mayBeEmpty: boolean): void => {
        const problem = problemOf(span, texts, mayBeEmpty);
        if (problem !== undefined) wrong.push(`${finding.code}: ${what} ${problem}: ${finding.message}`);
    };
    look('the finding', finding, texts[finding.file] === '');
    for (const related of finding.related) look('a related place', related, true);
    for (const place of finding.counterexample?.path ?? []) look('a place of the counterexample', place, true);
    for (const { title, edits } of finding.mends) {
        for (const edit of edits) look(`an edit of \`${title}\``, edit, true);
        for (const [file, text] of Object.entries(texts)) {
            const own = edits.filter(edit => edit.file === file);
            try {
                applyEdits(text, own);
            } catch (problem) {
                wrong.push(`${finding.code}: the mend \`${title}\` cannot be applied: ${String(problem)}`);
            }
        }
    }
    return wrong;
}

function problemOf({ file, start, end }: Span, texts: Texts, mayBeEmpty: boolean): string | undefined {
    const text = texts[file];
    const shown = `(${file} from ${start} to ${end})`;
    if (text === undefined) return `${shown} is in a file that is not there`;
    if (!Number.isInteger(start) || !Number.isInteger(end)) return `${shown} is no stretch`;
    if (start < 0 || end < start || end > text.length) return `${shown} is outside the text of ${text.length}`;
    if (start === end && !mayBeEmpty) return `${shown} is empty`;
    return undefined;
}
