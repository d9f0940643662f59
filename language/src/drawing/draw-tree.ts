// Draws a tree as SVG text: steps as cards in layers from the top, their answers below them, ends where the paths end.

import type { Model } from '../core/model/model.js';
import type { Tree } from '../core/model/trees.js';
import { safetyNotice } from '../core/safety/notice.js';
import { displayWidth, wrap } from '../core/text/width.js';
import { plural } from '../core/text/words.js';
import type { CardLine } from './card-lines.js';
import { drawSign, markLooks, signWidth } from './marks.js';
import { type CardBox, placeCards } from './place-cards.js';
import { escapeXml, round, tag, textLines } from './svg-text.js';
import { type Card, type Cards, makeCards, titleOf, treeLines } from './tree-cards.js';

/**
 * The drawing of a tree as one self-contained SVG document: no script, no style sheet, no file beside it.
 * The same tree gives the same text. A half-written tree is drawn as far as it goes.
 */
export function drawTree(tree: Tree, model: Model): string {
    const { cards, roots } = makeCards(tree, model);
    const shapes = cards.map(shapeCard);
    const { places, width, height } = placeCards(shapes, roots, { side: 26, layer: 64 });
    const equipment = model.target(tree.equipment);
    const product = equipment?.sort === 'equipment' ? [equipment.title?.value ?? equipment.name.text] : [];
    const heading = headingLines(titleOf(tree), [...product, ...treeLines(tree, model)], safetyNotice());
    const top = margin + heading.height;
    const drawn = shapes.map((shape, index): Placed => {
        const { x = 0, y = 0, layerEnd = 0 } = places[index] ?? {};
        return { ...shape, x: x + margin, y: y + top, layerEnd: layerEnd + top };
    });
    const whole = { width: Math.max(width, heading.width) + 2 * margin, height: height + top + margin };
    const lines = drawn.flatMap(card => card.ports.map((_, port) => drawLine(card, port, drawn)));
    const content = [
        tag('title', { id: 'drawing-title' }, escapeXml(titleOf(tree))),
        tag('desc', { id: 'drawing-description' }, escapeXml(describe(tree, model, { cards, roots }))),
        tag('rect', { width: whole.width, height: whole.height, fill: '#ffffff' }),
        heading.svg,
        ...lines,
        ...drawn.map(drawCard),
    ];
    const attributes = {
        xmlns: 'http://www.w3.org/2000/svg',
        role: 'img',
        'aria-labelledby': 'drawing-title drawing-description',
        viewBox: `0 0 ${round(whole.width)} ${round(whole.height)}`,
        width: whole.width,
        height: whole.height,
        'font-family': "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', Arial, sans-serif",
    };
    return `${tag('svg', attributes, `\n${content.join('\n')}\n`)}\n`;
}

/** A card with its lines broken and its size known. */
interface Shape extends CardBox {
    readonly card: Card;
    readonly title: readonly string[];
    readonly lines: readonly { readonly line: CardLine; readonly texts: readonly string[] }[];
    readonly ports: readonly { readonly lines: readonly string[]; readonly width: number }[];
    readonly portHeight: number;
}

interface Placed extends Shape {
    readonly x: number;
    readonly y: number;
    readonly layerEnd: number;
}

const margin = 32;
const padding = 14;
const lineHeight = 17;
const labelHeight = 16;
const straight = 9;
// Columns are as wide as the widest common fonts make them, so that a text never leaves its card.
const columnWidth = 7.6;
const portColumnWidth = 7.2;
const cardColumns = 32;
const mostColumns = 60;
const portColumns = 18;
const boldColumnWidth = 8.9;
const gapOfLine = 3;
const gapBeforeBox = 8;
const gapAfterBox = 5;

interface Look {
    readonly fill: string;
    readonly line: string;
    readonly dashes: string;
    readonly corner: number;
    readonly lineWidth: number;
}

// Shape, dashes and label tell the sorts of cards apart, so nothing depends on seeing the colors.
const looks: Readonly<Record<Card['sort'], Look>> = {
    step: { fill: '#f5f8fb', line: '#2c4a66', dashes: 'none', corner: 4, lineWidth: 1.5 },
    conclusion: { fill: '#e7f4ea', line: '#23693d', dashes: 'none', corner: 16, lineWidth: 2.5 },
    referral: { fill: '#fdf3df', line: '#8a5a00', dashes: '8 4', corner: 16, lineWidth: 2 },
    pointer: { fill: '#ffffff', line: '#5b6770', dashes: '2 4', corner: 10, lineWidth: 1.5 },
};

