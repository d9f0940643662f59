// Arranges the words of a file by blocks: what stands in a heading, what in the block behind it, and which comments lie between.

import { GrammarAST, type CompositeCstNode, type CstNode, type LeafCstNode } from 'langium';
import { wordsAsNames } from '../lower/parse/name-rules.js';
import type { Comment } from '../lower/parse/syntax-finding.js';
import type { ParsedFile } from '../lower/parse/parse-text.js';
import { writtenAs } from './spelling.js';

/** One word, sign, text or amount of a file. */
export interface Word {
    /** Its place in the text as it was. */
    readonly start: number;
    readonly end: number;
    /** As it is to be written. A text of several lines is still as it was. */
    readonly text: string;
    /** The name of its token type: `{`, `TEXT`, `AMOUNT`, `ID`, or the word itself. */
    readonly type: string;
    /** The rule of the grammar that uses it. */
    readonly rule: string;
    /** Whether it is a name, also where it is spelled like a word of the language. */
    readonly isName: boolean;
    readonly pattern: RegExp | undefined;
}

/** A declaration, statement, clause, branch or whatever else stands on a line of its own or among its like. */
export interface Item {
    /** The rule of the grammar: `Fault`, `Branch`. */
    readonly rule: string;
    /** Index of its first word. */
    readonly first: number;
    /** Index of its last word: a closing brace where it has a block, a comma where its list goes on. */
    last: number;
    /** Index of the opening brace. */
    open: number | undefined;
    /** Index of the closing brace. */
    close: number | undefined;
    readonly items: Item[];
}

/** A comment, with the line breaks around it. */
export interface PlacedComment extends Comment {
    /** Line breaks between it and what stands before it. */
    readonly breaksBefore: number;
    /** Whether a line break or the end of the file follows it. */
    readonly breakAfter: boolean;
    readonly severalLines: boolean;
}

/** What lies between a word and the one before it. */
export interface Gap {
    readonly comments: readonly PlacedComment[];
    /** How many of the comments end a line or take several; the others stand on the line of the word behind them. */
    readonly apart: number;
    /** Line breaks just before the word. */
    readonly breaks: number;
}

/** A file arranged for printing. `gaps` has one more entry than `words`: the end of the file. */
export interface LayoutTree {
    readonly text: string;
    readonly words: readonly Word[];
    readonly gaps: readonly Gap[];
    readonly items: readonly Item[];
}

/** Arranges a file that was read without findings. */
export function layoutTree(text: string, parsed: ParsedFile): LayoutTree {
    const words: Word[] = [];
    const root = parsed.root.$cstNode;
    const items = root === undefined ? [] : collectItems(root as CompositeCstNode, { text, words });
    return { text, words, gaps: collectGaps(text, words, parsed.comments), items };
}

interface Source {
    readonly text: string;
    readonly words: Word[];
}

function collectItems(node: CompositeCstNode, source: Source): Item[] {
    return node.content.filter(child => !child.hidden).map(child => collectItem(child, source));
}

function collectItem(node: CstNode, source: Source): Item {
    const { words } = source;
    const first = words.length;
    const item: Item = { rule: ruleOfItem(node), first, last: first, open: undefined, close: undefined, items: [] };
    collectWords(node, item, source);
    item.last = words.length - 1;
    return item;
}

function collectWords(node: CstNode, item: Item, source: Source): void {
    const { words } = source;
    if (!isComposite(node)) {
        if (!node.hidden) {
            words.push(makeWord(node as LeafCstNode, source.text));
        }
        return;
    }
    let inBlock = false;
    for (const child of node.content) {
        if (child.hidden) {
            continue;
        }
        const type = isComposite(child) ? undefined : (child as LeafCstNode).tokenType.name;
        if (type === '}') {
            item.close = words.length;
            inBlock = false;
        }
        if (!inBlock) {
            collectWords(child, item, source);
        } else if (type === ',') {
            // The list goes on: the comma stays with what it follows.
            collectWords(child, item, source);
            const before = item.items.at(-1);
            if (before !== undefined) {
                before.last = words.length - 1;
            }
        } else {
            item.items.push(collectItem(child, source));
        }
        if (type === '{') {
            item.open = words.length - 1;
            inBlock = true;
        }
    }
}

