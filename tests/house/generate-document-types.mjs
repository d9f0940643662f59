/** Makes the published schema of the exported document, and its types, from the one source under language/src/document/schema. */
import { buildSync } from 'esbuild';
import { join } from 'node:path';
import { format } from 'prettier';
import prettierOptions from '../../prettier.config.mjs';
import { root } from './project.mjs';

/** @typedef {import('../../language/src/document/schema/vocabulary.js').Schema} Schema */
/** @typedef {import('../../language/src/document/schema/vocabulary.js').ObjectSchema} ObjectSchema */
/** @typedef {import('../../language/src/document/schema/tree-document.js').RootSchema} RootSchema */

const source = 'language/src/document/schema/tree-document.ts';
export const schemaFile = 'language/schema/tree-document.schema.json';
export const typesFile = 'language/src/document/types.ts';

/**
 * Makes both files. The types are written from the same schema that is published, so the two cannot differ.
 *
 * @returns {Promise<Map<string, string>>} the text of each file by its path
 */
export async function generateDocumentFiles() {
    const schema = await loadSchema();
    return new Map([
        [schemaFile, `${JSON.stringify(schema, null, 2)}\n`],
        [typesFile, await format(writeTypes(schema), { ...prettierOptions, parser: 'typescript' })],
    ]);
}

/**
 * Bundles the source in memory, because not every Node that runs this reads TypeScript.
 *
 * @returns {Promise<RootSchema>}
 */
async function loadSchema() {
    const { outputFiles } = buildSync({
        entryPoints: [join(root, source)],
        bundle: true,
        write: false,
        format: 'esm',
        logLevel: 'silent',
    });
    const text = outputFiles[0]?.text ?? '';
    return (await import(`data:text/javascript;base64,${Buffer.from(text).toString('base64')}`)).treeDocumentSchema;
}

/** @param {RootSchema} schema */
function writeTypes(schema) {
    return [
        '// The types of the exported document. Written by `npm run generate` from the schema beside it: do not edit.',
        '',
        writeDefinition(schema.title, schema),
        ...Object.entries(schema.$defs).map(([name, definition]) => writeDefinition(name, definition)),
    ].join('\n');
}

/**
 * @param {string} name
 * @param {Schema} schema
 */
function writeDefinition(name, schema) {
    if ('type' in schema && schema.type === 'object' && 'properties' in schema) {
        return `${writeComment(schema)}export interface ${name} {\n${writeProperties(schema)}}\n`;
    }
    return `${writeComment(schema)}export type ${name} = ${writeType(schema)};\n`;
}

/** @param {ObjectSchema} schema */
function writeProperties(schema) {
    return Object.entries(schema.properties)
        .map(([name, property]) => {
            const mark = schema.required.includes(name) ? '' : '?';
            return `${writeComment(property)}readonly ${JSON.stringify(name)}${mark}: ${writeType(property)};\n`;
        })
        .join('');
}

/**
 * A schema that is not one of our forms stops the generator, so that nothing is typed loosely without notice.
 *
 * @param {Schema} schema
 * @returns {string}
 */
function writeType(schema) {
    if ('$ref' in schema) return schema.$ref.replace('#/$defs/', '');
    if ('oneOf' in schema) return schema.oneOf.map(writeType).join(' | ');
    if (!('type' in schema)) return 'true';
    switch (schema.type) {
        case 'string':
            return (
                (schema.enum ?? (schema.const === undefined ? [] : [schema.const])).map(quote).join(' | ') || 'string'
            );
        case 'number':
        case 'boolean':
            return schema.type;
        case 'array':
            return writeListType(schema);
        case 'object':
            if ('propertyNames' in schema) {
                return `Readonly<Record<string, ${schema.additionalProperties ? writeType(schema.additionalProperties) : 'unknown'}>>`;
            }
            return `{\n${writeProperties(schema)}}`;
        default:
            throw new Error(`No type can be written for ${JSON.stringify(schema)}.`);
    }
}

/** @param {import('../../language/src/document/schema/vocabulary.js').ListSchema} schema */
function writeListType({ items }) {
    const type = writeType(items);
    return `readonly ${/^[\w]+$/.test(type) ? type : `(${type})`}[]`;
}

/** @param {string} text */
function quote(text) {
    return `'${text}'`;
}

/** @param {Schema} schema */
function writeComment(schema) {
    return schema.description === undefined ? '' : `/** ${schema.description} */\n`;
}
