// Finds where things stand in the text, with one look at the direct children of a syntax node and no search of the tree.

import type { AstNode, CompositeCstNode, CstNode, GrammarAST } from 'langium';
import type { Span } from '../core/model/written.js';
import type { Lowering } from './context.js';

/** What is asked for places: a piece of the concrete syntax tree, or the point that stands for a missing one. */
export type Place = CstNode | Point;

/** The place of a node that has none, as error recovery can leave it. */
export interface Point {
    readonly offset: number;
    readonly end: number;
    readonly grammarSource?: undefined;
    readonly content?: undefined;
}

// Callers read `$cstNode` themselves and hand it on: the one piece of code that reads a property of all sorts of nodes
// is many times slower than as many pieces of code as there are sorts.

/** Where a place begins. Every node asks, so this goes straight down to the first token. */
export function startOf(place: Place): number {
    let first = place;
    for (let content = contentOf(first); content !== undefined; content = contentOf(first)) {
        let index = 0;
        while (index < content.length - 1 && isComment(content[index])) index += 1;
        const child = content[index];
        if (child === undefined) return 0;
        first = child;
    }
    return first.offset;
}

/** Where a place ends, exclusive. */
export function endOf(place: Place): number {
    let last = place;
    for (let content = contentOf(last); content !== undefined; content = contentOf(last)) {
        let index = content.length - 1;
        while (index > 0 && isComment(content[index])) index -= 1;
        const child = content[index];
        if (child === undefined) return 0;
        last = child;
    }
    return last.end;
}

/** For a node without a place: the end of what stands around it. */
export function pointAround(node: AstNode): Point {
    for (let around = node.$container; around; around = around.$container) {
        if (around.$cstNode) {
            const offset = endOf(around.$cstNode);
            return { offset, end: offset };
        }
    }
    return { offset: 0, end: 0 };
}

/** The stretch of a place. */
export function spanOf(context: Lowering, place: Place): Span {
    return { file: context.file, start: startOf(place), end: endOf(place) };
}

/** An empty stretch: the place of what is not written yet. */
export function pointAt(context: Lowering, offset: number): Span {
    return { file: context.file, start: offset, end: offset };
}

/** The first word or sign of a place. */
export function firstWord(place: Place): CstNode | undefined {
    let first: CstNode | undefined;
    for (let content = contentOf(place); content; content = first && contentOf(first)) {
        first = content.find(child => !isComment(child));
    }
    return first;
}

/** The keyword that a place holds; undefined for a name, a text or an amount. */
export function keywordAt(place: Place | undefined): string | undefined {
    const source = place?.grammarSource;
    return source?.$type === 'Keyword' ? (source as GrammarAST.Keyword).value : undefined;
}

/** What is written for one property of a node; the first of several. */
export function findPlace(place: Place, property: string): CstNode | undefined {
    const content = contentOf(place);
    return content && findIn(content, property);
}

/** All that is written for a property of a node that can stand several times, in the order of the text. */
export function findPlaces(place: Place, property: string): CstNode[] {
    const places: CstNode[] = [];
    const content = contentOf(place);
    if (content) collectIn(content, property, places);
    return places;
}

/** The keyword among a node's own words, where it is written. */
export function findKeyword(place: Place, keyword: string): CstNode | undefined {
    const content = contentOf(place);
    return content && findKeywordIn(content, keyword);
}

/** The braces of a node that ends with them, to its end where the closing one is missing; undefined without braces. */
export function blockOf(context: Lowering, place: Place): Span | undefined {
    const open = findKeyword(place, '{');
    return open && { file: context.file, start: open.offset, end: endOf(place) };
}

/** Whether a reference of two names is written with its dot, even where the second name is missing yet. */
export function hasDot(place: Place): boolean {
    let content = contentOf(place);
    // Most references are one name within wrappers of one child each; only others need a closer look.
    while (content?.length === 1) content = content[0] && contentOf(content[0]);
    return content !== undefined && findKeyword(place, '.') !== undefined;
}

function findIn(content: readonly CstNode[], property: string): CstNode | undefined {
    for (const child of content) {
        const assigned = propertyOf(child.grammarSource);
        if (assigned === property) return child;
        // A rule that hands on to another, such as a list of alternatives, wraps the words of the same syntax node.
        const inner = assigned === unassigned ? contentOf(child) : undefined;
        const place = inner && findIn(inner, property);
        if (place) return place;
    }
    return undefined;
}

function collectIn(content: readonly CstNode[], property: string, places: CstNode[]): void {
    for (const child of content) {
        const assigned = propertyOf(child.grammarSource);
        if (assigned === property) {
            places.push(child);
            continue;
        }
        const inner = assigned === unassigned ? contentOf(child) : undefined;
        if (inner) collectIn(inner, property, places);
    }
}

function findKeywordIn(content: readonly CstNode[], keyword: string): CstNode | undefined {
    for (const child of content) {
        if (keywordAt(child) === keyword) return child;
        const inner = propertyOf(child.grammarSource) === unassigned ? contentOf(child) : undefined;
        const found = inner && findKeywordIn(inner, keyword);
        if (found) return found;
    }
    return undefined;
}

// Comments are the only pieces of the tree that no piece of the grammar accounts for.
function isComment(place: Place | undefined): boolean {
    return place?.grammarSource === undefined;
}

function contentOf(place: Place): readonly CstNode[] | undefined {
    return (place as Partial<CompositeCstNode> | Point).content;
}

// Neither can be the name of a property.
/** A plain word, or a rule that hands on to another. */
const unassigned = '-';
/** A comment, or the left side of an operation: never the words of the node that is looked at. */
const foreign = '';

// There is one grammar, which lives as long as the program; a weak map would be slower to ask.
const properties = new Map<GrammarAST.AbstractElement, string>();

// The property that a piece of the grammar fills.
function propertyOf(source: GrammarAST.AbstractElement | undefined): string {
    if (!source) return foreign;
    const known = properties.get(source);
    if (known !== undefined) return known;
    const property = findProperty(source);
    properties.set(source, property);
    return property;
}

function findProperty(source: GrammarAST.AbstractElement): string {
    if (source.$type === 'Action') return foreign;
    for (let element: AstNode | undefined = source; element; element = element.$container) {
        if (element.$type === 'Assignment') return (element as GrammarAST.Assignment).feature;
    }
    return unassigned;
}
