/** Every tree of the worlds and examples comes out valid, complete, in one order and for each of its builds. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { canonicalJson, prettyJson } from '../../language/src/document/canonical.js';
import { dropMissing } from '../../language/src/document/drop-missing.js';
import { resolveSchema } from '../../language/src/document/schema/resolve.js';
import { treeDocumentSchema } from '../../language/src/document/schema/tree-document.js';
import type { Schema } from '../../language/src/document/schema/vocabulary.js';
import { sliceToBuild } from '../../language/src/document/slice.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { root } from '../house/project.mjs';
import { exportFrom, filesOf, readFiles, schemaErrors } from './support.js';

const folders = ['tests/worlds', 'examples']
    .flatMap(parent => readdirSync(join(root, parent)).map(name => `${parent}/${name}`))
    .filter(folder => existsSync(join(root, folder)) && Object.keys(filesOf(folder)).some(isSource));

test('there are worlds to export', () => {
    expect(folders.length).toBeGreaterThan(5);
});

describe.each(folders)('%s', folder => {
    const files = filesOf(folder);
    const trees = [...readFiles(files).files.values()].flatMap(file => file.trees.map(tree => tree.name.text));

    test.each(trees)('%s is valid, complete and in one order', async name => {
        const document = await exportFrom(files, name);
        expect(schemaErrors(document)).toEqual([]);
        expect(dropMissing(document)).toEqual(document);
        expect(misplaced(document)).toEqual([]);
        expect(JSON.stringify(document)).not.toMatch(/null|undefined|NaN/);
        const reversed = Object.fromEntries(Object.entries(files).reverse());
        expect(prettyJson(await exportFrom(reversed, name))).toBe(prettyJson(document));
        expect(canonicalJson(JSON.parse(prettyJson(document)))).toBe(canonicalJson(document));
    });

    test.each(trees)('%s can be cut down to each of its builds', async name => {
        const document = await exportFrom(files, name);
        const slices = buildsOf(document).flatMap(build => sliceToBuild(document, build).document ?? []);
        expect(slices.length).toBeGreaterThan(0);
        for (const slice of slices) {
            expect(schemaErrors(slice)).toEqual([]);
            expect(JSON.stringify(slice)).not.toContain('"guard":');
            expect(misplaced(slice)).toEqual([]);
        }
    });
});

function isSource(name: string): boolean {
    return name.endsWith('.fault');
}

/** Every choice of each option with every choice of the others, and none where the option need not be there. */
function buildsOf({ equipment }: TreeDocument): readonly (readonly string[])[] {
    return equipment.options.reduce<string[][]>(
        (builds, option) => {
            const choices = option.choices.map(choice => [choice.id]);
            return builds.flatMap(build =>
                [...choices, ...(option.guard ? [[]] : [])].map(choice => [...build, ...choice]),
            );
        },
        [[]],
    );
}

/** The places whose properties do not stand in the order of the schema. */
function misplaced(value: unknown, schema: Schema = treeDocumentSchema, path = ''): readonly string[] {
    const resolved = resolveSchema(value, schema)?.schema;
    if (!resolved || typeof value !== 'object' || value === null || !('type' in resolved)) return [];
    if (resolved.type === 'array') {
        return (value as readonly unknown[]).flatMap((entry, index) =>
            misplaced(entry, resolved.items, `${path}/${index}`),
        );
    }
    if (!('properties' in resolved)) return [];
    const names = Object.keys(resolved.properties);
    const given = Object.keys(value);
    const own = given.join() === names.filter(name => given.includes(name)).join() ? [] : [`${path}: ${given.join()}`];
    const within = Object.entries(value).flatMap(([name, entry]) => {
        const property = resolved.properties[name];
        return property ? misplaced(entry, property, `${path}/${name}`) : [];
    });
    return [...own, ...within];
}
