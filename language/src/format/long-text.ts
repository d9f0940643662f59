// Prints texts and comments of several lines so that their lines stand under the place where they begin.

import { commonIndentation, textLines } from '../core/text/prose.js';

/**
 * A text between three quotes with its lines indented by `indent` and two more; its value stays as it was.
 * A text that stands on one line stays as it is.
 */
export function indentText(written: string, indent: number): string {
    if (!/[\r\n]/.test(written)) {
        return written;
    }
    const [firstLine = ''] = written.slice(quotes.length).split(/[\r\n]/, 1);
    const lines = textLines(written);
    const head = firstLine.trim() === '' ? [] : lines.slice(0, 1);
    const margin = ' '.repeat(indent);
    const body = lines.slice(head.length).map(line => (line === '' ? '' : `${margin}  ${line}`));
    // A quote at the end of the text would join the closing quotes.
    const closesAlone = /[\r\n][^\S\r\n]*"""$/.test(written) || (body.at(-1)?.endsWith('"') ?? true);
    const printed = [`${quotes}${head.join('')}`, ...body];
    return closesAlone ? [...printed, `${margin}${quotes}`].join('\n') : `${printed.join('\n')}${quotes}`;
}

/**
 * A comment that begins in a column, with its further lines below its words, or below its first star where each begins with one.
 * How far the lines stand in from each other stays as it was.
 */
export function indentComment(text: string, column: number): string {
    const [first = '', ...others] = text.split(/\r\n|\r|\n/).map(line => line.trimEnd());
    const closing = others.at(-1)?.trim() === '*/' ? others.pop()?.trim() : undefined;
    const common = commonIndentation(others).length;
    const lines = others.map(line => line.slice(common));
    const starred = lines.every(line => line === '' || line.startsWith('*'));
    const margin = ' '.repeat(column + (starred ? 1 : 3));
    const printed = [first, ...lines.map(line => (line === '' ? '' : margin + line))];
    if (closing !== undefined) {
        printed.push(' '.repeat(column + (starred ? 1 : 0)) + closing);
    }
    return printed.join('\n');
}

const quotes = '"""';
