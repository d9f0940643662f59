/**
 * Makes a page of documentation its own test: each ```fault block is read and verified, and must give the findings
 * that the marks in it name, and no others.
 *
 * A mark is a comment of its own line that begins with carets: `//   ^^^^^ unknown-name: There is no part`.
 * The carets stand below the range of the finding, on the nearest line above that is no mark; behind them stands the
 * code and a part of the message. A range over several lines is marked as far as its first line goes, an empty range
 * with one caret. A line `// file: parts.fault` begins the next file of the block.
 */
import type { Finding } from '../../language/src/core/findings/finding.js';
import { lineStarts, positionAt } from '../../language/src/core/text/positions.js';
import { applyEdits, onlyFile } from './check.js';
import { findingsOf, type ReadTextsOptions, type Texts } from './read-texts.js';

/** A ```fault block of a page. */
export interface Block {
    /** The heading that it stands under. */
    readonly section: string;
    /** The line of the page on which its text begins, counted from 1. */
    readonly line: number;
    readonly texts: Texts;
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
                blocks.push({ section, line: open.line, texts: splitFiles(open.lines, folder) });
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
    for (const finding of findingsOf(block.texts, { ...options, repository: true })) {
        const index = marks.findIndex(mark => fits(mark, finding, block.texts));
        if (index >= 0) marks.splice(index, 1);
        else wrong.push(`found and not marked: ${describeFinding(finding, block.texts)}`);
    }
    return [...wrong, ...marks.map(mark => `marked and not found: ${describeMark(mark)}`)];
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
    const before = findingsOf(block.texts, { ...options, repository: true });
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
            for (const words of findingsOf(mended, { ...options, repository: true }).map(wordsOf)) {
                if (left.includes(words)) left.splice(left.indexOf(words), 1);
                else wrong.push(`${name} is said to be safe; after it there is ${words}`);
            }
        }
    }
    return wrong;
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
