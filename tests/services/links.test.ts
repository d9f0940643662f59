/** What the editor's references lead to is what the command line's linker says, for every reference of every world. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AstUtils } from 'langium';
import { expect, test } from 'vitest';
import { linkFile } from '../../language/src/core/linking/linker.js';
import { readWorkspace } from '../../language/src/workspace/read-workspace.js';
import { root } from '../house/project.mjs';
import { openWorld, type World } from './world.js';

const worlds = ['examples', 'tests/worlds'].flatMap(folder =>
    readdirSync(join(root, folder), { withFileTypes: true })
        .filter(entry => entry.isDirectory())
        .map(entry => `${folder}/${entry.name}`),
);

test('there are worlds to compare', () => {
    expect(worlds.length).toBeGreaterThanOrEqual(6);
});

test.each([...worlds, 'tests/hosts/workspace'])(
    'every reference of %s leads to the same place in both',
    async folder => {
        const files = readFiles(folder);
        const world = await openWorld(files);
        const inEditor = linksInEditor(world, Object.keys(files));
        const inCommandLine = linksInCommandLine(files);
        expect(world.failures).toEqual([]);
        expect(inCommandLine.size).toBeGreaterThan(10);
        expect([...inEditor].sort()).toEqual([...inCommandLine].sort());
    },
);

test('a reference that leads nowhere in the command line leads nowhere in the editor', async () => {
    const files = { 'a.fault': 'tree t of nothing { step a { go b } step b { go c } }' };
    const world = await openWorld(files);
    expect([...linksInEditor(world, ['a.fault'])]).toEqual([...linksInCommandLine(files)]);
    expect(linksInCommandLine(files).size).toBe(1);
});

function readFiles(folder: string): Record<string, string> {
    const names = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' });
    const sources = names.filter(name => name.endsWith('.fault'));
    return Object.fromEntries(sources.map(name => [name, readFileSync(join(root, folder, name), 'utf8')]));
}

/** Follows every reference of the syntax trees, as a feature does that knows nothing of our links. */
function linksInEditor(world: World, files: readonly string[]): Set<string> {
    const links = new Set<string>();
    for (const file of files) {
        const { value } = world.documentOf(file).parseResult;
        for (const node of AstUtils.streamAst(value)) {
            for (const { reference } of AstUtils.streamReferences(node)) {
                const target = 'ref' in reference ? reference.ref : undefined;
                const place = target?.$cstNode;
                if (!target || !place) continue;
                const uri = AstUtils.getDocument(target).uri.path.split('/').slice(2).join('/');
                links.add(`${file}:${reference.$refNode?.offset} -> ${uri}:${place.offset}-${place.end}`);
            }
        }
    }
    return links;
}

function linksInCommandLine(files: Readonly<Record<string, string>>): Set<string> {
    const sources = Object.entries(files).map(([file, text]) => ({ file, text }));
    const { model } = readWorkspace(sources, { presence: () => 'present' });
    const links = new Set<string>();
    for (const file of model.files.values()) {
        linkFile(file, model, reference => {
            const target = model.target(reference);
            if (target) links.add(`${file.file}:${reference.start} -> ${target.file}:${target.start}-${target.end}`);
        });
    }
    return links;
}
