/** Go to definition leads from a name to the declaration that gives it. */
import { expect, test } from 'vitest';
import { type Files, openAtCursor, tellPlaces } from './world.js';

/** Where the definition of the name at the cursor is. */
async function define(files: Files | string): Promise<string[]> {
    const { world, document, position, textDocument } = await openAtCursor(
        typeof files === 'string' ? { 'a.fault': files } : files,
    );
    const links = await world.fault.lsp.DefinitionProvider?.getDefinition(document, { position, textDocument });
    expect(world.failures).toEqual([]);
    return tellPlaces(
        world,
        (links ?? []).map(link => ({ uri: link.targetUri, range: link.targetSelectionRange })),
    );
}

test('leads from a branch to its step', async () => {
    expect(
        await define(`
            tree t of e {
                step a { test x { ok -> <|>b } }
                step b "Here" { }
            }`),
    ).toEqual(['a.fault: step <|b|> "Here" { }']);
});

test('leads to another file that is used', async () => {
    const files = {
        'tree.fault': 'uses "shop/lamp.fault"\ntree t of lamp { complaint li<|>ght dark }',
        'shop/lamp.fault': 'equipment lamp { test light { normal yes  dark no } }',
    };
    expect(await define(files)).toEqual(['shop/lamp.fault: equipment lamp { test <|light|> { normal yes dark no } }']);
});

test('leads through a file that uses a third one', async () => {
    const files = {
        'tree.fault': 'uses "lamp.fault"\ntree t of lamp { step a { test k1.coil<|> { ok -> a } } }',
        'lamp.fault': 'uses "parts.fault"\nequipment lamp { part k1 is relay }',
        'parts.fault': 'kind relay { test coil { ok yes } }',
    };
    expect(await define(files)).toEqual(['parts.fault: kind relay { test <|coil|> { ok yes } }']);
});

test('leads from both halves of a dotted name', async () => {
    const equipment = 'equipment e { part k1 { fault open } part k2 { fault shut { causes CAUSED } } }';
    const caused = (name: string): Promise<string[]> => define(equipment.replace('CAUSED', name));
    expect(await caused('k<|>1.open')).toEqual([
        'a.fault: equipment e { part <|k1|> { fault open } part k2 { fault shut { causes k1.open } } }',
    ]);
    expect(await caused('k1.<|>open')).toEqual([
        'a.fault: equipment e { part k1 { fault <|open|> } part k2 { fault shut { causes k1.open } } }',
    ]);
});

test('leads from a word of the language that is used as a name', async () => {
    expect(await define('equipment e { supply supply { } flow flow: su<|>pply }')).toEqual([
        'a.fault: equipment e { supply <|supply|> { } flow flow: supply }',
    ]);
});

test('leads from `it` to what the procedure is about', async () => {
    expect(
        await define(
            'kind relay { test coil { ok yes } }\nprocedure p about relay { step a { test i<|>t.coil { ok -> a } } }',
        ),
    ).toEqual(['a.fault: procedure p <|about relay|> { step a { test it.coil { ok -> a } } }']);
});

test('leads from a label to the place that has it', async () => {
    expect(await define('equipment e { part a { fault f at dr<|>ive } flow p: a as drive }')).toEqual([
        'a.fault: equipment e { part a { fault f at drive } flow p: a as <|drive|> }',
    ]);
});

test('leads from a declaration to itself', async () => {
    expect(await define('equipment la<|>mp { }')).toEqual(['a.fault: equipment <|lamp|> { }']);
});

test('leads from `uses` to the file', async () => {
    expect(await define({ 'a.fault': 'uses "b<|>.fault"', 'b.fault': 'kind k' })).toEqual(['b.fault: <||>kind k']);
});

test('leads nowhere from a file that does not use the other one', async () => {
    const files = { 'a.fault': 'tree t of la<|>mp { }', 'lamp.fault': 'equipment lamp { }' };
    expect(await define(files)).toEqual([]);
});

test('leads nowhere from a text, a comment or a word of the language', async () => {
    expect(await define('equipment lamp "la<|>mp" { }')).toEqual([]);
    expect(await define('equipment lamp { } // la<|>mp')).toEqual([]);
    expect(await define('equip<|>ment lamp { }')).toEqual([]);
});

test('works in a file that is half written', async () => {
    expect(
        await define(`
            equipment e { test x { normal yes } }
            tree t of e {
                step a { test <|>x { normal ->`),
    ).toEqual(['a.fault: equipment e { test <|x|> { normal yes } }']);
});
