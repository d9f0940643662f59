/** The shapes that the player checks a document against, compared with the published schema. */
import { expect, test } from 'vitest';
import { treeDocumentSchema } from '../../language/src/document/schema/tree-document.js';
import type { Schema } from '../../language/src/document/schema/vocabulary.js';
import { idSorts, plainTypes, type Shape, shapes } from '../../language/src/player/shapes.js';

/** What is checked in a way of its own. */
const plain: Readonly<Record<string, string>> = { Text: 'Text', Extensions: 'Extensions' };

function fieldOf(schema: Schema): string {
    if ('$ref' in schema) return schema.$ref.slice('#/$defs/'.length);
    if ('const' in schema) return schema.const === true ? 'True' : `=${String(schema.const)}`;
    if (!('type' in schema)) throw new Error('The shapes have no such form of schema.');
    switch (schema.type) {
        case 'array':
            return `${schema.minItems === undefined ? 'list' : 'some'} ${fieldOf(schema.items)}`;
        case 'string':
            if (schema.enum) return schema.enum.join('|');
            return schema.pattern === '^[0-9a-f]{64}$'
                ? 'Digest'
                : schema.pattern === '^[A-Z]{3}$'
                  ? 'Currency'
                  : 'Words';
        case 'number':
            return 'Number';
        case 'boolean':
            return 'Boolean';
        default:
            throw new Error('The shapes have no such form of schema.');
    }
}

function shapeOf(schema: Schema): Shape {
    if ('oneOf' in schema) return schema.oneOf.map(fieldOf);
    if (!('properties' in schema)) return fieldOf(schema);
    const required: readonly string[] = schema.required;
    return Object.fromEntries(
        Object.entries(schema.properties).map(([name, property]) => [
            name,
            `${required.includes(name) ? '' : '?'}${fieldOf(property)}`,
        ]),
    );
}

test('every definition of the schema has its shape, and no shape is left over', () => {
    const definitions: readonly (readonly [string, Schema])[] = [
        ['TreeDocument', treeDocumentSchema],
        ...Object.entries(treeDocumentSchema.$defs),
    ];
    const wanted = definitions.filter(([name]) => !idSorts.includes(name) && !(name in plain));
    expect(shapes).toEqual(Object.fromEntries(wanted.map(([name, schema]) => [name, shapeOf(schema)])));
});

test('the sorts of ids are those of the schema', () => {
    const ids = Object.entries(treeDocumentSchema.$defs).filter(([, schema]) => 'minLength' in schema);
    expect([...idSorts].sort()).toEqual(ids.map(([name]) => name).sort());
});

test('every field leads to a shape, a sort of id or a plain type', () => {
    const known = new Set([...Object.keys(shapes), ...idSorts, ...plainTypes]);
    const fields = Object.values(shapes).flatMap(shape => (typeof shape === 'string' ? [shape] : Object.values(shape)));
    const names = fields.map(field => field.replace(/^\?/, '').replace(/^(list|some) /, ''));
    expect(names.filter(name => !/[=|]/.test(name) && !known.has(name))).toEqual([]);
});
