// Moves findings along with a text that has changed, so that they need not vanish until they are worked out again.

import type { Finding } from '../core/findings/finding.js';
import type { FileId, Span } from '../core/model/written.js';

/**
 * The findings of `before` at their places in `after`. One whose own place was touched is left out;
 * so are its mends, which were made for the old text.
 */
export function moveFindings(
    findings: readonly Finding[],
    file: FileId,
    before: string,
    after: string,
): readonly Finding[] {
    if (findings.length === 0 || before === after) return findings;
    const change = changeBetween(before, after);
    return findings.flatMap(finding => {
        const place = movePlace(finding, change);
        if (!place) return [];
        const moveOwn = <P extends Span>(other: P): P[] => {
            if (other.file !== file) return [other];
            const moved = movePlace(other, change);
            return moved ? [{ ...other, ...moved }] : [];
        };
        const related = finding.related.flatMap(moveOwn);
        const { counterexample } = finding;
        const path = counterexample?.path.flatMap(moveOwn) ?? [];
        return [
            { ...finding, ...place, related, mends: [], counterexample: counterexample && { ...counterexample, path } },
        ];
    });
}

/** The stretch of the old text that was replaced, and by how much what follows has moved. */
interface Change {
    readonly start: number;
    readonly end: number;
    readonly shift: number;
}

function changeBetween(before: string, after: string): Change {
    const shorter = Math.min(before.length, after.length);
    let start = 0;
    while (start < shorter && before.charCodeAt(start) === after.charCodeAt(start)) start += 1;
    let same = 0;
    while (
        same < shorter - start &&
        before.charCodeAt(before.length - 1 - same) === after.charCodeAt(after.length - 1 - same)
    ) {
        same += 1;
    }
    return { start, end: before.length - same, shift: after.length - before.length };
}

function movePlace(
    { start, end }: { readonly start: number; readonly end: number },
    change: Change,
): { readonly start: number; readonly end: number } | undefined {
    if (end <= change.start) return { start, end };
    if (start >= change.end) return { start: start + change.shift, end: end + change.shift };
    // The change stands within the place, as when a word is typed inside a step.
    return start < change.start && end > change.end ? { start, end: end + change.shift } : undefined;
}
