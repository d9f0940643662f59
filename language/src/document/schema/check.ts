// Checks a document against the schema that its types come from.

import { resolveSchema } from './resolve.js';
import { treeDocumentSchema } from './tree-document.js';
import type { MapSchema, ObjectSchema, Schema, StringSchema } from './vocabulary.js';

/** What is not as the schema says. */
export interface SchemaProblem {
    /** The place as a JSON Pointer (RFC 6901); empty for the whole document. */
    readonly where: string;
    /** One sentence. */
    readonly why: string;
}

/** The first thing in a document that is not as the schema says; undefined where it is valid. The value is plain data, as JSON gives it. */
export function schemaProblem(document: unknown): SchemaProblem | undefined {
    return check(document, treeDocumentSchema, '');
}

function check(value: unknown, schema: Schema, where: string): SchemaProblem | undefined {
    const resolved = resolveSchema(value, schema)?.schema;
    if (!resolved) return { where, why: 'This has none of the forms that may stand here.' };
    if (!('type' in resolved)) return value === true ? undefined : { where, why: 'Only `true` may stand here.' };
    switch (resolved.type) {
        case 'string':
            return checkText(value, resolved, where);
        case 'number':
        case 'boolean':
            return typeof value === resolved.type ? undefined : { where, why: `A ${resolved.type} is needed here.` };
        case 'array': {
            if (!Array.isArray(value)) return { where, why: 'A list is needed here.' };
            if (value.length < (resolved.minItems ?? 0)) return { where, why: 'This list may not be empty.' };
            return first(value.entries(), ([index, entry]) => check(entry, resolved.items, `${where}/${index}`));
        }
        case 'object':
            if (typeof value !== 'object' || value === null || Array.isArray(value)) {
                return { where, why: 'An object is needed here.' };
            }
            return 'properties' in resolved ? checkObject(value, resolved, where) : checkMap(value, resolved, where);
    }
}

function checkText(value: unknown, schema: StringSchema, where: string): SchemaProblem | undefined {
    if (typeof value !== 'string') return { where, why: 'A text is needed here.' };
    if (schema.const !== undefined && value !== schema.const) {
        return { where, why: `\`${schema.const}\` is needed here.` };
    }
    if (schema.enum && !schema.enum.includes(value)) {
        return { where, why: `Only ${schema.enum.join(', ')} may stand here.` };
    }
    const isOfForm = schema.pattern === undefined || new RegExp(schema.pattern, 'u').test(value);
    const isLong = value.length >= (schema.minLength ?? 0);
    return isOfForm && isLong ? undefined : { where, why: 'This text has not the form that is needed here.' };
}

function checkObject(value: object, { properties, required }: ObjectSchema, where: string): SchemaProblem | undefined {
    const lacking = required.find(name => !Object.hasOwn(value, name));
    if (lacking !== undefined) return { where, why: `\`${lacking}\` is missing.` };
    return first(Object.entries(value), ([name, entry]) => {
        const inner = `${where}/${pointerPart(name)}`;
        const schema = Object.hasOwn(properties, name) ? properties[name] : undefined;
        return schema ? check(entry, schema, inner) : { where: inner, why: 'Nothing of this name may stand here.' };
    });
}

function checkMap(value: object, schema: MapSchema, where: string): SchemaProblem | undefined {
    const entries = Object.entries(value);
    if (entries.length < (schema.minProperties ?? 0)) return { where, why: 'This object may not be empty.' };
    const pattern = new RegExp(schema.propertyNames.pattern, 'u');
    return first(entries, ([name, entry]) => {
        const inner = `${where}/${pointerPart(name)}`;
        if (!pattern.test(name)) return { where: inner, why: 'This name may not stand here.' };
        return schema.additionalProperties && check(entry, schema.additionalProperties, inner);
    });
}

function first<T>(entries: Iterable<T>, problemOf: (entry: T) => SchemaProblem | undefined): SchemaProblem | undefined {
    for (const entry of entries) {
        const problem = problemOf(entry);
        if (problem) return problem;
    }
    return undefined;
}

function pointerPart(name: string): string {
    return name.replaceAll('~', '~0').replaceAll('/', '~1');
}
