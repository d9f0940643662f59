/** After any changes the editor's model, links and findings are those that reading everything anew gives. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { verify } from '../../language/src/core/findings/verify.js';
import { linkFile } from '../../language/src/core/linking/linker.js';
import type { LinkedModel } from '../../language/src/core/linking/workspace-links.js';
import { rules } from '../../language/src/rules/index.js';
import { readWorkspace } from '../../language/src/workspace/read-workspace.js';
import { defaultSettings } from '../../language/src/core/findings/settings.js';
import { messageOf, openWorld, type World } from './world.js';

// Three files of which each sees the next, in versions that break and mend what the others rely on.
const versions: Readonly<Record<string, readonly string[]>> = {
    'tree.fault': [
        'uses "lamp.fault"\ntree t of lamp { complaint light dark step a { test light { normal -> b  dark -> b } } conclude b { k1.open, bulb } }',
        'uses "lamp.fault"\ntree t of lamp { complaint light dark step a { test light { normal -> b } } conclude b { k1.shut } }',
        'uses "parts.fault"\ntree t of lamp { complaint light dim step a }',
        'tree t of lamp { step a { go',
    ],
    'lamp.fault': [
        'uses "parts.fault"\nequipment lamp { part k1 is relay  part bulb { fault burnt }  test light { observe by eye normal yes dark no } }',
        'equipment lamp { part k1 is relay  part bulb { fault burnt } test light { observe by eye normal yes dark no dim "dim" } }',
        'uses "parts.fault"\n\nequipment lamp { part k1 is relay { fault shut } part other  test light { observe by eye normal yes dark no } }',
        'uses "parts.fault"\nuses "tree.fault"\nequipment lamps { }',
    ],
    'parts.fault': [
        'kind relay { fault open  fault shut }',
        'kind relay { fault open }',
        'kind relays { fault open }\nequipment lamp { }',
        '',
    ],
};
const files = Object.keys(versions);

interface Change {
    readonly file: string;
    /** Which version; -1 takes the file away. */
    readonly version: number;
    readonly by: 'typing' | 'saving';
}

const change: fc.Arbitrary<Change> = fc.record({
    file: fc.constantFrom(...files),
    version: fc.integer({ min: -1, max: 3 }),
    by: fc.constantFrom('typing', 'saving'),
});

test('any changes in any order lead to what reading anew gives', { timeout: 60_000 }, async () => {
    await fc.assert(
        fc.asyncProperty(fc.array(change, { minLength: 1, maxLength: 8 }), async changes => {
            const world = await openWorld(Object.fromEntries(files.map(file => [file, versions[file]?.[0] ?? ''])));
            for (const { file, version, by } of changes) {
                const text = version < 0 ? undefined : versions[file]?.[version];
                if (by === 'typing' && text !== undefined) await world.type(file, text);
                else if (world.shared.workspace.TextDocuments.get(world.uriOf(file)) === undefined) {
                    await world.save(file, text);
                }
            }
            await world.settle();
            expect(world.failures).toEqual([]);
            const anew = readAnew(world);
            expect(describeLinks(currentModel(world))).toEqual(describeLinks(anew.model));
            for (const file of anew.model.files.keys()) {
                const told = world.diagnosticsOf(file).map(one => `${one.code} ${messageOf(one)}`);
                expect(told.sort(), file).toEqual((anew.findings.get(file) ?? []).sort());
            }
        }),
        { numRuns: 40 },
    );
});

function currentModel(world: World): LinkedModel {
    const [workspace] = world.shared.halfsplit.Workspaces.all();
    if (!workspace) throw new Error('The world has no workspace');
    return workspace.links.model;
}

function readAnew(world: World): { model: LinkedModel; findings: Map<string, string[]> } {
    const { TextDocuments } = world.shared.workspace;
    const open = files.filter(file => TextDocuments.get(world.uriOf(file)) !== undefined);
    const sources = [...new Set([...world.disk.keys(), ...open])].map(file => ({
        file,
        text: TextDocuments.get(world.uriOf(file))?.getText() ?? world.disk.get(file) ?? '',
    }));
    const { model, findings } = readWorkspace(sources, {
        presence: path => (world.disk.has(path) ? 'present' : 'missing'),
    });
    const options = { rules, settings: defaultSettings, signal: { aborted: false } };
    const byFile = new Map<string, string[]>();
    for (const { file, code, message, advice, counterexample } of verify(model, findings, options)?.findings ?? []) {
        const lines = [message, ...(advice === undefined ? [] : [advice])];
        if (counterexample) lines.push(`For example, ${counterexample.sentence}.`);
        byFile.set(file, [...(byFile.get(file) ?? []), `${code} ${lines.join('\n')}`]);
    }
    return { model, findings: byFile };
}

/** Every reference with what it leads to, as text. */
function describeLinks(model: LinkedModel): string[] {
    const links: string[] = [];
    for (const file of model.files.values()) {
        linkFile(file, model, reference => {
            const target = model.target(reference);
            const place = target ? `${target.file}:${target.start} ${target.sort}` : 'nowhere';
            links.push(`${file.file}:${reference.start} ${reference.role} ${reference.text} -> ${place}`);
        });
    }
    return links.sort();
}
