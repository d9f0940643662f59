/** The published schema is sound, closed and without null, and its types are written from it. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { treeDocumentSchema } from '../../language/src/document/schema/tree-document.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { generateDocumentFiles, schemaFile, typesFile } from '../house/generate-document-types.mjs';
import { readText } from '../house/project.mjs';
import { schemaErrors } from './support.js';

const small: TreeDocument = {
    format: 'halfsplit-tree',
    formatVersion: '1.0',
    locales: ['en'],
    safetyNotice: { en: 'Local codes come first.' },
    equipment: {
        id: 'lamp',
        options: [],
        exclusions: [],
        hazards: [],
        zones: [],
        conditions: [],
        supplies: [],
        parts: [{ id: 'bulb', faults: [{ id: 'bulb.burnt-out', effects: [{ effect: 'stops' }] }] }],
        flows: [],
        tests: [],
        gates: [],
        instruments: [],
        tables: [],
        curves: [],
    },
    tree: {
        id: 'no-light',
        title: { en: 'No light' },
        complaints: [],
        steps: [{ id: 'look', statements: [{ type: 'go', to: 'bad-bulb' }] }],
        conclusions: [{ id: 'bad-bulb', faults: [{ fault: 'bulb.burnt-out' }] }],
        referrals: [],
    },
    procedures: [],
    pictures: [],
    verification: { tool: { name: 'halfsplit', version: '0.1.0' }, accepted: [], sources: [] },
};

test('the schema is a valid schema of its dialect', () => {
    const ajv = new Ajv2020({ strict: true });
    expect(ajv.validateSchema(treeDocumentSchema)).toBe(true);
    expect(treeDocumentSchema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(treeDocumentSchema.description).toContain('Compatibility is promised from release 1.0.0');
});

test('the published file and the types are what the schema gives', async () => {
    const written = await generateDocumentFiles();
    expect([...written.keys()]).toEqual([schemaFile, typesFile]);
    for (const [path, text] of written) expect(readText(path)).toBe(text);
});

test('every object is closed, except texts by locale and the place for others', () => {
    const open = Object.entries({ TreeDocument: treeDocumentSchema, ...treeDocumentSchema.$defs })
        .filter(([, schema]) => JSON.stringify(schema).includes('"type":"object"'))
        .filter(([, schema]) => !('additionalProperties' in schema && schema.additionalProperties === false));
    expect(open.map(([name]) => name).sort()).toEqual(['Extensions', 'Text']);
});

test('every definition is used, and every reference leads to one', () => {
    const used = new Set(
        [...JSON.stringify(treeDocumentSchema).matchAll(/"#\/\$defs\/(\w+)"/g)].map(match => match[1]),
    );
    expect([...used].sort()).toEqual(Object.keys(treeDocumentSchema.$defs).sort());
});

test('every definition says what it is', () => {
    const silent = Object.entries(treeDocumentSchema.$defs).filter(([, schema]) => !schema.description);
    expect(silent.map(([name]) => name)).toEqual([]);
});

test('a small document is valid', () => {
    expect(schemaErrors(small)).toEqual([]);
});

test.each([
    ['a property that nobody knows', { ...small, comment: 'x' }],
    [
        'a property that nobody knows deep inside',
        { ...small, tree: { ...small.tree, steps: [{ id: 'look', statements: [], then: 1 }] } },
    ],
    ['null', { ...small, build: null }],
    ['another version', { ...small, formatVersion: '2.0' }],
    ['no safety notice', { ...small, safetyNotice: undefined }],
    ['no equipment', { ...small, equipment: undefined }],
    ['a text that is not by locale', { ...small, tree: { ...small.tree, title: 'No light' } }],
    ['a text by what is no locale', { ...small, tree: { ...small.tree, title: { 'no locale': 'No light' } } }],
    [
        'a statement of no sort',
        { ...small, tree: { ...small.tree, steps: [{ id: 'look', statements: [{ to: 'x' }] }] } },
    ],
    ['an empty id', { ...small, tree: { ...small.tree, id: '' } }],
    ['a digest that is none', { ...small, pictures: [{ path: 'a.svg', sha256: 'ABC' }] }],
])('a document with %s is not valid', (_, document) => {
    expect(schemaErrors(JSON.parse(JSON.stringify(document)))).not.toEqual([]);
});

test('data of others has one place', () => {
    expect(schemaErrors({ ...small, extensions: { 'org.example.parts': [{ bulb: 'E27', stock: null }] } })).toEqual([]);
    expect(schemaErrors({ ...small, extensions: { stock: 1 } })).not.toEqual([]);
});
