/** Rename changes a name wherever it stands, and refuses a name that cannot be used. */
import { expect, test } from 'vitest';
import { TextDocument } from 'langium';
import { type Files, fileOf, openAtCursor } from './world.js';

/** The texts that change, or the refusal. */
async function rename(files: Files | string, newName: string): Promise<Record<string, string> | string> {
    const opened = await openAtCursor(typeof files === 'string' ? { 'a.fault': files } : files);
    const { world, document, position, textDocument } = opened;
    const provider = world.fault.lsp.RenameProvider;
    try {
        const range = await provider?.prepareRename(document, { position, textDocument });
        if (!range) return 'nothing to rename';
        const edit = await provider?.rename(document, { position, textDocument, newName });
        expect(world.failures).toEqual([]);
        const changed = Object.entries(edit?.changes ?? {}).map(([uri, edits]) => {
            const text = world.shared.workspace.LangiumDocuments.all.find(one => one.uri.toString() === uri);
            return [fileOf(uri), text ? TextDocument.applyEdits(text.textDocument, edits) : ''] as const;
        });
        return Object.fromEntries(changed);
    } catch (problem) {
        expect(world.failures).toEqual([]);
        return problem instanceof Error ? problem.message : String(problem);
    }
}

test('changes a step and every branch to it', async () => {
    expect(await rename('tree t of e { step <|>a { go b } step b { go a } }', 'first')).toEqual({
        'a.fault': 'tree t of e { step first { go b } step b { go first } }',
    });
});

test('changes all files that use the declaration', async () => {
    const files = {
        'lamp.fault': 'equipment lamp { test light { normal yes } }',
        'tree.fault': 'uses "lamp.fault"\ntree t of lamp { complaint li<|>ght normal }',
        'other.fault': 'equipment other { test light { normal yes } }',
    };
    expect(await rename(files, 'glow')).toEqual({
        'lamp.fault': 'equipment lamp { test glow { normal yes } }',
        'tree.fault': 'uses "lamp.fault"\ntree t of lamp { complaint glow normal }',
    });
});

test('changes an outcome that stands several times, wherever it is named', async () => {
    expect(
        await rename(
            'equipment e { condition c { on off } test t { low < 1 V when c on  lo<|>w > 5 V when c off  normal otherwise } part p { fault f { makes t low } } }',
            'weak',
        ),
    ).toEqual({
        'a.fault':
            'equipment e { condition c { on off } test t { weak < 1 V when c on  weak > 5 V when c off  normal otherwise } part p { fault f { makes t weak } } }',
    });
});

test('lets a step be called by a word of the language that steps may be called', async () => {
    expect(await rename('tree t of e { step <|>a { go a } }', 'measure')).toEqual({
        'a.fault': 'tree t of e { step measure { go measure } }',
    });
});

test('changes nothing where the name stays', async () => {
    expect(await rename('tree t of e { step <|>a { go a } }', 'a')).toEqual({});
});

test.each(['two words', '1st', '', 'a.b', 'x-', 'a"b'])(
    'refuses `%s`, which has not the form of a name',
    async name => {
        expect(await rename('tree t of e { step <|>a { go a } }', name)).toMatch(
            /cannot be a name\. A name begins with a letter/,
        );
    },
);

test('refuses a word of the language', async () => {
    expect(await rename('equipment e { part <|>a }', 'test')).toBe(
        '`test` is a word of the language, so a part cannot be called so.',
    );
});

test('refuses a name that the same list has already', async () => {
    expect(await rename('equipment e { part <|>a  zone b }', 'b')).toBe(
        'There is a zone called `b` in equipment `e` already.',
    );
    expect(await rename('tree t of e { step <|>a { go b } conclude b }', 'b')).toBe(
        'There is a conclusion called `b` in tree `t` already.',
    );
});

test('lets the same name stand in two lists', async () => {
    expect(await rename('equipment e { part <|>a  test b { normal yes } }', 'b')).toEqual({
        'a.fault': 'equipment e { part b  test b { normal yes } }',
    });
});

test('refuses a name with which another name would come to mean something else', async () => {
    // In its own kind a fault is named before the parts are looked at.
    const text = 'equipment e { part fuse { fault blown } part k { fault <|>open  fault shut { causes fuse } } }';
    expect(await rename(text, 'fuse')).toBe(
        '`fuse` cannot be used: a name in `a.fault` would then mean the fault `fuse`.',
    );
});

test('refuses a choice that would no longer be told from the choice of another option', async () => {
    expect(
        await rename('equipment e { option size { <|>small large } option color { red blue } part p for red }', 'red'),
    ).toBe('`red` cannot be used: `red` in `a.fault` would no longer lead to the choice.');
});

test('refuses to rename `it` and a name that leads nowhere', async () => {
    expect(await rename('procedure p about part { step a { do "x" at i<|>t } }', 'x')).toMatch(
        /^`it` is what the procedure is about/,
    );
    expect(await rename('tree t of no<|>thing { }', 'x')).toBe(
        '`nothing` leads nowhere, so there is nothing to rename.',
    );
});

test('renames nothing where no name stands', async () => {
    expect(await rename('tree t "ti<|>tle" of e { }', 'x')).toBe('nothing to rename');
});
