/** Names can be searched for through all files. */
import { CancellationToken } from 'vscode-languageserver';
import { expect, test } from 'vitest';
import { type Files, fileOf, openWorld } from './world.js';

async function search(files: Files, query: string): Promise<string[]> {
    const world = await openWorld(files);
    const provider = world.shared.lsp.WorkspaceSymbolProvider;
    const found = (await provider?.getSymbols({ query }, CancellationToken.None)) ?? [];
    expect(world.failures).toEqual([]);
    return found
        .map(({ name, containerName, location }) => `${fileOf(location.uri)}: ${containerName ?? '-'} ${name}`)
        .sort();
}

test('finds declarations by a part of their names, with what they belong to', async () => {
    const files = {
        'a.fault': 'equipment lamp { part lamp-bulb { fault burnt } test light { normal yes } }',
        'b.fault': 'tree lamp-dark { step look }',
    };
    expect(await search(files, 'lamp')).toEqual(['a.fault: - lamp', 'a.fault: lamp lamp-bulb', 'b.fault: - lamp-dark']);
    expect(await search(files, 'burnt')).toEqual(['a.fault: lamp-bulb burnt']);
    expect(await search(files, 'normal')).toEqual([]);
});