function isComposite(node: CstNode): node is CompositeCstNode {
    return 'content' in node;
}

// Rules that only choose between others say nothing about the item.
function ruleOfItem(node: CstNode): string {
    let rule = calledRule(node);
    let inner = node;
    while (isComposite(inner)) {
        const children: CstNode[] = inner.content.filter(child => !child.hidden);
        const [only] = children;
        const next = children.length === 1 && only !== undefined && isComposite(only) ? calledRule(only) : undefined;
        if (only === undefined || next === undefined || wordsAsNames(next) !== undefined) {
            break;
        }
        rule = next;
        inner = only;
    }
    return rule?.name ?? '';
}

function calledRule(node: CstNode): GrammarAST.AbstractRule | undefined {
    const source = node.grammarSource;
    return GrammarAST.isRuleCall(source) ? source.rule.ref : undefined;
}

function makeWord(leaf: LeafCstNode, source: string): Word {
    const { offset: start, end, tokenType } = leaf;
    const use = useOf(leaf.grammarSource);
    const type = tokenType.name;
    return {
        start,
        end,
        text: writtenAs(type, source.slice(start, end), use.isName),
        type: use.isName ? 'ID' : type,
        ...use,
        pattern: type === 'AMOUNT' && tokenType.PATTERN instanceof RegExp ? tokenType.PATTERN : undefined,
    };
}

interface Use {
    readonly rule: string;
    readonly isName: boolean;
}

const uses = new WeakMap<GrammarAST.AbstractElement, Use>();

function useOf(element: GrammarAST.AbstractElement | undefined): Use {
    const known = element === undefined ? undefined : uses.get(element);
    if (element === undefined || known !== undefined) {
        return known ?? { rule: '', isName: false };
    }
    let container: GrammarAST.AbstractElement['$container'] | GrammarAST.AbstractElement = element;
    while (GrammarAST.isAbstractElement(container)) {
        container = container.$container;
    }
    const rule = GrammarAST.isParserRule(container) ? container.name : '';
    const use = { rule, isName: GrammarAST.isParserRule(container) && wordsAsNames(container) !== undefined };
    uses.set(element, use);
    return use;
}

function collectGaps(text: string, words: readonly Word[], comments: readonly Comment[]): Gap[] {
    const gaps: Gap[] = [];
    let next = 0;
    let end = 0;
    for (let index = 0; index <= words.length; index += 1) {
        const start = words[index]?.start ?? text.length;
        const placed: PlacedComment[] = [];
        for (let comment = comments[next]; comment !== undefined && comment.start < start; comment = comments[next]) {
            next += 1;
            const after = Math.min(comments[next]?.start ?? start, start);
            placed.push({
                ...comment,
                breaksBefore: countBreaks(text, end, comment.start),
                breakAfter: after === text.length || countBreaks(text, comment.end, after) > 0,
                severalLines: /[\r\n]/.test(comment.text),
            });
            end = comment.end;
        }
        const apart = placed.map(({ breakAfter, severalLines }) => breakAfter || severalLines).lastIndexOf(true) + 1;
        // Only blanks that could stand within an amount may stand behind one: others keep its number from the next word.
        const kept = words[index - 1]?.pattern !== undefined && /[^ \t]/.test(text.slice(end, start)) ? 1 : 0;
        gaps.push({ comments: placed, apart, breaks: Math.max(kept, countBreaks(text, end, start)) });
        end = words[index]?.end ?? end;
    }
    return gaps;
}

function countBreaks(text: string, start: number, end: number): number {
    let breaks = 0;
    for (let offset = start; offset < end; offset += 1) {
        const code = text.charCodeAt(offset);
        // A return and a feed together are one line break.
        if (code === 0x0a || (code === 0x0d && text.charCodeAt(offset + 1) !== 0x0a)) {
            breaks += 1;
        }
    }
    return breaks;
}
