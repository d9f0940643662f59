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

test('shows an amount in both systems of units, with its code', async () => {
    const text = 'instrument gauge "Gauge" { measures pressure gauge 0 psi .. 2<|>4 psi }';
    expect(await hover(text)).toBe('**24 psi** = 165 kPa\n\npound per square inch, UCUM `[psi]`');
});

test('shows a tolerance of a temperature as a difference', async () => {
    const text = 'equipment e { test t { measure temperature normal 72 °F ± <|>9 °F low otherwise } }';
    expect(await hover(text)).toContain('**9 °F** = 5 K');
});

test('says which unit is meant where a name has several meanings', async () => {
    expect(await hover('equipment e { test t { measure power normal 2 <|>hp } }')).toContain('horsepower');
});

test('shows the readings of a test in both systems', async () => {
    const text = 'equipment e { test t<|>ank { measure pressure gauge normal 20 psi .. 24 psi low otherwise } }';
    expect(await hover(text)).toBe(
        'test `tank`, equipment `e`\n\n- `normal`: 20 psi \\.\\. 24 psi (138 kPa \\.\\. 165 kPa)\n- `low`: any other reading',
    );
});
