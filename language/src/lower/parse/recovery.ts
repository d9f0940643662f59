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
    flattenFollowSet(): readonly TokenType[];
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
}

/** After so many errors the rest of a file is not read: it is no `.fault` file. */
export const mostErrors = 200;

/** Replaces the library's recovery. Call `reset` before each file. */
export function installRecovery(engine: Engine, hooks: RecoveryHooks): { readonly reset: () => void } {
    let errors = 0;
    let skips: Int32Array | undefined;
    const next = (index: number): number => {
        skips ??= afterBlocks(engine.tokVector);
        return skips[index] ?? index + 1;
    };
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
    engine.tryInRepetitionRecovery = (repetition, args, canRepeat, after) => {
        const start = engine.currIdx;
        const stops = typeNumbers(engine.flattenFollowSet());
        const error = hooks.makeError(engine.LA(1), engine.LA(0));
        for (;;) {
            const token = engine.LA(1);
            const repeat = token.tokenTypeIdx !== after.tokenTypeIdx && canRepeat.call(engine);
            if (token.tokenTypeIdx === after.tokenTypeIdx || repeat) {
                engine.SAVE_ERROR(error);
                if (repeat) {
                    repetition.apply(engine, [...args]);
                }
                return;
            }
            if (stops.has(token.tokenTypeIdx)) {
                // A rule further out can go on here; the error is found again there.
                engine.currIdx = start;
                return;
            }
            engine.currIdx = next(engine.currIdx + 1) - 1;
        }
    };
    engine.findReSyncTokenType = () => {
        const stops = new Map(engine.flattenFollowSet().map(type => [type.tokenTypeIdx, type]));
        for (let index = engine.currIdx + 1; ; index = next(index)) {
            const token = engine.tokVector[index] ?? engine.LA(engine.tokVector.length);
            const stop = stops.get(token.tokenTypeIdx);
            if (stop !== undefined) {
                return stop;
            }
        }
    };
    engine.reSyncTo = type => {
        const skipped: Token[] = [];
        while (engine.LA(1).tokenTypeIdx !== type.tokenTypeIdx) {
            skipped.push(engine.LA(1));
            engine.currIdx = next(engine.currIdx + 1) - 1;
        }
        return skipped;
    };
    return {
        reset: () => {
            errors = 0;
            skips = undefined;
        },
    };
}

// For each token the index behind it, and for an opening brace the index behind its closing brace.
function afterBlocks(tokens: readonly Token[]): Int32Array {
    const after = new Int32Array(tokens.length);
    const open: number[] = [];
    tokens.forEach((token, index) => {
        after[index] = index + 1;
        if (token.tokenType.name === '{') {
            open.push(index);
        } else if (token.tokenType.name === '}') {
            const start = open.pop();
            if (start !== undefined) {
                after[start] = index + 1;
            }
        }
    });
    return after;
}

function typeNumbers(types: readonly TokenType[]): ReadonlySet<number | undefined> {
    return new Set(types.map(({ tokenTypeIdx }) => tokenTypeIdx));
}
