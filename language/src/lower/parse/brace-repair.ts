// Pairs off braces that do not pair off, going by the indentation of the lines,
// so that one forgotten brace gives one finding and leaves the rest of the file readable.

import { plural, quoteName } from '../../core/text/words.js';
import { mostFindings } from './limits.js';
import type { SyntaxFinding } from './syntax-finding.js';
import { replaceToken, tokenEnd, type Token, type TokenTypes } from './token.js';
import type { Survey } from './token-survey.js';

/** Tokens in which every brace has its pair, and what was wrong. Added braces are empty and marked as inserted. */
export function repairBraces(
    tokens: readonly Token[],
    { surplusBraces, missingBraces }: Pick<Survey, 'surplusBraces' | 'missingBraces'>,
    types: TokenTypes,
): { readonly tokens: Token[]; readonly findings: readonly SyntaxFinding[] } {
    const work: Work = {
        source: tokens,
        types,
        tokens: [],
        findings: [],
        lines: [],
        open: [],
        opened: new Set(),
        surplus: surplusBraces,
        missing: missingBraces,
    };
    let heading = 0;
    tokens.forEach((token, index) => {
        const beginsLine = token.startLine !== tokens[index - 1]?.endLine;
        heading = beginsLine || isBrace(tokens[index - 1]) ? index : heading;
        if (beginsLine) {
            closeForgotten(work, token);
            work.lines.push(index);
        }
        if (token.tokenType.name === '{') {
            const line = tokens[work.lines.at(-1) ?? index] ?? token;
            work.open.push({ brace: token, line, heading: tokens.slice(heading, Math.min(heading + 2, index)) });
        } else if (token.tokenType.name === '}' && !closeBlock(work, token, index, beginsLine)) {
            return;
        }
        work.tokens.push(token);
    });
    closeAtEnd(work);
    return { tokens: withOpened(work), findings: work.findings };
}

interface OpenBlock {
    readonly brace: Token;
    /** The first word of the line on which the block opens. */
    readonly line: Token;
    /** At most two words with which the block's heading begins. */
    readonly heading: readonly Token[];
}

interface Work {
    readonly source: readonly Token[];
    readonly types: TokenTypes;
    readonly tokens: Token[];
    readonly findings: SyntaxFinding[];
    /** The indexes of the words that begin a line. */
    readonly lines: number[];
    readonly open: OpenBlock[];
    /** The words behind which a block was opened. */
    readonly opened: Set<Token>;
    surplus: number;
    missing: number;
}

// A line that stands no deeper than the heading of an open block cannot belong to that block.
function closeForgotten(work: Work, token: Token): void {
    const closes = token.tokenType.name === '}';
    while (work.missing > 0) {
        const block = work.open.at(-1);
        if (block === undefined || block.brace.startLine === token.startLine) {
            return;
        }
        const outdented = column(token) < column(block.line);
        if (closes ? !(outdented && work.open.length > 1) : column(token) > column(block.line)) {
            return;
        }
        work.open.pop();
        work.missing -= 1;
        insertBrace(work);
        reportOpen(work, block, `Write \`}\` before ${quoteName(token.image)} in line ${token.startLine ?? 0}.`);
    }
}

// Returns whether the brace stays.
function closeBlock(work: Work, token: Token, index: number, beginsLine: boolean): boolean {
    const block = work.open.at(-1);
    if (block !== undefined && !(work.surplus > 0 && isSurplus(work, block, token, index, beginsLine))) {
        work.open.pop();
        return true;
    }
    work.surplus -= 1;
    const unopened = beginsLine ? unopenedLine(work, token) : unopenedWithin(work, token);
    if (unopened === undefined) {
        report(work, token, 'This `}` closes no block.', 'Remove it, or write the `{` that it closes.');
        return false;
    }
    const { first, last } = unopened;
    const name = quoteName(
        [first, work.source[work.source.indexOf(first) + 1] ?? last].map(word => word.image).join(' '),
    );
    work.opened.add(last);
    report(
        work,
        last,
        `The block of ${name} has no \`{\`.`,
        `Write \`{\` in line ${last.endLine ?? 0} before what the block holds.`,
    );
    return true;
}

