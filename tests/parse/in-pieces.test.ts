/** A file that is read piece by piece has the model that it has when it is read as a whole. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lowerFile, startLowering, type Lowered } from '../../language/src/lower/lower-file.js';
import { parseInPieces, parseText } from '../../language/src/lower/parse/parse-text.js';
import { generateWorkspace } from '../perf/generate-workspace.js';
import { damaged } from '../property/damage.js';
import { runs } from '../property/runs.js';
import { pieces, samples } from '../property/samples.js';
import { everyFormParts } from '../support/every-form.js';

const file = 'example.fault';

test('every world and example', () => {
    for (const text of [...samples.map(sample => sample.text), ...everyFormParts, '', '// Nothing yet.']) {
        expect(lowerInPieces(text)).toEqual(lowerWhole(text));
    }
});

test('a file so long that it is read in several pieces, with `uses` and comments between them', () => {
    const parts = generateWorkspace({ lines: 5000, files: 4 }).map(({ text }) => text);
    const text = parts.join('\n// And so on.\nuses "more.fault"\n');
    const lowered = lowerInPieces(text);
    expect(lowered).toEqual(lowerWhole(text));
    expect(lowered?.model.uses.length).toBeGreaterThan(3);
    expect(lowered?.model.trees).toHaveLength(12);
});

test('the declarations come in their order, each without what contains it', () => {
    const [{ text } = { text: '' }] = generateWorkspace({ lines: 5000, files: 1 });
    const declarations: string[] = [];
    parseInPieces(text, declaration => {
        expect(declaration.$container).toBeUndefined();
        declarations.push(declaration.$type);
    });
    expect(declarations).toEqual(parseText(text, file).root.declarations.map(({ $type }) => $type));
});

test('a file with slips is left to be read as a whole, and no other', { timeout: 60_000 }, () => {
    let slips = 0;
    fc.assert(
        fc.property(damaged(pieces), ({ text }) => {
            const { findings } = parseText(text, file);
            slips += findings.length;
            expect(lowerInPieces(text)).toEqual(findings.length === 0 ? lowerWhole(text) : undefined);
        }),
        runs(1000),
    );
    expect(slips).toBeGreaterThan(500);
});

function lowerInPieces(text: string): Lowered | undefined {
    const lowering = startLowering(file);
    const rest = parseInPieces(text, lowering.add);
    return rest && lowering.finish(rest);
}

function lowerWhole(text: string): Lowered {
    return lowerFile(parseText(text, file).root, file);
}
