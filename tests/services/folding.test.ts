/** Folding shows where blocks, comments and long texts can be closed up. */
import { expect, test } from 'vitest';
import { openWorld } from './world.js';

/** Each range as `first-last kind`, lines counted from 1. */
async function fold(text: string): Promise<string[]> {
    const world = await openWorld({ 'a.fault': text });
    await world.type('a.fault', text);
    const document = world.documentOf('a.fault');
    const textDocument = { uri: document.uri.toString() };
    const ranges = (await world.fault.lsp.FoldingRangeProvider?.getFoldingRanges(document, { textDocument })) ?? [];
    expect(world.failures).toEqual([]);
    return ranges.map(({ startLine, endLine, kind }) => `${startLine + 1}-${endLine + 1}${kind ? ` ${kind}` : ''}`);
}

test('folds blocks and leaves their last line', async () => {
    expect(await fold('tree t {\n  step a {\n    go a\n  }\n}')).toEqual(['1-4', '2-3']);
});

test('does not fold a block that stands on one line', async () => {
    expect(await fold('tree t { step a { go a } }')).toEqual([]);
});

test('folds comments that stand below each other, and long ones', async () => {
    expect(await fold('// one\n// two\n// three\n\n// alone\n/* from\n here */')).toEqual([
        '1-3 comment',
        '5-7 comment',
    ]);
});

test('folds a text of several lines and the files that are used', async () => {
    expect(await fold('uses "a.fault"\nuses "b.fault"\ntree t """\n  long\n"""')).toEqual(['1-2 imports', '3-5']);
});

test('folds what is closed in a file that is half written', async () => {
    expect(await fold('tree t {\n  step a {\n    go a\n  }\n  step b {')).toContain('2-3');
});
