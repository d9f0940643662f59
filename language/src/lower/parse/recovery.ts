// How reading goes on after text that the grammar does not allow: at the next statement or at the end of the block,
// over whole blocks in between, and never over the same stretch again and again.
//
// It replaces methods of the parser library under Langium (Chevrotain 13.2); the tests fail if a later version lacks one of them.

import type { Token, TokenType } from './token.js';

/** The parts of the parser library that recovery uses or replaces. */
export interface Engine {
    /** The index of the last token that was used. */
    currIdx: number;
    /** The tokens, and while the library reads a few empty ones behind them. */
    readonly tokVector: readonly Token[];
    readonly tokVectorLength: number;
    LA(ahead: number): Token;
    getHumanReadableRuleStack(): readonly string[];
    buildFullFollowKeyStack(): readonly unknown[];
    getFollowSetFromFollowKey(key: unknown): readonly TokenType[];
    canTokenTypeBeInsertedInRecovery(type: TokenType): boolean;
    canRecoverWithSingleTokenDeletion(type: TokenType): boolean;
    moveToTerminatedState(): void;
    SAVE_ERROR(error: EngineError): EngineError;
    raiseNoAltException(occurrence: number, message: string | undefined): never;
    tryInRepetitionRecovery(
        repetition: (...args: unknown[]) => unknown,
        args: readonly unknown[],
        canRepeat: () => boolean,
        after: TokenType,
    ): void;
    findReSyncTokenType(): TokenType;
    reSyncTo(type: TokenType): Token[];
}

/** An error of the parser library: which text was not allowed, and the message. */
export interface EngineError extends Error {
    token: Token;
    previousToken?: Token;
    resyncedTokens: Token[];
}

/** What recovery asks and tells. */
export interface RecoveryHooks {
    /** Makes the error for text that is not allowed. */
    makeError(actual: Token, previous: Token): EngineError;
    /** Hears of every error when it occurs. */
    noticed(error: EngineError): void;
    /** Whether a rule of the grammar, by its name there, has a block between braces. */
    hasBlock(rule: string): boolean;
}

/** After so many errors the rest of a file is not read: it is no `.fault` file. */
export const mostErrors = 200;

/** Replaces the library's recovery. Call `reset` before each file. */
export function installRecovery(engine: Engine, hooks: RecoveryHooks): { readonly reset: () => void } {
    let errors = 0;
    let blocks: Blocks | undefined;
    let stopAt = 0;
    const seeBlocks = (): Blocks => (blocks ??= findBlocks(engine.tokVector));
    const next = (index: number): number => seeBlocks().after[index] ?? index + 1;
    const saveError = engine.SAVE_ERROR.bind(engine);
    engine.SAVE_ERROR = error => {
        saveError(error);
        hooks.noticed(error);
        errors += 1;
        if (errors >= mostErrors) {
            engine.moveToTerminatedState();
        }
        return error;
    };
    engine.raiseNoAltException = () => {
        throw engine.SAVE_ERROR(hooks.makeError(engine.LA(1), engine.LA(0)));
    };
    keepBraces(engine);
    engine.tryInRepetitionRecovery = (repetition, args, canRepeat, after) => {
        if (goOnInRepetition(engine, hooks, next, { canRepeat, after })) {
            repetition.apply(engine, [...args]);
        }
    };
    engine.findReSyncTokenType = () => {
        const stops = makeStops(engine);
        const { tokVector: tokens, tokVectorLength: count } = engine;
        stopAt = engine.currIdx + 1;
        if (isInBlock(engine, hooks, seeBlocks())) {
            while (stopAt < count && tokens[stopAt]?.tokenType.name !== '}') {
                stopAt = next(stopAt);
            }
            stopAt += 1;
        }
        for (; stopAt < count; stopAt = next(stopAt)) {
            const token = tokens[stopAt];
            const stop = token === undefined ? undefined : stops(token, tokens[stopAt - 1]);
            if (stop !== undefined) {
                return stop;
            }
        }
        stopAt = count;
        return endOfFile(engine);
    };
    // The library asks for this right after it was told where to go on.
    engine.reSyncTo = () => {
        const skipped = engine.tokVector.slice(engine.currIdx + 1, stopAt);
        engine.currIdx = stopAt - 1;
        return skipped;
    };
    return {
        reset: () => {
            errors = 0;
            blocks = undefined;
        },
    };
}

