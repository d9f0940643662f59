/** Hover says what a name stands for. */
import { expect, test } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { type Files, openAtCursor } from './world.js';

/** What is shown at the cursor. */
async function hover(files: Files | string): Promise<string | undefined> {
    const { world, document, position, textDocument } = await openAtCursor(
        typeof files === 'string' ? { 'a.fault': files } : files,
    );
    const found = await world.fault.lsp.HoverProvider?.getHoverContent(document, { position, textDocument });
    expect(world.failures).toEqual([]);
    return (found?.contents as MarkupContent | undefined)?.value;
}

test('shows the title, the sort, the name and where it belongs', async () => {
    expect(await hover('equipment e { part k1 "Relay K1" { fault o { causes k<|>1.o } } }')).toBe(
        '**Relay K1**\n\npart `k1`, equipment `e`',
    );
});

test('shows the sort and the name where there is no title', async () => {
    expect(await hover('tree <|>t { }')).toBe('tree `t`');
});

test('shows authored text as text', async () => {
    expect(await hover('tree <|>t "[x](command:y) <b> & *z*" { }')).toBe(
        '**\\[x\\]\\(command:y\\) &lt;b\\> &amp; \\*z\\***\n\ntree `t`',
    );
});

test('shows nothing beside names', async () => {
    expect(await hover('tree t "ti<|>tle" { }')).toBeUndefined();
});
