// Completion: the words of the language that fit the place, and the names that fit what is wanted there.

import type { GrammarAST, LangiumDocument, Lexer, TextDocument } from 'langium';
import type { CompletionProvider } from 'langium/lsp';
import {
    type CompletionItem,
    CompletionItemKind,
    type CompletionList,
    type CompletionParams,
    type TextEdit,
} from 'vscode-languageserver';
import { nounFor } from '../core/model/declaration-words.js';
import type { FaultLexingReport } from '../lower/parse/fault-lexer.js';
import { expectedAfter, type ExpectedLevel, type Step } from '../lower/parse/expected-words.js';
import { tokenEnd, type Token } from '../lower/parse/token.js';
import { type NameCandidate, namesFor, type WrittenWord } from './completion-names.js';
import { expectedBehind } from './grammar-position.js';
import { helpForKeyword } from './keyword-help.js';
import { isWord } from './keywords.js';
import type { ReadFile } from './rename-trial.js';
import { completionKindOf } from './symbol-kinds.js';
import { toRange } from './to-lsp.js';
import type { Workspaces } from './workspaces.js';

export class FaultCompletionProvider implements CompletionProvider {
    readonly completionOptions = { triggerCharacters: ['.'] };

    constructor(
        private readonly workspaces: Workspaces,
        private readonly grammar: GrammarAST.Grammar,
        private readonly lexer: Lexer,
        private readonly readFile: ReadFile,
    ) {}

    getCompletion(document: LangiumDocument, { position }: CompletionParams): CompletionList | undefined {
        const located = this.workspaces.read(document);
        if (!located) return undefined;
        const { text } = located.source;
        const offset = text.offsetAt(position);
        const { tokens, report } = this.lexer.tokenize(text.getText());
        const comments = (report as Partial<FaultLexingReport> | undefined)?.comments ?? [];
        if (comments.some(comment => isInsideComment(comment, offset))) return undefined;
        const word = wordAt(tokens, offset);
        if (!word) return undefined;
        const expected = expectedBehind(
            tokens.filter(token => tokenEnd(token) <= word.start),
            this.grammar,
        );
        const names = namesFor(located, word, expected, this.readFile);
        const place = { text, word, offset };
        return { isIncomplete: false, items: [...nameItems(names, place), ...wordItems(expected, place)] };
    }
}

interface Place {
    readonly text: TextDocument;
    readonly word: WrittenWord;
    readonly offset: number;
}

/** The word that the offset is in or behind; undefined inside a text or an amount, where nothing is completed. */
function wordAt(tokens: readonly Token[], offset: number): WrittenWord | undefined {
    const index = tokens.findIndex(
        token => token.startOffset < offset && tokenEnd(token) >= offset && token.image !== '',
    );
    const touched = tokens[index];
    const before = tokens[index - 1];
    if (touched?.image === '-' && before && isWord(before.image) && tokenEnd(before) === touched.startOffset) {
        // A name whose next part is not written yet.
        return { start: before.startOffset, end: tokenEnd(touched) };
    }
    if (!touched) {
        const next = tokens.find(token => token.startOffset === offset && isWord(token.image));
        return next ? { start: offset, end: tokenEnd(next) } : { start: offset, end: offset };
    }
    switch (touched.tokenType.name) {
        case 'TEXT':
            return isBehindClosedText(touched, offset) ? { start: offset, end: offset } : undefined;
        case 'AMOUNT':
            return undefined;
        default:
            return isWord(touched.image)
                ? { start: touched.startOffset, end: tokenEnd(touched) }
                : { start: offset, end: offset };
    }
}

function isBehindClosedText(token: Token, offset: number): boolean {
    const quotes = token.image.startsWith('"""') ? '"""' : '"';
    return offset === tokenEnd(token) && token.image.length >= 2 * quotes.length && token.image.endsWith(quotes);
}

function isInsideComment(
    comment: { readonly start: number; readonly end: number; readonly text: string },
    offset: number,
) {
    // A comment of one line goes on at its end, one of several lines does not.
    return offset > comment.start && (comment.text.startsWith('//') ? offset <= comment.end : offset < comment.end);
}

function nameItems(names: readonly NameCandidate[], place: Place): CompletionItem[] {
    return names.map(({ name, declaration }, index) => {
        const title = declaration && 'title' in declaration ? declaration.title?.value : undefined;
        const noun = declaration ? nounFor(declaration) : 'function';
        return {
            label: name,
            kind: declaration ? completionKindOf(declaration.sort) : CompletionItemKind.Function,
            detail: title?.replace(/\s+/g, ' ').trim() ?? noun,
            sortText: `0${order(index)}`,
            filterText: name,
            textEdit: edit(name, place),
        };
    });
}

function wordItems(levels: readonly ExpectedLevel[], place: Place): CompletionItem[] {
    const items = new Map<string, CompletionItem>();
    const newLine = beginsLine(place);
    for (const { rule, block, steps } of levels) {
        for (const step of steps) {
            const phrase = phraseFrom(step);
            if (phrase === undefined || items.has(phrase)) continue;
            // At the beginning of a line something new is meant, within a line what goes on.
            const rank = newLine === block ? 1 : 2;
            const help = helpForKeyword(step.thing.sort === 'word' ? step.thing.word : '', ruleOf(step) ?? rule);
            items.set(phrase, {
                label: phrase,
                kind: CompletionItemKind.Keyword,
                ...(help === undefined ? {} : { detail: help }),
                sortText: `${rank}${order(items.size)}`,
                filterText: phrase,
                textEdit: edit(phrase, place),
            });
        }
    }
    return [...items.values()];
}

/** The word and those that have to follow it: `comes and goes`; undefined for a sign or a name. */
function phraseFrom({ thing, place }: Step): string | undefined {
    if (thing.sort !== 'word' || !isWord(thing.word)) return undefined;
    let phrase = thing.word;
    for (let behind = place, words = 1; words < mostWords; words += 1) {
        const [level, ...further] = expectedAfter([behind]);
        const [only, ...others] = level?.steps ?? [];
        if (!only || others.length > 0 || further.length > 0) break;
        if (only.thing.sort !== 'word' || !isWord(only.thing.word)) break;
        phrase += ` ${only.thing.word}`;
        behind = only.place;
    }
    return phrase;
}

/** No phrase of the language has more. */
const mostWords = 5;

/** The rule that a word itself stands in, which may be called by the one that was looked at. */
function ruleOf({ place: { element } }: Step): string | undefined {
    let node: { readonly $type: string; readonly $container?: unknown; readonly name?: string } | undefined = element;
    while (node && node.$type !== 'ParserRule') node = node.$container as typeof node;
    return node?.name;
}

function beginsLine({ text, word }: Place): boolean {
    const { line } = text.positionAt(word.start);
    return (
        text
            .getText()
            .slice(text.offsetAt({ line, character: 0 }), word.start)
            .trim() === ''
    );
}

/** Replaces what is written of the word up to the cursor. */
function edit(newText: string, { text, word, offset }: Place): TextEdit {
    return { range: toRange(text, { start: word.start, end: offset }), newText };
}

function order(index: number): string {
    return String(index).padStart(4, '0');
}
