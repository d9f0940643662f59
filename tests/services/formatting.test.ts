/** Formatting applies the one layout. */
import { expect, test } from 'vitest';
import { TextDocument } from 'langium';
import { openWorld } from './world.js';

/** The text as it is after formatting; with `lines`, only those from and to (counted from 0). */
async function format(text: string, lines?: readonly [number, number]): Promise<string> {
    const world = await openWorld({ 'a.fault': text });
    await world.type('a.fault', text);
    const document = world.documentOf('a.fault');
    const textDocument = { uri: document.uri.toString() };
    const options = { tabSize: 2, insertSpaces: true };
    const formatter = world.fault.lsp.Formatter;
    const edits = lines
        ? await formatter?.formatDocumentRange(document, {
              textDocument,
              options,
              range: { start: { line: lines[0], character: 0 }, end: { line: lines[1], character: 0 } },
          })
        : await formatter?.formatDocument(document, { textDocument, options });
    expect(world.failures).toEqual([]);
    return TextDocument.applyEdits(document.textDocument, edits ?? []);
}

test('lays out a file', async () => {
    expect(await format('tree   t of  e {\nstep a {\ngo   a\n}\n}')).toBe(
        'tree t of e {\n  step a {\n    go a\n  }\n}\n',
    );
});

test('lays out the lines that are selected', async () => {
    const laid = await format('tree   t of e {\n  step a {\n  go   a\n  }\n}\n', [2, 3]);
    expect(laid).toContain('go a');
    expect(laid).toContain('tree   t');
});

test('leaves a file alone that cannot be read', async () => {
    const text = 'tree   t of e {\nstp a {\n}\n}';
    expect(await format(text)).toBe(text);
});
