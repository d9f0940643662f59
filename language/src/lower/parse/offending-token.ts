// Finds the token that really is not allowed: the parser looks ahead and may give up tokens before it.

import { expectedAfter, type Expected, type ExpectedLevel, type GrammarPlace } from './expected-words.js';
import type { Token } from './token.js';

/** The index of a token that is not allowed, and what may stand there instead. */
export interface Offending {
    readonly index: number;
    readonly levels: readonly ExpectedLevel[];
}

/**
 * Goes on from token `index`, where `levels` is expected, as long as the tokens are allowed.
 */
export function findOffending(tokens: readonly Token[], { index, levels }: Offending): Offending {
    let expected = levels;
    for (let ahead = 0; ahead < mostAhead; ahead += 1) {
        const token = tokens[index + ahead];
        const places = token === undefined ? [] : placesBehind(token, expected);
        if (places.length === 0) {
            return { index: index + ahead, levels: expected };
        }
        expected = expectedAfter(places);
    }
    return { index, levels };
}

/** So far the parser looks ahead at most; more is a list, which needs no look ahead. */
const mostAhead = 12;

function placesBehind(token: Token, levels: readonly ExpectedLevel[]): readonly GrammarPlace[] {
    return levels
        .flatMap(({ steps }) => steps)
        .filter(({ thing }) => fits(token.tokenType.name, thing))
        .map(({ place }) => place);
}

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
