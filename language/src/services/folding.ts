// Folding: blocks in braces, texts and comments of several lines, and the `uses` at the top.

import type { LangiumDocument, Lexer, TextDocument } from 'langium';
import type { FoldingRangeProvider } from 'langium/lsp';
import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import type { FaultLexingReport } from '../lower/parse/fault-lexer.js';
import type { Comment } from '../lower/parse/syntax-finding.js';
import { tokenEnd, type Token } from '../lower/parse/token.js';

export class FaultFoldingRangeProvider implements FoldingRangeProvider {
    constructor(private readonly lexer: Lexer) {}

    getFoldingRanges(document: LangiumDocument): FoldingRange[] {
        const text = document.textDocument;
        const { tokens, report } = this.lexer.tokenize(text.getText());
        const comments = (report as Partial<FaultLexingReport> | undefined)?.comments ?? [];
        const ranges = [
            ...foldBlocks(tokens, text),
            ...foldTexts(tokens, text),
            ...foldComments(comments, text),
            ...foldUses(tokens, text),
        ];
        return ranges.sort((one, other) => one.startLine - other.startLine || other.endLine - one.endLine);
    }
}

// The line of the closing brace stays visible, so that a folded block still shows its end.
function foldBlocks(tokens: readonly Token[], text: TextDocument): FoldingRange[] {
    const open: Token[] = [];
    const ranges: FoldingRange[] = [];
    for (const token of tokens) {
        if (token.tokenType.name === '{') open.push(token);
        if (token.tokenType.name !== '}') continue;
        const start = open.pop();
        if (!start || token.image === '') continue;
        ranges.push(...fold(text, start.startOffset, token.startOffset, -1));
    }
    return ranges;
}

function foldTexts(tokens: readonly Token[], text: TextDocument): FoldingRange[] {
    return tokens
        .filter(({ tokenType }) => tokenType.name === 'TEXT')
        .flatMap(token => fold(text, token.startOffset, tokenEnd(token), 0));
}

// Comments on lines one below the other fold as one.
function foldComments(comments: readonly Comment[], text: TextDocument): FoldingRange[] {
    const groups: { start: number; end: number }[] = [];
    for (const { start, end } of comments) {
        const last = groups.at(-1);
        const follows =
            last &&
            text
                .getText()
                .slice(last.end, start)
                .match(/^[ \t]*\r?\n?[ \t]*$/);
        if (last && follows) last.end = end;
        else groups.push({ start, end });
    }
    return groups.flatMap(({ start, end }) => fold(text, start, end, 0, FoldingRangeKind.Comment));
}

function foldUses(tokens: readonly Token[], text: TextDocument): FoldingRange[] {
    let end: Token | undefined;
    for (let index = 0; tokens[index]?.tokenType.name === 'uses'; index += 2) end = tokens[index + 1];
    const [start] = tokens;
    return start && end ? fold(text, start.startOffset, tokenEnd(end), 0, FoldingRangeKind.Imports) : [];
}

function fold(text: TextDocument, start: number, end: number, less: number, kind?: FoldingRangeKind): FoldingRange[] {
    const startLine = text.positionAt(start).line;
    const endLine = text.positionAt(end).line + less;
    return endLine > startLine ? [{ startLine, endLine, ...(kind === undefined ? {} : { kind }) }] : [];
}