interface Unopened {
    /** The first word of a heading that opens no block, and the last before the block. */
    readonly first: Token;
    readonly last: Token;
}

// The lines before the brace stand deeper than it, down to one that stands as deep: that line should have opened the block.
function unopenedLine({ source, lines }: Work, token: Token): Unopened | undefined {
    let line = lines.length - 2;
    while (line >= 0 && column(source[lines[line] ?? 0] ?? token) > column(token)) {
        line -= 1;
    }
    const first = source[lines[line] ?? -1];
    const last = source[(lines[line + 1] ?? 0) - 1];
    const found =
        first !== undefined && last !== undefined && line < lines.length - 2 && column(first) === column(token);
    return found && !isBrace(first) && !isBrace(last) ? { first, last } : undefined;
}

// A line without any opening brace should have opened the block behind its title or, where it has none, behind its name.
function unopenedWithin({ source, lines }: Work, token: Token): Unopened | undefined {
    const start = lines.at(-1) ?? 0;
    const words = source.slice(start, source.indexOf(token, start));
    const [first] = words;
    const last = words.find(({ tokenType }) => tokenType.name === 'TEXT') ?? words[nameEnd(words)];
    return first === undefined || last === undefined || words.some(isBrace) ? undefined : { first, last };
}

// The name behind the first word may have a second part behind a full stop.
function nameEnd(words: readonly Token[]): number {
    let end = 1;
    while (words[end + 1]?.image === '.') {
        end += 2;
    }
    return end;
}

function isSurplus(work: Work, block: OpenBlock, token: Token, index: number, beginsLine: boolean): boolean {
    if (block.brace.startLine === token.startLine) {
        return false;
    }
    if (beginsLine && column(token) !== column(block.line)) {
        return column(token) > column(block.line);
    }
    // What follows goes on inside the block, so this brace does not close it.
    const next = work.source[index + 1];
    if (next === undefined || next.startLine === token.startLine) {
        return false;
    }
    return next.tokenType.name === '}'
        ? column(next) === column(block.line) && !beginsLine
        : column(next) > column(block.line);
}

function closeAtEnd(work: Work): void {
    const innermost = work.open.at(-1);
    const last = work.source.at(-1);
    if (innermost === undefined || last === undefined) {
        return;
    }
    const braces = plural(work.open.length, 'closing brace');
    const where = work.open.length === 1 ? 'the block ends' : 'each block ends';
    for (let count = work.open.length; count > 0; count -= 1) {
        insertBrace(work);
    }
    reportOpen(work, innermost, `The file ends without ${braces}: write \`}\` where ${where}.`);
}

function reportOpen(work: Work, { brace, heading }: OpenBlock, mend: string): void {
    const words = heading.filter(({ tokenType }) => tokenType.name !== 'TEXT').map(({ image }) => image);
    const message =
        words.length === 0 ? 'This block is not closed.' : `The block of ${quoteName(words.join(' '))} is not closed.`;
    report(work, brace, message, mend);
}

function report(work: Work, brace: Token, message: string, mend: string): void {
    if (work.findings.length < mostFindings) {
        const place = { start: brace.startOffset, end: tokenEnd(brace) };
        work.findings.push({ code: 'unexpected-text', ...place, message, mend, edits: [] });
    }
}

function insertBrace(work: Work): void {
    const last = work.tokens.at(-1);
    if (last !== undefined) {
        work.tokens.push(makeBrace(work, '}', last));
    }
}

function withOpened(work: Work): Token[] {
    return work.opened.size === 0
        ? work.tokens
        : work.tokens.flatMap(token => (work.opened.has(token) ? [token, makeBrace(work, '{', token)] : [token]));
}

function makeBrace({ types }: Work, brace: '{' | '}', behind: Token): Token {
    const type = types[brace] ?? behind.tokenType;
    const end = tokenEnd(behind);
    return {
        ...replaceToken(behind, type, ''),
        startOffset: end,
        endOffset: end - 1,
        startLine: behind.endLine ?? 0,
        startColumn: behind.endColumn ?? 0,
        isInsertedInRecovery: true,
    };
}

function isBrace(token: Token | undefined): boolean {
    return token?.tokenType.name === '{' || token?.tokenType.name === '}';
}

function column(token: Token): number {
    return token.startColumn ?? 0;
}
