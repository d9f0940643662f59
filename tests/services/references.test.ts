/** Find references and highlights tell every place of a name. */
import { expect, test } from 'vitest';
import { type Files, openAtCursor, tellPlaces } from './world.js';

/** Every place of the name at the cursor, sorted. */
async function refer(files: Files | string, includeDeclaration = true): Promise<string[]> {
    const { world, document, position, textDocument } = await openAtCursor(
        typeof files === 'string' ? { 'a.fault': files } : files,
    );
    const context = { includeDeclaration };
    const params = { position, textDocument, context };
    const places = await world.fault.lsp.ReferencesProvider?.findReferences(document, params);
    expect(world.failures).toEqual([]);
    return tellPlaces(world, places ?? []).sort();
}

/** The places that are highlighted in the cursor's file: `=` where a declaration stands. */
async function highlight(files: Files | string): Promise<string[]> {
    const { world, document, position, textDocument } = await openAtCursor(
        typeof files === 'string' ? { 'a.fault': files } : files,
    );
    const provider = world.fault.lsp.DocumentHighlightProvider;
    const found = (await provider?.getDocumentHighlight(document, { position, textDocument })) ?? [];
    return found.map(({ range, kind }) => `${kind === 3 ? '=' : ''}${document.textDocument.getText(range)}`);
}

const shop = {
    'lamp.fault':
        'equipment lamp {\n  part bulb { fault dark }\n  test light { normal yes }\n  flow f: bulb -> [light]\n}',
    'one.fault': 'uses "lamp.fault"\ntree one of lamp {\n  complaint light normal\n}',
    'two.fault': 'uses "lamp.fault"\ntree two of lamp {\n  complaint light normal\n}',
    'else.fault': 'equipment lamp { test light { normal yes } }',
};

test('tells every place in all files that use the declaration, and no other', async () => {
    expect(await refer({ ...shop, 'one.fault': shop['one.fault'].replace('light', 'li<|>ght') })).toEqual([
        'lamp.fault: flow f: bulb -> [<|light|>]',
        'lamp.fault: test <|light|> { normal yes }',
        'one.fault: complaint <|light|> normal',
        'two.fault: complaint <|light|> normal',
    ]);
});

test('leaves the declaration out where that is asked', async () => {
    expect(await refer({ ...shop, 'lamp.fault': shop['lamp.fault'].replace('bulb', '<|>bulb') }, false)).toEqual([
        'lamp.fault: flow f: <|bulb|> -> [light]',
    ]);
});

test('takes an outcome that stands several times as one', async () => {
    expect(
        await refer(`equipment e {
            condition c { on off }
            test t {
                normal < 1 V when c on
                normal > 5 V when c off
            }
            part p { fault f { makes t norm<|>al } }
        }`),
    ).toEqual([
        'a.fault: <|normal|> < 1 V when c on',
        'a.fault: <|normal|> > 5 V when c off',
        'a.fault: part p { fault f { makes t <|normal|> } }',
    ]);
});

test('takes a fault that a part repeats from its kind as one with it', async () => {
    expect(
        await refer(`
            kind relay { fault open }
            equipment e {
                part fuse { fault blown }
                part k1 is relay { fault open { causes fuse.blown } }
                part k2 is relay { fault stuck { causes k1.o<|>pen, k2.open } }
            }`),
    ).toEqual(
        [
            'a.fault: kind relay { fault <|open|> }',
            'a.fault: part k1 is relay { fault <|open|> { causes fuse.blown } }',
            'a.fault: part k2 is relay { fault stuck { causes <|k1.open, k2.open|> } }',
        ]
            .map(line => line.replace('<|k1.open, k2.open|>', 'k1.<|open|>, k2.open'))
            .concat('a.fault: part k2 is relay { fault stuck { causes k1.open, k2.<|open|> } }')
            .sort(),
    );
});

test('tells the choices of an option where a test identifies it', async () => {
    expect(
        await refer(`equipment e {
            option size { sm<|>all large }
            test plate { identify size }
            part p for small
            part q { fault f { makes plate small } }
        }`),
    ).toEqual([
        'a.fault: option size { <|small|> large }',
        'a.fault: part p for <|small|>',
        'a.fault: part q { fault f { makes plate <|small|> } }',
    ]);
});

test('tells nothing of a name that leads nowhere', async () => {
    expect(await refer('tree t of no<|>thing { }')).toEqual([]);
});

test('highlights the places of one file and marks the declaration', async () => {
    expect(await highlight({ ...shop, 'lamp.fault': shop['lamp.fault'].replace('[light]', '[<|>light]') })).toEqual([
        'light',
        '=light',
    ]);
});