function shapeCard(card: Card): Shape {
    const fewest = card.sort === 'step' ? cardColumns : cardColumns - 8;
    const ports = card.ports.map(({ label }) => {
        const labelLines = wrap(label, portColumns);
        const widest = Math.max(...labelLines.map(displayWidth));
        return { lines: labelLines, width: Math.max(64, widest * portColumnWidth + 16) };
    });
    const portsWidth = ports.reduce((sum, port) => sum + port.width, 0);
    // A card that is wide for its answers has room for longer lines, as far as they stay easy to read.
    const columns = Math.max(fewest, Math.min(mostColumns, Math.floor((portsWidth - 2 * padding) / columnWidth)));
    const title = wrap(card.title, columns);
    const lines = card.lines.map(line => ({ line, texts: wrap(line.text, columnsFor(line, columns)) }));
    const portHeight = ports.length === 0 ? 0 : Math.max(...ports.map(port => port.lines.length)) * lineHeight + 10;
    const textWidth = columns * columnWidth + 2 * padding;
    const textHeight =
        title.length * lineHeight + lines.reduce((sum, { line, texts }) => sum + heightOf(line, texts), 0);
    return {
        card,
        title,
        lines,
        // The row of answers is spread over the whole width of its card.
        ports: ports.map(port => ({ ...port, width: port.width * Math.max(1, textWidth / portsWidth) })),
        portHeight,
        width: Math.max(textWidth, portsWidth),
        height: padding + labelHeight + textHeight + padding / 2 + portHeight,
        depth: card.depth,
        children: card.ports.map(port => port.card),
    };
}

function drawCard(shape: Placed): string {
    const { card, x, y, width, height } = shape;
    const look = looks[card.sort];
    const left = x + padding;
    let base = y + padding + 9;
    const parts = [
        tag('rect', {
            x,
            y,
            width,
            height,
            rx: look.corner,
            fill: look.fill,
            stroke: look.line,
            'stroke-width': look.lineWidth,
            'stroke-dasharray': look.dashes,
        }),
        textLines(
            [card.label],
            { x: left, y: base, lineHeight },
            { 'font-size': 12, 'font-weight': 700, fill: look.line },
        ),
    ];
    base += labelHeight + 3;
    parts.push(
        textLines(
            shape.title,
            { x: left, y: base, lineHeight },
            { 'font-size': 13, 'font-weight': 600, fill: '#14212b' },
        ),
    );
    base += shape.title.length * lineHeight;
    for (const { line, texts } of shape.lines) {
        parts.push(...drawLineOfCard(line, texts, { x, y: base + gapBefore(line), width }));
        base += heightOf(line, texts);
    }
    return tag('g', {}, `\n${[...parts, ...drawPorts(shape)].join('\n')}\n`);
}

/** How many columns a line has, less its sign, where a column of bold letters is wider. */
function columnsFor({ mark }: CardLine, columns: number): number {
    if (!mark) return columns;
    const isBold = markLooks[mark].weight > 400;
    return Math.floor((columns * columnWidth - signWidth) / (isBold ? boldColumnWidth : columnWidth));
}

function heightOf(line: CardLine, texts: readonly string[]): number {
    return gapBefore(line) + texts.length * lineHeight + (isBoxed(line) ? gapAfterBox : 0);
}

function gapBefore(line: CardLine): number {
    return isBoxed(line) ? gapBeforeBox : gapOfLine;
}

function isBoxed({ mark }: CardLine): boolean {
    return mark !== undefined && markLooks[mark].fill !== undefined;
}

/** One entry of a card: with a mark its sign stands before it, and a safety statement stands in a box. `y` is its first base line. */
function drawLineOfCard(
    { mark }: CardLine,
    texts: readonly string[],
    { x, y, width }: { readonly x: number; readonly y: number; readonly width: number },
): readonly string[] {
    const left = x + padding;
    if (!mark) return [textLines(texts, { x: left, y, lineHeight }, { 'font-size': 13, fill: '#33424e' })];
    const look = markLooks[mark];
    const sign = drawSign(mark, left, y + 1);
    const place = { x: sign.length === 0 ? left : left + signWidth, y, lineHeight };
    const text = textLines(texts, place, { 'font-size': 13, 'font-weight': look.weight, fill: look.text });
    if (look.fill === undefined) return [...sign, text];
    const box = { x: x + padding / 2, y: y - 15, width: width - padding, height: texts.length * lineHeight + 5 };
    return [tag('rect', { ...box, rx: 3, fill: look.fill, stroke: look.line }), ...sign, text];
}

