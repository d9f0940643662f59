// Keeps one feature's failure from becoming the server's: an exception is logged and the answer is empty.

import { isOperationCancelled } from 'langium';
import { ResponseError } from 'vscode-languageserver';
import type { Log } from './log.js';

/**
 * The same service, with every method guarded. A cancelled request and a refusal that is meant for the writer
 * (such as a new name that cannot be used) go through; everything else gives no answer, and the server goes on.
 */
export function guarded<T extends object>(feature: string, service: T, log: Log): T {
    return new Proxy(service, {
        get(target, property, receiver) {
            const value: unknown = Reflect.get(target, property, receiver);
            if (typeof value !== 'function') return value;
            const method = value as (...args: unknown[]) => unknown;
            return (...args: unknown[]) => callGuarded(feature, () => method.apply(target, args), log);
        },
    });
}

/** Runs one action; undefined where it fails, and the failure is logged. */
export function callGuarded<T>(feature: string, action: () => T, log: Log): T | undefined {
    try {
        const answer = action();
        return answer instanceof Promise
            ? (answer.catch((problem: unknown) => survive(feature, problem, log)) as T)
            : answer;
    } catch (problem) {
        return survive(feature, problem, log);
    }
}

function survive(feature: string, problem: unknown, log: Log): undefined {
    // eslint-disable-next-line @typescript-eslint/only-throw-error -- Langium cancels with a symbol
    if (isOperationCancelled(problem) || problem instanceof ResponseError) throw problem;
    log.failure(feature, problem);
    return undefined;
}
