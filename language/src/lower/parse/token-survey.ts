// One quick pass over the tokens of a file: what is stray, how deep it nests, and whether its braces pair off.

import { deepestNesting, longestCalculation } from './limits.js';
import { strayNames } from './token-builder.js';
import type { Token, TokenTypes } from './token.js';

/** What a pass over the tokens saw. */
export interface Survey {
    /** Whether there are tokens of the types that the token builder added. */
    readonly stray: boolean;
    /** How many `}` have no `{` before them. */
    readonly surplusBraces: number;
    /** How many `{` have no `}` after them. */
    readonly missingBraces: number;
    /** The first token at which a limit is passed, and which; undefined where all limits are kept. */
    readonly limit: { readonly index: number; readonly sort: 'nesting' | 'calculation' } | undefined;
}

/**
 * Sorts the token types once, so that the pass over the tokens only looks up numbers.
 * `nameWords` are the words of the language that may also be names.
 */
export function makeSurveyor(
    definition: TokenTypes,
    nameWords: ReadonlySet<string>,
): (tokens: readonly Token[]) => Survey {
    const roles: number[] = [];
    for (const [name, type] of Object.entries(definition)) {
        roles[type.tokenTypeIdx ?? 0] = nameWords.has(name) ? operand : roleOf(name);
    }
    return tokens => survey(tokens, roles);
}

const plain = 0;
const openBrace = 1;
const closeBrace = 2;
const openBracket = 3;
const closeBracket = 4;
const negation = 5;
const sign = 6;
/** What may stand in a calculation without ending it. */
const operand = 7;
const strayRole = 8;

const rolesByName: Readonly<Record<string, number>> = {
    '{': openBrace,
    '}': closeBrace,
    '(': openBracket,
    '[': openBracket,
    ')': closeBracket,
    ']': closeBracket,
    not: negation,
    '+': sign,
    '-': sign,
    '−': sign,
    '*': sign,
    '×': sign,
    '/': sign,
    '÷': sign,
    ',': operand,
    '.': operand,
    ID: operand,
    AMOUNT: operand,
};

function roleOf(name: string): number {
    if ((Object.values(strayNames) as string[]).includes(name)) {
        return strayRole;
    }
    return Object.hasOwn(rolesByName, name) ? (rolesByName[name] ?? plain) : plain;
}

// Depth counts every open bracket and every `not` whose operand is not complete, because each makes the parser call itself.
function survey(tokens: readonly Token[], roles: readonly number[]): Survey {
    const depthBefore: number[] = [];
    let depth = 0;
    let negations = 0;
    let signs = 0;
    let braces = 0;
    let surplusBraces = 0;
    let stray = false;
    let limit: Survey['limit'];
    for (let index = 0; index < tokens.length; index += 1) {
        const role = roles[tokens[index]?.tokenTypeIdx ?? 0] ?? plain;
        if (role === operand || role === plain) {
            negations = 0;
            signs = role === plain ? 0 : signs;
            continue;
        }
        switch (role) {
            case openBrace:
            case openBracket:
                depthBefore.push(depth);
                depth += 1 + negations;
                negations = 0;
                break;
            case closeBrace:
            case closeBracket:
                depth = depthBefore.pop() ?? 0;
                negations = 0;
                break;
            case negation:
                negations += 1;
                break;
            case sign:
                signs += 1;
                break;
            default:
                stray = true;
        }
        if (role === openBrace) {
            braces += 1;
        } else if (role === closeBrace && braces > 0) {
            braces -= 1;
        } else if (role === closeBrace) {
            surplusBraces += 1;
        }
        limit ??= passedLimit(index, depth + negations, signs);
    }
    return { stray, surplusBraces, missingBraces: braces, limit };
}

function passedLimit(index: number, depth: number, signs: number): Survey['limit'] {
    if (depth > deepestNesting) {
        return { index, sort: 'nesting' };
    }
    return signs > longestCalculation ? { index, sort: 'calculation' } : undefined;
}