function drawPorts(shape: Placed): readonly string[] {
    const { line } = looks[shape.card.sort];
    const top = shape.y + shape.height - shape.portHeight;
    const parts: string[] = [];
    if (shape.ports.length > 0) {
        parts.push(tag('path', { d: `M${round(shape.x)} ${round(top)}h${round(shape.width)}`, stroke: line }));
    }
    shape.ports.forEach((port, index) => {
        const center = portCenter(shape, index);
        if (index > 0) {
            const edge = center - port.width / 2;
            parts.push(tag('path', { d: `M${round(edge)} ${round(top)}v${round(shape.portHeight)}`, stroke: line }));
        }
        const y = top + 5 + 12 + ((shape.portHeight - 10) / lineHeight - port.lines.length) * (lineHeight / 2);
        const attributes = { 'font-size': 12, 'text-anchor': 'middle', fill: '#14212b' };
        parts.push(textLines(port.lines, { x: center, y, lineHeight }, attributes));
    });
    return parts;
}

function portCenter(shape: Placed, port: number): number {
    const before = shape.ports.slice(0, port).reduce((sum, { width }) => sum + width, 0);
    return shape.x + before + (shape.ports[port]?.width ?? 0) / 2;
}

/** From an answer straight down to the end of its layer, so that it passes no neighbor, then over to the next card. */
function drawLine(shape: Placed, port: number, drawn: readonly Placed[]): string {
    const target = drawn[shape.children[port] ?? -1];
    if (target === undefined) return '';
    const from = portCenter(shape, port);
    const to = target.x + target.width / 2;
    const end = target.y - 7;
    // A short straight piece at both ends shows which answer and which card the line belongs to.
    const top = shape.layerEnd + straight;
    const bottom = end - straight;
    const middle = (top + bottom) / 2;
    const curve = `C${round(from)} ${round(middle)} ${round(to)} ${round(middle)} ${round(to)} ${round(bottom)}`;
    const path = `M${round(from)} ${round(shape.y + shape.height)}V${round(top)}${curve}V${round(end)}`;
    const stroke = '#5b6770';
    return [
        tag('path', { d: path, fill: 'none', stroke, 'stroke-width': 1.5 }),
        tag('path', { d: `M${round(to - 4.5)} ${round(end - 1)}h9l-4.5 8z`, fill: stroke }),
    ].join('\n');
}

function headingLines(
    title: string,
    lines: readonly string[],
    notice: string,
): { readonly svg: string; readonly width: number; readonly height: number } {
    const titles = wrap(title, 60);
    const under = lines.flatMap(line => wrap(line, 100));
    const noticed = wrap(notice, 100);
    const first = { x: margin, y: margin + 14, lineHeight: 24 };
    const second = { x: margin, y: margin + 12 + titles.length * 24, lineHeight: 19 };
    const third = { ...second, y: second.y + under.length * 19 };
    const svg = [
        textLines(titles, first, { 'font-size': 19, 'font-weight': 700, fill: '#14212b' }),
        textLines(under, second, { 'font-size': 14, fill: '#33424e' }),
        textLines(noticed, third, { 'font-size': 14, 'font-weight': 600, fill: '#14212b' }),
    ].join('\n');
    const widths = [
        ...titles.map(line => displayWidth(line) * 11.4),
        ...[...under, ...noticed].map(line => displayWidth(line) * 8.4),
    ];
    return { svg, width: Math.max(...widths), height: titles.length * 24 + (under.length + noticed.length) * 19 + 22 };
}

/** The whole drawing in words, for people who cannot see it. */
function describe(tree: Tree, model: Model, { cards, roots }: Cards): string {
    const ends = tree.conclusions.length + tree.referrals.length;
    const counts = `${plural(tree.steps.length, 'step')} and ${plural(ends, 'end')}.`;
    const start = cards[roots[0] ?? -1];
    const steps = cards
        .filter(card => card.sort === 'step')
        .map(card => {
            const ways = card.ports.map(port => `${port.label} leads to ${nameCard(cards[port.card])}`);
            return `${card.label}, ${card.title}: ${ways.length === 0 ? 'leads nowhere' : ways.join('; ')}.`;
        });
    const marked = cards.flatMap(card =>
        card.lines.filter(({ mark }) => mark).map(({ text }) => `At ${nameCard(card)}: ${withStop(text)}`),
    );
    const begin = start ? [`It begins at ${nameCard(start)}.`] : [];
    return [counts, safetyNotice(), ...begin, ...treeLines(tree, model), ...steps, ...marked].join('\n');
}

function withStop(text: string): string {
    return /[.!?]$/.test(text) ? text : `${text}.`;
}

function nameCard(card: Card | undefined): string {
    if (card === undefined) return 'nothing';
    const label = `${card.label.charAt(0).toLowerCase()}${card.label.slice(1)}`;
    return card.sort === 'pointer' ? `${label.replace(/^go to /, '')}, ${card.title}` : `${label}, ${card.title}`;
}
