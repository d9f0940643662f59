// Colors for the terminal. Everything that is said in color is said in words too.

import type { Io, TextStream } from './io.js';

/** Marks text; each function gives the text back unchanged where there are no colors. */
export interface Colors {
    readonly error: (text: string) => string;
    readonly warning: (text: string) => string;
    readonly information: (text: string) => string;
    readonly strong: (text: string) => string;
    readonly faint: (text: string) => string;
}

const escape = '\u001B[';

/** Colors for a stream: only on a terminal, unless `FORCE_COLOR` wants them or `NO_COLOR` does not. */
export function colorsFor(stream: TextStream, { environment }: Pick<Io, 'environment'>): Colors {
    const mark = wantsColors(stream, environment)
        ? (code: number) => (text: string) => (text === '' ? '' : `${escape}${code}m${text}${escape}0m`)
        : () => (text: string) => text;
    return { error: mark(31), warning: mark(33), information: mark(36), strong: mark(1), faint: mark(2) };
}

// Both variables as common practice has them (no-color.org and Node's own use of FORCE_COLOR, from memory).
function wantsColors(stream: TextStream, environment: Io['environment']): boolean {
    const { FORCE_COLOR: forced, NO_COLOR: never, TERM: terminal } = environment;
    if (forced !== undefined) return forced !== '0' && forced !== 'false';
    if (never !== undefined && never !== '') return false;
    return stream.isTerminal && terminal !== 'dumb';
}
