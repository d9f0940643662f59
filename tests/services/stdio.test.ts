/** The bundled server as a process of its own: whole sessions as an editor has them. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { beforeAll, expect, onTestFinished, test } from 'vitest';
import {
    type CompletionList,
    type DocumentSymbol,
    type FoldingRange,
    type Hover,
    type InitializeResult,
    type Location,
    type LocationLink,
    LSPErrorCodes,
    type MarkupContent,
    type PublishDiagnosticsParams,
    type WorkspaceEdit,
} from 'vscode-languageserver';
import { runNode } from '../house/project.mjs';
import { type Session, startSession } from './session.js';

beforeAll(() => {
    expect(runNode('tests/house/build.mjs', ['server'])).toBe(0);
}, 120_000);

const lamp = `equipment lamp "Lamp" {
  part bulb "Bulb" { fault dark }
  test light "Light?" { observe by eye  normal yes  none no }
}
`;
const tree = `uses "lamp.fault"

tree no-light "No light" of lamp {
  complaint light none
  step look { test light { normal -> fine  none -> bad } }
  conclude bad { bulb }
  refer fine because "It gives light"
}
`;

function plant(files: Readonly<Record<string, string>>): string {
    const folder = mkdtempSync(join(tmpdir(), 'halfsplit-stdio-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    for (const [path, text] of Object.entries(files)) {
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        writeFileSync(join(folder, path), text);
    }
    return folder;
}

interface Started extends Session {
    readonly capabilities: InitializeResult['capabilities'];
}

async function start(folder: string, folders: readonly string[] | null = ['']): Promise<Started> {
    const session = startSession(folder);
    const workspaceFolders = folders?.map(name => ({ uri: session.uriOf(name).replace(/\/$/, ''), name })) ?? null;
    const { result } = await session.request<InitializeResult>('initialize', {
        processId: process.pid,
        rootUri: null,
        workspaceFolders,
        capabilities: { workspace: { workspaceFolders: true, didChangeWatchedFiles: { dynamicRegistration: true } } },
    });
    session.notify('initialized', {});
    return { ...session, capabilities: result.capabilities };
}

async function end({ request, notify, exited, logged, errorOutput }: Session): Promise<void> {
    expect((await request('shutdown')).result).toBeNull();
    notify('exit');
    expect(await exited).toBe(0);
    expect(logged).toEqual([]);
    expect(errorOutput()).toBe('');
}

/** A request at the first place of a word in a text. */
function at(session: Session, file: string, text: string, word: string): object {
    const before = text.slice(0, text.indexOf(word)).split('\n');
    const position = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
    return { textDocument: { uri: session.uriOf(file) }, position, context: { includeDeclaration: true } };
}

const codes = ({ diagnostics }: PublishDiagnosticsParams): unknown[] => diagnostics.map(({ code }) => code);

test('a session from its start to its end', async () => {
    const folder = plant({ 'lamp.fault': lamp, 'tree.fault': tree });
    const session = await start(folder);
    expect(session.capabilities).toMatchObject({
        completionProvider: { triggerCharacters: ['.'] },
        definitionProvider: true,
        documentFormattingProvider: true,
        renameProvider: { prepareProvider: true },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    });

    const wrong = tree.replace('complaint light', 'complaint lihgt');
    session.write('tree.fault', 1, wrong);
    const told = await session.diagnostics('tree.fault', ({ version }) => version === 1);
    expect(codes(told)).toContain('unknown-name');
    session.write('tree.fault', 2, tree);
    const mended = await session.diagnostics('tree.fault', ({ version }) => version === 2);
    expect(codes(mended)).not.toContain('unknown-name');

    const place = at(session, 'tree.fault', tree, 'light none');
    const [definition] = (await session.request<LocationLink[]>('textDocument/definition', place)).result;
    expect(definition).toMatchObject({
        targetUri: session.uriOf('lamp.fault'),
        targetSelectionRange: { start: { line: 2 } },
    });
    expect((await session.request<Location[]>('textDocument/references', place)).result).toHaveLength(3);
    expect((await session.request('textDocument/documentHighlight', place)).result).toHaveLength(2);
    expect((await session.request<Hover>('textDocument/hover', place)).result.contents as MarkupContent).toMatchObject({
        value: expect.stringContaining('Light?') as string,
    });
    const completion = (await session.request<CompletionList>('textDocument/completion', place)).result;
    expect(completion.items.map(({ label }) => label)).toContain('light');
    expect((await session.request('textDocument/prepareRename', place)).result).toBeTruthy();
    const renamed = (await session.request<WorkspaceEdit>('textDocument/rename', { ...place, newName: 'glow' })).result;
    expect(Object.keys(renamed.changes ?? {}).sort()).toEqual([
        session.uriOf('lamp.fault'),
        session.uriOf('tree.fault'),
    ]);
    const [symbol] = (await session.request<DocumentSymbol[]>('textDocument/documentSymbol', place)).result;
    expect(symbol?.children?.map(({ name }) => name)).toEqual(['look', 'bad', 'fine']);
    expect((await session.request<FoldingRange[]>('textDocument/foldingRange', place)).result).toHaveLength(1);
    expect((await session.request('workspace/symbol', { query: 'no-light' })).result).toHaveLength(1);
    const options = { tabSize: 2, insertSpaces: true };
    expect((await session.request('textDocument/formatting', { ...place, options })).result).toBeInstanceOf(Array);
    await end(session);
});

