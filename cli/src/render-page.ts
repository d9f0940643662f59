// Shows a page of Markdown on a terminal: wrapped paragraphs, examples as they are, tables in columns.

import { displayWidth, wrap } from 'halfsplit-language';
import type { Colors } from './colors.js';
import { visible } from './visible.js';

/** The page as lines for a terminal of the given width. It knows the forms that our own pages use. */
export function renderPage(page: string, width: number, colors: Colors): string {
    const blocks = toBlocks(page).map(block => renderBlock(block, width, colors));
    return `${blocks.join('\n\n')}\n`;
}

type Block =
    | { readonly sort: 'heading'; readonly level: number; readonly text: string }
    | { readonly sort: 'code' | 'list' | 'table' | 'paragraph'; readonly lines: readonly string[] };

function toBlocks(page: string): readonly Block[] {
    const blocks: Block[] = [];
    const lines = page.split('\n');
    for (let index = 0; index < lines.length; index += 1) {
        const line = lines[index] ?? '';
        if (line.trim() === '') continue;
        const heading = /^(#+) (.*)$/.exec(line);
        if (heading) {
            blocks.push({ sort: 'heading', level: heading[1]?.length ?? 1, text: heading[2] ?? '' });
            continue;
        }
        const isCode = line.startsWith('```');
        const end = findEnd(lines, index + 1, isCode ? other => other.startsWith('```') : endsBlock);
        const inside = lines.slice(isCode ? index + 1 : index, end);
        blocks.push({ sort: isCode ? 'code' : sortOf(line), lines: inside });
        index = isCode ? end : end - 1;
    }
    return blocks;
}

function findEnd(lines: readonly string[], from: number, isEnd: (line: string) => boolean): number {
    const found = lines.slice(from).findIndex(isEnd);
    return found < 0 ? lines.length : from + found;
}

function endsBlock(line: string): boolean {
    return line.trim() === '' || line.startsWith('#') || line.startsWith('```');
}

function sortOf(line: string): 'list' | 'table' | 'paragraph' {
    if (/^([-*]|\d+\.) /.test(line)) return 'list';
    return line.startsWith('|') ? 'table' : 'paragraph';
}

function renderBlock(block: Block, width: number, colors: Colors): string {
    switch (block.sort) {
        case 'heading':
            return colors.strong(visible(block.level === 1 ? block.text : block.text.toUpperCase()));
        case 'code':
            return block.lines.map(line => `    ${visible(line)}`.trimEnd()).join('\n');
        case 'list':
            return toItems(block.lines)
                .map(item => renderItem(item, width))
                .join('\n');
        case 'table':
            return renderTable(block.lines, width);
        default:
            return wrap(visible(block.lines.join(' ')), width).join('\n');
    }
}

/** The items of a list; a line that begins no item goes on with the one before it. */
function toItems(lines: readonly string[]): readonly string[] {
    const items: string[] = [];
    for (const line of lines) {
        const last = items.pop();
        if (last === undefined || sortOf(line) === 'list') items.push(...(last === undefined ? [] : [last]), line);
        else items.push(`${last} ${line.trim()}`);
    }
    return items;
}

function renderItem(item: string, width: number): string {
    const [, mark = '', text = ''] = /^([-*]|\d+\.) (.*)$/.exec(item) ?? [];
    const indent = mark.length + 1;
    return wrap(visible(text), width - indent)
        .map((line, index) => `${index === 0 ? `${mark} ` : ' '.repeat(indent)}${line}`)
        .join('\n');
}

const between = 2;

function renderTable(lines: readonly string[], width: number): string {
    const rows = lines.filter(line => !/^\|[\s:|-]+\|$/.test(line)).map(toCells);
    const count = Math.max(...rows.map(row => row.length));
    const columns = Array.from({ length: count }, (_, index) =>
        Math.max(...rows.map(row => displayWidth(row[index] ?? ''))),
    );
    // Columns share what there is; those that need less than their share leave it to the others.
    const widths = shareWidth(columns, width - (count - 1) * between);
    return rows.map(row => renderRow(row, widths)).join('\n');
}

function toCells(line: string): readonly string[] {
    const inside = line.trim().replace(/^\||\|$/g, '');
    return inside.split(/(?<!\\)\|/).map(cell => visible(cell.trim().replaceAll('\\|', '|')));
}

function shareWidth(wanted: readonly number[], width: number): readonly number[] {
    const given: number[] = [];
    let left = width;
    const byNeed = wanted.map((need, index) => ({ need, index })).sort((a, b) => a.need - b.need);
    byNeed.forEach(({ need, index }, done) => {
        const share = Math.max(8, Math.floor(left / (wanted.length - done)));
        given[index] = Math.min(need, share);
        left -= given[index];
    });
    return given;
}

function renderRow(row: readonly string[], widths: readonly number[]): string {
    const cells = widths.map((width, index) => wrap(row[index] ?? '', width));
    const height = Math.max(...cells.map(cell => cell.length));
    return Array.from({ length: height }, (_, line) =>
        cells
            .map((cell, index) => {
                const text = cell[line] ?? '';
                return text + ' '.repeat(Math.max(0, (widths[index] ?? 0) - displayWidth(text)));
            })
            .join(' '.repeat(between))
            .trimEnd(),
    ).join('\n');
}
