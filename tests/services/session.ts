/** A language client of a few lines: it starts the bundled server as a process and talks to it over its streams. */
import { type ChildProcess, spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { LogMessageParams, PublishDiagnosticsParams } from 'vscode-languageserver';
import { root } from '../house/project.mjs';

/** What the server answers to a request. */
export interface Answer<Result> {
    readonly result: Result;
    readonly error?: { readonly code: number; readonly message: string };
}

/** A message of the protocol, as far as this client looks into it. */
interface Message {
    readonly id?: number;
    readonly method?: string;
    readonly params?: object;
}

export interface Session {
    readonly uriOf: (file: string) => string;
    /** Asks, and trusts that the answer is what the protocol says. */
    readonly request: <Result>(method: string, params?: object) => Promise<Answer<Result>>;
    readonly notify: (method: string, params?: object) => void;
    /** Opens a text, or replaces the whole text of an open one. */
    readonly write: (file: string, version: number, text: string) => void;
    /** What the server tells about a file, as soon as it is what is asked for. */
    readonly diagnostics: (
        file: string,
        isGood: (told: PublishDiagnosticsParams) => boolean,
    ) => Promise<PublishDiagnosticsParams>;
    /** Messages that the server logged. */
    readonly logged: readonly string[];
    readonly errorOutput: () => string;
    readonly exited: Promise<number | null>;
}

const patience = 10_000;

/** Starts the server for a folder, on the Node of the tests or another. */
export function startSession(folder: string, node = process.execPath): Session {
    const server = spawn(node, [join(root, 'language/bin/halfsplit-language-server.cjs')], { cwd: folder });
    onTestFinished(() => void server.kill('SIGKILL'));
    const answers = new Map<number, (message: Message) => void>();
    const published: PublishDiagnosticsParams[] = [];
    const listeners = new Set<() => void>();
    const logged: string[] = [];
    let requests = 0;
    let errors = '';
    server.stderr.on('data', data => (errors += String(data)));
    const send = (message: object): void => {
        const body = JSON.stringify({ jsonrpc: '2.0', ...message });
        server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
    };
    listen(server, message => {
        if (message.id !== undefined && message.method !== undefined) send({ id: message.id, result: null });
        else if (message.id !== undefined) answers.get(message.id)?.(message);
        else if (message.method === 'window/logMessage') logged.push((message.params as LogMessageParams).message);
        else if (message.method === 'textDocument/publishDiagnostics') {
            published.push(message.params as PublishDiagnosticsParams);
        }
        listeners.forEach(listener => listener());
    });
    const uriOf = (file: string): string => pathToFileURL(join(folder, file)).href;
    const open = new Set<string>();
    const notify = (method: string, params?: object): void => send({ method, params });
    return {
        uriOf,
        notify,
        request: <Result>(method: string, params?: object) => {
            requests += 1;
            const id = requests;
            send({ id, method, params });
            const answer = new Promise<Message>(settle => answers.set(id, settle));
            return within(method, answer as Promise<Message & Answer<Result>>);
        },
        write: (file, version, text) => {
            const uri = uriOf(file);
            if (open.has(file)) {
                notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ text }] });
            } else {
                open.add(file);
                notify('textDocument/didOpen', { textDocument: { uri, languageId: 'fault', version, text } });
            }
        },
        diagnostics: (file, isGood) => {
            const find = (): PublishDiagnosticsParams | undefined =>
                published.findLast(told => told.uri === uriOf(file) && isGood(told));
            return within(
                `the diagnostics of ${file}`,
                new Promise(settle => {
                    const look = (): void => {
                        const found = find();
                        if (found) {
                            listeners.delete(look);
                            settle(found);
                        }
                    };
                    listeners.add(look);
                    look();
                }),
            );
        },
        logged,
        errorOutput: () => errors,
        exited: new Promise(settle => server.on('exit', settle)),
    };
}

/** Reads the messages that the server writes: a head that tells the length, and the body. */
function listen(server: ChildProcess, hear: (message: Message) => void): void {
    let buffer = Buffer.alloc(0);
    server.stdout?.on('data', (data: Buffer) => {
        buffer = Buffer.concat([buffer, data]);
        for (;;) {
            const head = buffer.indexOf('\r\n\r\n');
            const length = Number(/Content-Length: (\d+)/i.exec(buffer.toString('latin1', 0, Math.max(head, 0)))?.[1]);
            if (head < 0 || buffer.length < head + 4 + length) return;
            hear(JSON.parse(buffer.toString('utf8', head + 4, head + 4 + length)) as Message);
            buffer = buffer.subarray(head + 4 + length);
        }
    });
}

function within<T>(awaited: string, promise: Promise<T>): Promise<T> {
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<never>((_, fail) => {
        timer = setTimeout(() => fail(new Error(`waited in vain for ${awaited}`)), patience);
    });
    return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}
