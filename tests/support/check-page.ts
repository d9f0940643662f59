/**
 * Makes a page of documentation its own test: each ```fault block is read and verified, and must give the findings
 * that the marks in it name, and no others.
 *
 * A mark is a comment of its own line that begins with carets: `//   ^^^^^ unknown-name: There is no part`.
 * The carets stand below the range of the finding, on the nearest line above that is no mark; behind them stands the
 * code and a part of the message. A range over several lines is marked as far as its first line goes, an empty range
 * with one caret. A line `// file: parts.fault` begins the next file of the block. A line `// settings: { … }` at the
 * beginning of a block holds what `halfsplit.json` holds there.
 */
import type { Finding } from '../../language/src/core/findings/finding.js';
import { readSettings } from '../../language/src/core/findings/read-settings.js';
import { type Settings, settingsFile } from '../../language/src/core/findings/settings.js';
import { lineStarts, positionAt } from '../../language/src/core/text/positions.js';
import { rules } from '../../language/src/rules/index.js';
import { applyEdits, onlyFile } from './check.js';
import { findingsOf, type ReadTextsOptions, type Texts } from './read-texts.js';

/** A ```fault block of a page. */
export interface Block {
    /** The heading that it stands under. */
    readonly section: string;
    /** The line of the page on which its text begins, counted from 1. */
    readonly line: number;
    readonly texts: Texts;
    /** The settings that its first line holds. */
    readonly settings: Settings;
}

/** What a mark says: a finding of this code, at this place, with these words in its message. */
interface Mark {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly length: number;
    readonly code: string;
    readonly words: string;
}

