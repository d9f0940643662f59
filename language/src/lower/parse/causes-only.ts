// Keeps of a parser's errors those that are a slip of their own and drops those that only follow from an earlier one.

import { mostFindings } from './limits.js';
import type { EngineError } from './recovery.js';
import type { SyntaxFinding } from './syntax-finding.js';
import { isReal, tokenEnd, type Token } from './token.js';

/** An error as the parser noticed it. */
export interface NoticedError {
    readonly error: EngineError;
    readonly finding: SyntaxFinding;
    /** The index of the token that is not allowed. */
    readonly index: number;
    /** How many tokens had been accepted before it. */
    readonly accepted: number;
    /** Whether a block could open where the error is. */
    readonly mayOpenBlock: boolean;
}

/**
 * One error for each cause, in the order of the file. `before` are the findings that stand already;
 * `endsEarly` says that only a part of the file was read, so that it seems to break off.
 */
export function causesOnly(
    errors: readonly NoticedError[],
    tokens: readonly Token[],
    before: readonly SyntaxFinding[],
    endsEarly: boolean,
): readonly NoticedError[] {
    const kept: NoticedError[] = [];
    let last: NoticedError | undefined;
    for (const noticed of errors) {
        const explained =
            (last !== undefined && follows(noticed, last, tokens)) ||
            (endsEarly && !isReal(tokens[noticed.index] ?? noticed.error.token)) ||
            before.some(finding => explains(finding, noticed, tokens));
        if (!explained) {
            kept.push(noticed);
        }
        if (kept.length >= mostFindings) {
            break;
        }
        last = noticed;
    }
    return kept;
}

/** The findings about braces that an error before them on their line explains: there a block should have opened. */
export function bracesExplained(
    braces: readonly SyntaxFinding[],
    errors: readonly NoticedError[],
    text: string,
): readonly SyntaxFinding[] {
    const places = errors.filter(({ mayOpenBlock }) => mayOpenBlock).map(({ finding }) => finding.start);
    return braces.filter(({ start }) =>
        places.some(place => place <= start && !/[\r\n]/.test(text.slice(place, start))),
    );
}

/** So many tokens have to be accepted before an error counts as a new slip. */
const acceptedAgain = 3;

function follows(noticed: NoticedError, last: NoticedError, tokens: readonly Token[]): boolean {
    const accepted = noticed.accepted - last.accepted;
    const line = lineOf(noticed, tokens);
    if (accepted === 0 || line === lineOf(last, tokens)) {
        return true;
    }
    return accepted < acceptedAgain && !startsAnew(tokens, noticed.index);
}

// After the end of a block, or on a line that begins with a word of the language, reading had found its way again.
function startsAnew(tokens: readonly Token[], index: number): boolean {
    const line = tokens[index]?.startLine;
    if (tokens[index - 1]?.tokenType.name === '}') {
        return true;
    }
    let first: Token | undefined;
    for (let before = index - 1; before >= 0 && tokens[before]?.startLine === line; before -= 1) {
        first = tokens[before];
    }
    return first !== undefined && /^[a-z]/.test(first.tokenType.name);
}

// A stray sign or an unclosed text explains what is not allowed on its line and just behind it.
function explains(finding: SyntaxFinding, { index }: NoticedError, tokens: readonly Token[]): boolean {
    const token = tokens[index];
    const previous = tokens[index - 1];
    const previousEnd = previous === undefined ? 0 : tokenEnd(previous);
    if (token?.isInsertedInRecovery === true) {
        // The brace that was added has its own finding.
        return true;
    }
    if (token === undefined || !isReal(token)) {
        return finding.end >= previousEnd;
    }
    const lineStart = token.startOffset - (token.startColumn ?? 1) + 1;
    // Where a quote is missing, the texts and the words of the whole line have changed places.
    const reach = finding.code === 'unclosed-text' ? lineEnd(tokens, index) : tokenEnd(token);
    return finding.start < reach && finding.end >= Math.min(lineStart, previousEnd);
}

function lineEnd(tokens: readonly Token[], index: number): number {
    let last = tokens[index];
    const line = last?.startLine;
    for (let next = index + 1; next < tokens.length && tokens[next]?.startLine === line; next += 1) {
        last = tokens[next];
    }
    return last === undefined ? 0 : tokenEnd(last);
}

function lineOf({ index }: NoticedError, tokens: readonly Token[]): number | undefined {
    const token = tokens[index];
    return token !== undefined && isReal(token) ? token.startLine : tokens[index - 1]?.endLine;
}
