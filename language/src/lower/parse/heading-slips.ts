// Finds what does not belong in a heading, so that the file can be read again without it and the block behind it is not lost.

import type { NoticedError } from './causes-only.js';
import type { Token } from './token.js';

/** A slip in a heading: the tokens from `start` up to the `{` at `end` do not belong there. */
export interface HeadingSlip {
    readonly noticed: NoticedError;
    readonly start: number;
    readonly end: number;
}

/** The slips after which a `{` may stand, and does stand on the same line. */
export function headingSlips(errors: readonly NoticedError[], tokens: readonly Token[]): readonly HeadingSlip[] {
    return errors.flatMap(noticed => {
        const { index: start } = noticed;
        const line = tokens[start - 1]?.endLine;
        let end = start;
        while (tokens[end]?.startLine === line && !isBrace(tokens[end])) {
            end += 1;
        }
        const opens = tokens[end]?.tokenType.name === '{' && tokens[end]?.startLine === line;
        return noticed.mayOpenBlock && opens && end > start ? [{ noticed, start, end }] : [];
    });
}

/** The tokens without those of the slips. */
export function withoutSlips(tokens: readonly Token[], slips: readonly HeadingSlip[]): Token[] {
    const left: Token[] = [];
    let from = 0;
    for (const { start, end } of slips) {
        for (let index = from; index < start; index += 1) {
            const token = tokens[index];
            if (token !== undefined) {
                left.push(token);
            }
        }
        from = end;
    }
    return left.concat(tokens.slice(from));
}

function isBrace(token: Token | undefined): boolean {
    return token?.tokenType.name === '{' || token?.tokenType.name === '}';
}