/** The ```fault blocks of a page. `folder` is where their files stand, for the paths that they name. */
export function blocksOf(page: string, folder = ''): Block[] {
    const blocks: Block[] = [];
    let section = '';
    let open: { line: number; lines: string[]; fence: string } | undefined;
    page.split('\n').forEach((line, index) => {
        const fence = /^ {0,3}(`{3,})\s*(\w*)/.exec(line);
        if (!open) {
            section = /^#+ +(.*)$/.exec(line)?.[1] ?? section;
            if (fence) open = { line: index + 2, lines: [], fence: fence[2] ?? '' };
        } else if (!fence) {
            open.lines.push(line);
        } else {
            if (open.fence === 'fault') {
                const { lines, line: first } = open;
                const settings = settingsIn(lines[0] ?? '');
                blocks.push({ section, line: first, texts: splitFiles(lines, folder), settings });
            }
            open = undefined;
        }
    });
    return blocks;
}

/** What is wrong with a block: findings without a mark, and marks without a finding; each as one line. */
export function checkBlock(block: Block, options: ReadTextsOptions = {}): string[] {
    const marks = Object.entries(block.texts).flatMap(([file, text]) => marksOf(file, text));
    const wrong: string[] = [];
    for (const finding of findingsIn(block, block.texts, options)) {
        const index = marks.findIndex(mark => fits(mark, finding, block.texts));
        if (index >= 0) marks.splice(index, 1);
        else wrong.push(`found and not marked: ${describeFinding(finding, block.texts)}`);
    }
    return [...wrong, ...marks.map(mark => `marked and not found: ${describeMark(mark)}`)];
}

/** The findings of a block, or of its mended texts. */
export function findingsIn({ settings }: Block, texts: Texts, options: ReadTextsOptions = {}): readonly Finding[] {
    return findingsOf(texts, { ...options, settings, repository: true });
}

/** The codes that the marks of a block name. */
export function markedCodes(block: Block): string[] {
    return Object.entries(block.texts).flatMap(([file, text]) => marksOf(file, text).map(({ code }) => code));
}

/**
 * What is wrong with the mends of a block's findings. A safe mend must take its finding away and bring no other;
 * any mend must have edits that lie in the text of their file.
 */
export function checkMends(block: Block, options: ReadTextsOptions = {}): string[] {
    const wrong: string[] = [];
    const before = findingsIn(block, block.texts, options);
    for (const finding of before) {
        for (const mend of finding.mends) {
            const name = `\`${mend.title}\` of ${describeFinding(finding, block.texts)}`;
            const mended: Record<string, string> = { ...block.texts };
            try {
                for (const file of new Set(mend.edits.map(edit => edit.file))) {
                    const edits = mend.edits.filter(edit => edit.file === file);
                    mended[file] = applyEdits(block.texts[file] ?? '', edits);
                }
            } catch (problem) {
                wrong.push(`${name}: ${String(problem)}`);
                continue;
            }
            if (mend.edits.length === 0) wrong.push(`${name} changes nothing`);
            if (mend.safety !== 'safe') continue;
            const left = before.filter(other => other !== finding).map(wordsOf);
            for (const words of findingsIn(block, mended, options).map(wordsOf)) {
                if (left.includes(words)) left.splice(left.indexOf(words), 1);
                else wrong.push(`${name} is said to be safe; after it there is ${words}`);
            }
        }
    }
    return wrong;
}

/** The settings of a line `// settings: { … }`; what every workspace begins with where the line is another one. */
function settingsIn(line: string): Settings {
    const text = /^\s*\/\/ settings: (.*)$/.exec(line)?.[1];
    const { settings, findings } = readSettings(text ?? '{}', settingsFile, rules);
    if (findings[0]) throw new Error(`The settings of a page are wrong: ${findings[0].message}`);
    return settings;
}

function splitFiles(lines: readonly string[], folder: string): Texts {
    const prefix = folder === '' ? '' : `${folder}/`;
    const texts: Record<string, string[]> = {};
    let current: string[] | undefined;
    for (const line of lines) {
        const name = /^\s*\/\/ file: (\S+)\s*$/.exec(line)?.[1];
        if (name !== undefined) current = texts[prefix + name] = [];
        else (current ??= texts[prefix + onlyFile] = []).push(line);
    }
    return Object.fromEntries(Object.entries(texts).map(([file, content]) => [file, `${content.join('\n')}\n`]));
}

function marksOf(file: string, text: string): Mark[] {
    const marks: Mark[] = [];
    let marked = 0;
    text.split('\n').forEach((line, index) => {
        const mark = /^(\s*\/\/\s*)(\^+)\s*([a-z-]+)(?::\s*(.*?))?\s*$/.exec(line);
        if (!mark) {
            marked = index + 1;
            return;
        }
        const [, before = '', carets = '', code = '', words = ''] = mark;
        marks.push({ file, line: marked, column: before.length + 1, length: carets.length, code, words });
    });
    return marks;
}

function fits(mark: Mark, finding: Finding, texts: Texts): boolean {
    if (mark.file !== finding.file || mark.code !== finding.code || !finding.message.includes(mark.words)) return false;
    const { line, column, length } = stretchOf(finding, texts);
    return mark.line === line && mark.column === column && mark.length === length;
}

/** Where carets for a finding stand: a range over several lines as far as its first line goes, an empty one as one caret. */
function stretchOf({ file, start, end }: Finding, texts: Texts): { line: number; column: number; length: number } {
    const text = texts[file] ?? '';
    const { line, column } = positionAt(lineStarts(text), start);
    const [firstLine = ''] = text.slice(start, end).split(/\r\n|\r|\n/, 1);
    return { line, column, length: Math.max(1, firstLine.trimEnd().length) };
}

function describeFinding(finding: Finding, texts: Texts): string {
    const { line, column, length } = stretchOf(finding, texts);
    return `${finding.file}:${line}:${column}+${length} ${wordsOf(finding)}`;
}

function wordsOf({ code, message }: Finding): string {
    return `${code}: ${message}`;
}

function describeMark({ file, line, column, length, code, words }: Mark): string {
    return `${file}:${line}:${column}+${length} ${code}: ${words}`;
}
