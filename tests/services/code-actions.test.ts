/** Quick fixes are the mends of the findings. */
import { expect, test } from 'vitest';
import { TextDocument } from 'langium';
import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import { fileOf, openWorld, type Files, type World } from './world.js';

async function actionsIn(world: World, file: string, only?: string[]): Promise<CodeAction[]> {
    const document = world.documentOf(file);
    const diagnostics = [...world.diagnosticsOf(file)];
    const range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
    const actions = await world.fault.lsp.CodeActionProvider?.getCodeActions(document, {
        textDocument: { uri: document.uri.toString() },
        range,
        context: { diagnostics, ...(only ? { only } : {}) },
    });
    expect(world.failures).toEqual([]);
    return (actions ?? []) as CodeAction[];
}

/** Opens the first file and takes the quick fix with this title; gives the texts that it changes. */
async function fix(files: Files, title: string): Promise<Record<string, string>> {
    const world = await openWorld(files);
    const [[file, text] = ['', '']] = Object.entries(files);
    await world.type(file, text);
    const action = (await actionsIn(world, file)).find(one => one.title === title);
    if (!action) throw new Error(`There is no quick fix ${title}`);
    const changed = Object.entries(action.edit?.changes ?? {}).map(([uri, edits]) => {
        const { textDocument } = world.documentOf(fileOf(uri));
        return [fileOf(uri), TextDocument.applyEdits(textDocument, edits)] as const;
    });
    return Object.fromEntries(changed);
}

test('writes the name that was meant', async () => {
    expect(await fix({ 'a.fault': 'equipment lamp { }\ntree t of lapm { }' }, 'Write `lamp`')).toEqual({
        'a.fault': 'equipment lamp { }\ntree t of lamp { }',
    });
});

test('adds the file that declares the name', async () => {
    const files = { 'a.fault': 'tree t of lamp { }', 'shop/lamp.fault': 'equipment lamp { }' };
    expect(await fix(files, 'Add `uses "shop/lamp.fault"`')).toEqual({
        'a.fault': 'uses "shop/lamp.fault"\n\ntree t of lamp { }',
    });
});

test('belongs to its finding, and is the preferred one only where it is safe and alone', async () => {
    const world = await openWorld({ 'a.fault': 'tree t of lamp { }', 'lamp.fault': 'equipment lamp { }' });
    await world.type('a.fault', 'tree t of lamp { }');
    const action = (await actionsIn(world, 'a.fault')).find(({ title }) => title.startsWith('Add `uses'));
    expect(action).toMatchObject({ kind: CodeActionKind.QuickFix, isPreferred: true });
    expect(action?.diagnostics?.map(({ code }) => code)).toEqual(['unknown-name']);
});

test('is not offered for another version of the text, nor where no quick fix is asked for', async () => {
    const world = await openWorld({ 'a.fault': 'equipment lamp { }\ntree t of lapm { }' });
    await world.type('a.fault', 'equipment lamp { }\ntree t of lapm { }');
    expect((await actionsIn(world, 'a.fault', [CodeActionKind.QuickFix])).length).toBeGreaterThan(0);
    expect(await actionsIn(world, 'a.fault', [CodeActionKind.Refactor])).toEqual([]);
    const stale = world.diagnosticsOf('a.fault');
    world.hear('a.fault', 'equipment lamp { }\n\ntree t of lapm { }');
    expect(world.diagnosticsOf('a.fault')).toBe(stale);
    expect(await actionsIn(world, 'a.fault')).toEqual([]);
});
