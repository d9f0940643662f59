// Finds what may stand at a place of a half-written file, from the words before it and the grammar alone.

import { GrammarAST } from 'langium';
import {
    expectedAfter,
    expectedAtStart,
    type Expected,
    type ExpectedLevel,
    type GrammarPlace,
    type Step,
} from '../lower/parse/expected-words.js';
import { isReal, type Token } from '../lower/parse/token.js';

/**
 * What may follow the tokens, the innermost rule first. Blocks that are closed are passed over at once,
 * and behind text that the grammar does not allow it goes on at the next line that fits, so that a slip
 * further up does no harm.
 */
export function expectedBehind(tokens: readonly Token[], grammar: GrammarAST.Grammar): readonly ExpectedLevel[] {
    const real = tokens.filter(isReal);
    const closing = pairBraces(real);
    const blocks: (readonly ExpectedLevel[])[] = [expectedAtStart(grammar)];
    let expected = blocks[0] ?? [];
    for (let index = 0; index < real.length; index += 1) {
        const token = real[index] as Token;
        const places = placesBehind(token, expected);
        const close = token.tokenType.name === '{' ? closing.get(index) : undefined;
        if (places.length === 0) {
            const next = findAnew(real, index, blocks.at(-1) ?? [], closing);
            expected = next.lost ? [] : (blocks.at(-1) ?? []);
            if (next.lost) blocks.push([]);
            index = next.index - 1;
        } else if (close !== undefined) {
            expected = expectedAfter(places.flatMap(closingPlace));
            index = close;
        } else {
            expected = expectedAfter(places);
            if (token.tokenType.name === '{') blocks.push(expected);
        }
    }
    return expected;
}

/** The ways to go on that a token takes. */
function placesBehind(token: Token, levels: readonly ExpectedLevel[]): readonly GrammarPlace[] {
    return levels
        .flatMap(({ steps }) => steps)
        .filter(({ thing }) => fits(token.tokenType.name, thing))
        .slice(0, mostPlaces)
        .map(({ place }) => place);
}

/** More ways at once would only be the same way found again. */
const mostPlaces = 8;

function fits(type: string, thing: Expected): boolean {
    switch (thing.sort) {
        case 'word':
            return type === thing.word;
        case 'text':
            return type === 'TEXT';
        case 'amount':
            return type === 'AMOUNT';
        default:
            return type === 'ID' || thing.words.has(type);
    }
}

/** From behind a `{` to behind its `}`, which stands in the same group of the grammar. */
function closingPlace({ element, caller }: GrammarPlace): readonly GrammarPlace[] {
    const group = element.$container;
    if (!GrammarAST.isGroup(group)) return [];
    const close = group.elements.find(other => GrammarAST.isKeyword(other) && other.value === '}');
    return close ? [{ element: close, caller }] : [];
}

function pairBraces(tokens: readonly Token[]): ReadonlyMap<number, number> {
    const pairs = new Map<number, number>();
    const open: number[] = [];
    tokens.forEach(({ tokenType: { name } }, index) => {
        if (name === '{') open.push(index);
        const start = name === '}' ? open.pop() : undefined;
        if (start !== undefined) pairs.set(start, index);
    });
    return pairs;
}

/** Where to go on: the next token that begins a line and fits into the block; `lost` in a block that nobody knows. */
function findAnew(
    tokens: readonly Token[],
    start: number,
    block: readonly ExpectedLevel[],
    closing: ReadonlyMap<number, number>,
): { readonly index: number; readonly lost: boolean } {
    for (let index = start; index < tokens.length; index += 1) {
        const token = tokens[index] as Token;
        if (token.tokenType.name === '{') {
            const close = closing.get(index);
            if (close === undefined) return { index: index + 1, lost: true };
            index = close;
            continue;
        }
        const beginsLine = token.startLine !== tokens[index - 1]?.endLine;
        if (index > start && beginsLine && placesBehind(token, block).length > 0) return { index, lost: false };
    }
    return { index: tokens.length, lost: false };
}

/** The steps of all levels, those of the nearest rule first. */
export function stepsOf(levels: readonly ExpectedLevel[]): readonly Step[] {
    return levels.flatMap(({ steps }) => steps);
}
