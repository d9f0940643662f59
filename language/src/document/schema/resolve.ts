// Finds the schema that a value of a document is of, through references and unions.

import { treeDocumentSchema } from './tree-document.js';
import type { Schema } from './vocabulary.js';

/** A schema that is neither a reference nor a union, with the name of its definition; empty where it has none. */
export interface Resolved {
    readonly name: string;
    readonly schema: Exclude<Schema, { readonly $ref: string } | { readonly oneOf: readonly Schema[] }>;
}

/** The schema that this value is of; undefined for a value that fits no member of a union. */
export function resolveSchema(value: unknown, schema: Schema, name = ''): Resolved | undefined {
    if ('$ref' in schema) {
        const referred = schema.$ref.slice('#/$defs/'.length);
        const definition = treeDocumentSchema.$defs[referred];
        return definition && resolveSchema(value, definition, referred);
    }
    if ('oneOf' in schema) {
        for (const member of schema.oneOf) {
            const resolved = resolveSchema(value, member);
            if (resolved && fits(value, resolved.schema)) return resolved;
        }
        return undefined;
    }
    return { name, schema };
}

/** Whether a value can be of this object schema: it has what is required and nothing else, and the fixed values are the same. */
function fits(value: unknown, schema: Resolved['schema']): boolean {
    if (!('properties' in schema) || typeof value !== 'object' || value === null) return false;
    const given = value as Readonly<Record<string, unknown>>;
    return (
        Object.keys(given).every(name => name in schema.properties) &&
        schema.required.every(name => {
            const property = schema.properties[name];
            const constant = property && 'const' in property ? property.const : undefined;
            return name in given && (constant === undefined || given[name] === constant);
        })
    );
}
