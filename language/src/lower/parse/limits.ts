// The limits of what is read, and the checks that need no more than a glance at the text.

import type { SyntaxFinding } from './syntax-finding.js';

/** The longest file that is read, in UTF-16 units (about the bytes of a plain file). */
export const longestText = 5 * 1024 * 1024;

/** The longest line that is read, in UTF-16 units. */
export const longestLine = 100_000;

/** How deep brackets, braces and `not` may stand inside each other. */
export const deepestNesting = 100;

/** How many signs (`+ - × ÷`) one calculation may have. */
export const longestCalculation = 100;

/** More findings of one file help nobody: the others show once these are mended. */
export const mostFindings = 50;

/**
 * Says why a text cannot be read at all: it is too large, has a line that is too long, or is no text.
 * Undefined for a text that can be tried.
 */
export function refusal(text: string): SyntaxFinding | undefined {
    return tooLarge(text) ?? binary(text) ?? longLine(text);
}

/** U+FFFD, which a decoder leaves where the bytes are no UTF-8. */
export const undecodable = '\uFFFD';

const binarySample = 8192;

function tooLarge(text: string): SyntaxFinding | undefined {
    if (text.length <= longestText) {
        return undefined;
    }
    return unreadable(
        [0, 1],
        `This file is larger than ${longestText / 1024 / 1024} MB, so it is not read.`,
        'Divide it into several files and name them with `uses`.',
    );
}

function binary(text: string): SyntaxFinding | undefined {
    const zero = text.indexOf('\0');
    if (zero >= 0) {
        return unreadable([zero, zero + 1], 'This is not a text file: it contains a zero character.', savedAsText);
    }
    const sample = text.slice(0, binarySample);
    const odd = sample.match(oddCharacters)?.length ?? 0;
    if (odd * 10 <= sample.length) {
        return undefined;
    }
    const first = sample.search(oddCharacters);
    return unreadable([first, first + 1], 'This is not a text file.', savedAsText);
}

function longLine(text: string): SyntaxFinding | undefined {
    let start = 0;
    while (text.length - start > longestLine) {
        const feed = text.indexOf('\n', start);
        const end = feed < 0 ? text.length : feed;
        const long = end - start > longestLine ? longLineWithin(text, start, end) : undefined;
        if (long !== undefined) {
            return unreadable(
                [long, long + 1],
                `This line is longer than ${longestLine} characters, so the file is not read.`,
                'Break the line.',
            );
        }
        start = end + 1;
    }
    return undefined;
}

// A return alone ends a line too, but hardly any file has one: only long stretches are looked through.
function longLineWithin(text: string, from: number, end: number): number | undefined {
    let start = from;
    for (let offset = from; offset < end; offset += 1) {
        if (text.charCodeAt(offset) === carriageReturn) {
            start = offset + 1;
        } else if (offset - start >= longestLine) {
            return start;
        }
    }
    return undefined;
}

function unreadable([start, end]: readonly [number, number], message: string, mend: string): SyntaxFinding {
    return { code: 'unreadable-file', start, end, message, mend, edits: [] };
}

const savedAsText = 'Write a `.fault` file with a text editor and save it as UTF-8.';

const carriageReturn = 0x0d;

const oddCharacters = /[\u0001-\u0008\u000e-\u001f\ufffd]/g;
