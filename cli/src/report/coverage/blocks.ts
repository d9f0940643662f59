// The pieces that a report for people is made of, as text for a terminal and as Markdown.

import { displayWidth, wrap } from 'halfsplit-language';
import type { Colors } from '../../colors.js';
import { visible } from '../../visible.js';

export type Block =
    | { readonly sort: 'heading'; readonly level: 1 | 2; readonly text: string }
    | { readonly sort: 'paragraph'; readonly text: string }
    | { readonly sort: 'list'; readonly items: readonly string[] }
    | { readonly sort: 'table'; readonly columns: readonly Column[]; readonly rows: readonly (readonly string[])[] };

export interface Column {
    readonly title: string;
    /** Numbers stand at the right. */
    readonly isNumber: boolean;
}

/** The blocks as text of at most `width` columns, with an empty line between them. */
export function blocksAsText(blocks: readonly Block[], width: number, colors: Colors): string {
    return `${blocks.map(block => textOf(block, width, colors)).join('\n\n')}\n`;
}

function textOf(block: Block, width: number, colors: Colors): string {
    switch (block.sort) {
        case 'heading': {
            const lines = wrap(visible(block.level === 1 ? block.text : `${block.text}:`), width);
            return lines.map(line => colors.strong(line)).join('\n');
        }
        case 'paragraph':
            return wrap(visible(block.text), width).join('\n');
        case 'list':
            return block.items.map(item => hang(visible(item), width)).join('\n');
        case 'table':
            return tableText(block.columns, block.rows, width, colors);
    }
}

const indent = 2;
const between = 2;

/** A line whose later lines stand further in. */
function hang(text: string, width: number): string {
    return wrap(text, width - 2 * indent)
        .map((line, index) => `${' '.repeat(index === 0 ? indent : 2 * indent)}${line}`)
        .join('\n');
}

/** The rows under their titles, which are written like a row, so that a table is read out line by line. */
function tableText(
    columns: readonly Column[],
    rows: readonly (readonly string[])[],
    width: number,
    colors: Colors,
): string {
    const lines = [columns.map(({ title }) => title), ...rows].map(row => row.map(visible));
    const widths = columns.map((_, index) => Math.max(...lines.map(row => displayWidth(row[index] ?? ''))));
    // The first column gives way: it holds names, and numbers must not be broken.
    const others = widths.slice(1).reduce((sum, one) => sum + one + between, indent);
    widths[0] = Math.min(widths[0] ?? 0, Math.max(narrowest, width - others));
    return lines
        .map((row, index) => {
            const shown = rowText(row, columns, widths);
            return index === 0 ? shown.map(line => colors.faint(line)) : shown;
        })
        .flat()
        .join('\n');
}

const narrowest = 12;

function rowText(row: readonly string[], columns: readonly Column[], widths: readonly number[]): readonly string[] {
    const cells = widths.map((width, index) => (index === 0 ? wrap(row[index] ?? '', width) : [row[index] ?? '']));
    const height = Math.max(...cells.map(cell => cell.length));
    return Array.from({ length: height }, (_, line) => {
        const texts = cells.map((cell, index) => {
            const text = cell[line] ?? '';
            const space = ' '.repeat(Math.max(0, (widths[index] ?? 0) - displayWidth(text)));
            return columns[index]?.isNumber ? space + text : text + space;
        });
        return `${' '.repeat(indent)}${texts.join(' '.repeat(between))}`.trimEnd();
    });
}

/** The blocks as Markdown. What stands between backticks is kept, everything else is escaped. */
export function blocksAsMarkdown(blocks: readonly Block[]): string {
    return `${blocks.map(markdownOf).join('\n\n')}\n`;
}

function markdownOf(block: Block): string {
    switch (block.sort) {
        case 'heading':
            return `${'#'.repeat(block.level)} ${escape(block.text)}`;
        case 'paragraph':
            return escape(block.text);
        case 'list':
            return block.items.map(item => `- ${escape(item)}`).join('\n');
        case 'table': {
            const row = (cells: readonly string[]) => `| ${cells.map(cell => escapeCell(escape(cell))).join(' | ')} |`;
            const line = `|${block.columns.map(({ isNumber }) => (isNumber ? '---:' : '---')).join('|')}|`;
            return [row(block.columns.map(({ title }) => title)), line, ...block.rows.map(row)].join('\n');
        }
    }
}

/** The text with every character that Markdown could take for a mark escaped, except in stretches of code. */
function escape(text: string): string {
    return visible(text)
        .split(/((`+)(?!`)[^]*?(?<!`)\2(?!`))/)
        .filter((_, index) => index % 3 !== 2)
        .map((part, index) => (index % 2 === 1 ? part : part.replace(/[\\*_[\]<>#&~!|]/g, '\\$&')))
        .join('');
}

/** In a table even code must not hold a bare bar. */
function escapeCell(text: string): string {
    return text.replace(/(?<!\\)\|/g, '\\|');
}
