// Where the server tells of its own failures: the client's output, or the error output where nobody is connected.

import type { Connection } from 'vscode-languageserver';

/** Takes failures of the server itself, never findings about a file. */
export interface Log {
    /** A failure that was survived; `feature` says what did not work. */
    failure(feature: string, problem: unknown): void;
}

export function makeLog(connection: Pick<Connection, 'console'> | undefined): Log {
    return {
        failure: (feature, problem) => {
            const words = `${feature} failed: ${describe(problem)}`;
            if (connection) connection.console.error(words);
            else console.error(words);
        },
    };
}

function describe(problem: unknown): string {
    return problem instanceof Error ? (problem.stack ?? problem.message) : String(problem);
}
