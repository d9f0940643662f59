/** Keeps the README's picture of a finding true: it is drawn from what `check` really says of one mistake in the example. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { root } from '../house/project.mjs';
import { run } from './support.js';

test('the picture in the README shows what `check` says today', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'halfsplit-picture-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    cpSync(join(root, 'examples/dust-extractor'), folder, { recursive: true });
    const file = join(folder, 'no-airflow.fault');
    const text = readFileSync(file, 'utf8');
    const mistaken = text.replace('absent -> trip }', 'absent -> trip for single-phase }');
    expect(mistaken).not.toBe(text);
    writeFileSync(file, mistaken);
    const { status, output } = await run(['check', 'no-airflow.fault'], { folder });
    expect(status).toBe(1);
    expect(output).toContain('For example   a unit with three-phase');
    const lines = ['$ halfsplit check no-airflow.fault', ...output.trimEnd().split('\n')];
    await expect(drawLines(lines)).toMatchFileSnapshot(join(root, 'examples/dust-extractor/pictures/finding.svg'));
});

const lineHeight = 20;
const margin = 24;
const characterWidth = 8.5;

/** Lines of a terminal as an SVG picture, with the same text as its description. */
function drawLines(lines: readonly string[]): string {
    const width = Math.round(Math.max(...lines.map(line => line.length)) * characterWidth + 2 * margin);
    const height = lines.length * lineHeight + 2 * margin;
    const texts = lines.map((line, index) => {
        const y = margin + (index + 0.75) * lineHeight;
        return `  <text x="${margin}" y="${y}" fill="${colorOf(line)}" xml:space="preserve">${escapeText(line)}</text>`;
    });
    return [
        `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-labelledby="title description" font-family="ui-monospace, monospace" font-size="14">`,
        '  <title id="title">A finding with its counterexample</title>',
        `  <desc id="description">${escapeText(lines.join(' / '))}</desc>`,
        `  <rect width="${width}" height="${height}" rx="10" fill="#10231f"/>`,
        ...texts,
        '</svg>',
        '',
    ].join('\n');
}

function colorOf(line: string): string {
    if (/ error /.test(line) || /^\s+~+$/.test(line)) return '#ffb3a1';
    if (line.startsWith('  For example')) return '#ffe08a';
    if (line.startsWith('  Mend')) return '#9fe8b8';
    if (line.startsWith('$')) return '#9fd3ff';
    return '#e8efec';
}

function escapeText(text: string): string {
    return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