// Skips what a repetition does not allow. Returns whether it goes on then; it may also end there,
// or leave what it cannot use to rules further out, which find the error again.
function goOnInRepetition(
    engine: Engine,
    hooks: RecoveryHooks,
    next: (index: number) => number,
    { canRepeat, after }: { readonly canRepeat: () => boolean; readonly after: TokenType },
): boolean {
    const start = engine.currIdx;
    // Up to the closing brace of its own block, a repetition leaves nothing to rules further out.
    const stops = isBrace(after) ? atEndOnly : makeStops(engine);
    const error = hooks.makeError(engine.LA(1), engine.LA(0));
    for (;;) {
        const token = engine.LA(1);
        const ends = token.tokenTypeIdx === after.tokenTypeIdx;
        if (ends || canRepeat.call(engine)) {
            engine.SAVE_ERROR(error);
            return !ends;
        }
        if (stops(token, engine.LA(0)) !== undefined) {
            engine.currIdx = start;
            return false;
        }
        engine.currIdx = next(engine.currIdx + 1) - 1;
    }
}

// The braces pair off before the parser sees them: it must neither invent one nor leave one out.
function keepBraces(engine: Engine): void {
    engine.canTokenTypeBeInsertedInRecovery = type => !isBrace(type);
    const canDelete = engine.canRecoverWithSingleTokenDeletion.bind(engine);
    engine.canRecoverWithSingleTokenDeletion = type => !isBrace(engine.LA(1).tokenType) && canDelete(type);
}

// Whether the rule that reading is in has opened its block: then it ends behind the block's closing brace, not before.
function isInBlock(engine: Engine, hooks: RecoveryHooks, { depth }: Blocks): boolean {
    const rules = engine.getHumanReadableRuleStack();
    const withBlock = rules.filter(rule => hooks.hasBlock(rule));
    return hooks.hasBlock(rules.at(-1) ?? '') && depth[engine.currIdx + 1] === withBlock.length;
}

/** Tells by a token and the one before it whether reading can go on there, and by which type. */
type Stops = (token: Token, before: Token | undefined) => TokenType | undefined;

// Reading can go on at what the innermost block allows, and at the beginning of a line or at a closing brace
// also at what a block further out allows. Within a line words of outer blocks are hardly meant:
// `cannot` begins a statement of a tree, but also a clause of what is to be done in a step.
function makeStops(engine: Engine): Stops {
    const inner = new Map<number | undefined, TokenType>();
    const outer = new Map<number | undefined, TokenType>();
    let isOuter = false;
    for (const key of [...engine.buildFullFollowKeyStack()].reverse()) {
        const types = engine.getFollowSetFromFollowKey(key);
        types.forEach(type => (isOuter ? outer : inner).set(type.tokenTypeIdx, type));
        isOuter ||= types.some(isBrace);
    }
    return (token, before) => {
        const counts = isEnd(token) || isBrace(token.tokenType) || token.startLine !== before?.endLine;
        return inner.get(token.tokenTypeIdx) ?? (counts ? outer.get(token.tokenTypeIdx) : undefined);
    };
}

function atEndOnly(token: Token): TokenType | undefined {
    return isEnd(token) ? token.tokenType : undefined;
}

function endOfFile(engine: Engine): TokenType {
    return engine.LA(engine.tokVectorLength + 1).tokenType;
}

function isBrace({ name }: TokenType): boolean {
    return name === '{' || name === '}';
}

// The library's token for the end of the file has no place.
function isEnd(token: Token): boolean {
    return !(token.startOffset >= 0);
}

interface Blocks {
    /** For each token the index behind it, and for an opening brace the index behind its closing brace. */
    readonly after: Int32Array;
    /** For each token how many blocks are open before it. */
    readonly depth: Int32Array;
}

function findBlocks(tokens: readonly Token[]): Blocks {
    const after = new Int32Array(tokens.length);
    const depth = new Int32Array(tokens.length);
    const open: number[] = [];
    tokens.forEach((token, index) => {
        after[index] = index + 1;
        depth[index] = open.length;
        if (token.tokenType.name === '{') {
            open.push(index);
        } else if (token.tokenType.name === '}') {
            const start = open.pop();
            if (start !== undefined) {
                after[start] = index + 1;
            }
        }
    });
    return { after, depth };
}