test('a refused name is answered with the reason', async () => {
    const session = await start(plant({ 'tree.fault': tree, 'lamp.fault': lamp }));
    session.write('tree.fault', 1, tree);
    const place = at(session, 'tree.fault', tree, 'bad }');
    const { error } = await session.request('textDocument/rename', { ...place, newName: 'fine' });
    expect(error?.message).toBe('There is a referral called `fine` in tree `no-light` already.');
    await end(session);
});

test('an answer goes by the newest text, however fast somebody types', async () => {
    const session = await start(plant({ 'lamp.fault': lamp }));
    const texts = Array.from({ length: 60 }, (_, index) => `${'\n'.repeat(index)}${tree}`);
    const answers = texts.map((text, index) => {
        session.write('tree.fault', index + 1, text);
        return session.request<LocationLink[]>('textDocument/definition', at(session, 'tree.fault', text, 'bad }'));
    });
    const settled = await Promise.all(answers);
    for (const [index, { result, error }] of settled.entries()) {
        // Whoever types while the server still starts is told to ask again, and never gets a wrong place.
        if (error) expect(error.code).toBe(LSPErrorCodes.ContentModified);
        else expect(result[0]?.targetSelectionRange.start).toEqual({ line: index + 5, character: 11 });
    }
    expect(settled.at(-1)?.error).toBeUndefined();
    const last = await session.diagnostics('tree.fault', ({ version }) => version === texts.length);
    expect(codes(last)).not.toContain('unknown-name');
    await end(session);
});

test('a file that is opened without any folder brings in what it uses', async () => {
    const folder = plant({ 'lamp.fault': lamp, 'tree.fault': tree, 'other.fault': 'tree' });
    const session = await start(folder, null);
    session.write('tree.fault', 1, tree);
    const told = await session.diagnostics('tree.fault', ({ version }) => version === 1);
    expect(codes(told)).not.toContain('unknown-name');
    await end(session);
});

test('any name of a file works', async () => {
    const name = 'lämp #1 100% {a}.fault';
    const text = tree.replace('lamp.fault', name);
    const session = await start(plant({ [name]: lamp, 'a b/x': '', 'tree.fault': text }));
    session.write('tree.fault', 1, text);
    const place = at(session, 'tree.fault', text, 'light none');
    const [definition] = (await session.request<LocationLink[]>('textDocument/definition', place)).result;
    expect(definition?.targetUri.replaceAll('%7B', '{').replaceAll('%7D', '}')).toBe(
        session.uriOf(name).replaceAll('%7B', '{').replaceAll('%7D', '}'),
    );
    await end(session);
});

test('a text without a file works', async () => {
    const session = await start(plant({}), null);
    const uri = 'untitled:Untitled-1';
    const text = 'uses "lamp.fault"\ntree t of lamp { step a { go a } }';
    session.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'fault', version: 1, text } });
    const place = { textDocument: { uri }, position: { line: 1, character: 29 } };
    const [definition] = (await session.request<LocationLink[]>('textDocument/definition', place)).result;
    expect(definition).toMatchObject({ targetUri: uri, targetSelectionRange: { start: { line: 1, character: 22 } } });
    session.notify('textDocument/didClose', { textDocument: { uri } });
    await end(session);
});

