/** Writes findings out in full, for golden files that are read like code. */
import type { Finding } from '../../language/src/core/findings/finding.js';
import { rangeOf } from './check.js';
import type { Texts } from './read-texts.js';

/** Each finding with everything that it says; one empty line between two. */
export function writeReport(findings: readonly Finding[], texts: Texts): string {
    return `${findings.map(finding => writeFinding(finding, texts).join('\n')).join('\n\n')}\n`;
}

function writeFinding(finding: Finding, texts: Texts): string[] {
    const { file, severity, code, message, counterexample, related, advice, mends, unnecessary } = finding;
    return [
        `${file}:${rangeOf(finding, texts)} ${severity} ${code}${unnecessary ? ' (without effect)' : ''}`,
        `    ${message}`,
        ...(counterexample ? [`    for example: ${counterexample.sentence}`] : []),
        ...related.map(place => `    see ${place.file}:${rangeOf(place, texts)}: ${place.text}`),
        ...(advice === undefined ? [] : [`    advice: ${advice}`]),
        ...mends.map(({ title, safety, edits }) => {
            const changes = edits.map(edit => `${rangeOf(edit, texts)} ${JSON.stringify(edit.text)}`);
            return `    mend (${safety}): ${title}: ${changes.join(', ')}`;
        }),
    ];
}