test('a folder can come and go', async () => {
    const folder = plant({
        'one/lamp.fault': lamp,
        'one/tree.fault': tree.replace('complaint light', 'complaint lihgt'),
    });
    const session = await start(folder, []);
    const one = { uri: session.uriOf('one'), name: 'one' };
    session.notify('workspace/didChangeWorkspaceFolders', { event: { added: [one], removed: [] } });
    await session.diagnostics('one/tree.fault', told => codes(told).includes('unknown-name'));
    session.notify('workspace/didChangeWorkspaceFolders', { event: { added: [], removed: [one] } });
    await session.diagnostics('one/tree.fault', told => codes(told).length === 0);
    await end(session);
});

test('no link leads the server out of the folder', async () => {
    const outside = plant({ 'secret.fault': 'equipment secret { }' });
    const linked = 'uses "link.fault"\nuses "inner/secret.fault"\ntree t of secret { }';
    const folder = plant({ 'tree.fault': linked });
    symlinkSync(join(outside, 'secret.fault'), join(folder, 'link.fault'));
    symlinkSync(outside, join(folder, 'inner'));
    const session = await start(folder);
    session.write('tree.fault', 1, linked);
    await session.diagnostics('tree.fault', ({ version, diagnostics }) => version === 1 && diagnostics.length > 0);
    const { result } = await session.request('textDocument/definition', at(session, 'tree.fault', linked, 'secret {'));
    expect(result).toBeNull();
    expect((await session.request('workspace/symbol', { query: 'secret' })).result).toEqual([]);
    await end(session);
});

test('a link within the folder is followed, and ends where it has been', async () => {
    const folder = plant({ 'shop/lamp.fault': lamp, 'tree.fault': tree.replace('lamp.fault', 'link/lamp.fault') });
    symlinkSync(join(folder, 'shop'), join(folder, 'link'));
    symlinkSync(folder, join(folder, 'shop', 'circle'));
    const session = await start(folder);
    session.write('tree.fault', 1, tree.replace('lamp.fault', 'link/lamp.fault'));
    const told = await session.diagnostics('tree.fault', ({ version }) => version === 1);
    expect(codes(told)).not.toContain('unknown-name');
    expect((await session.request('workspace/symbol', { query: 'bulb' })).result).toHaveLength(2);
    await end(session);
});

test('wrong requests and hostile texts are survived', async () => {
    const session = await start(plant({ 'tree.fault': tree }));
    expect((await session.request('textDocument/nonsense', {})).error).toBeTruthy();
    const nowhere = { textDocument: { uri: session.uriOf('gone.fault') }, position: { line: 5, character: 5 } };
    await session.request('textDocument/definition', nowhere);
    session.write('tree.fault', 1, tree);
    const far = { textDocument: { uri: session.uriOf('tree.fault') }, position: { line: 99_999, character: 99_999 } };
    for (const method of ['definition', 'hover', 'completion', 'references', 'documentHighlight']) {
        const { error } = await session.request(`textDocument/${method}`, { ...far, context: {} });
        expect(error).toBeUndefined();
    }
    const hostile = [
        '\0',
        '{'.repeat(50_000),
        '"',
        `tree t { ${'step '.repeat(20_000)}`,
        '\uD800',
        'a'.repeat(200_000),
    ];
    for (const [index, text] of hostile.entries()) {
        session.write('tree.fault', index + 2, text);
        await session.diagnostics('tree.fault', ({ version }) => version === index + 2);
        const start = { textDocument: far.textDocument, position: { line: 0, character: 1 } };
        for (const method of ['completion', 'documentSymbol', 'foldingRange', 'hover']) {
            expect((await session.request(`textDocument/${method}`, start)).error).toBeUndefined();
        }
    }
    session.write('tree.fault', 100, tree);
    await session.diagnostics('tree.fault', ({ version }) => version === 100);
    await end(session);
});

test('leaving without a shutdown is status 1, as the protocol has it', async () => {
    const session = await start(plant({}));
    session.notify('exit');
    expect(await session.exited).toBe(1);
});
