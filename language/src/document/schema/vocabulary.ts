// The few forms of JSON Schema that the exported document is described with.
//
// Only these forms are used, so that types can be generated from every schema, and so that every object is closed.

/** One schema out of the forms below; plain data that can be written as JSON. */
export type Schema =
    | ReferenceSchema
    | StringSchema
    | NumberSchema
    | TrueSchema
    | BooleanSchema
    | ListSchema
    | ObjectSchema
    | MapSchema
    | UnionSchema;

export interface ReferenceSchema {
    readonly $ref: string;
    readonly description?: string;
}

export interface StringSchema {
    readonly type: 'string';
    readonly description?: string;
    readonly const?: string;
    readonly enum?: readonly string[];
    readonly pattern?: string;
    readonly minLength?: number;
}

export interface NumberSchema {
    readonly type: 'number';
    readonly description?: string;
}

/** A fact that is either there or left out. */
export interface TrueSchema {
    readonly const: true;
    readonly description?: string;
}

export interface BooleanSchema {
    readonly type: 'boolean';
    readonly description?: string;
}

export interface ListSchema {
    readonly type: 'array';
    readonly description?: string;
    readonly items: Schema;
    readonly minItems?: number;
}

export interface ObjectSchema {
    readonly type: 'object';
    readonly description?: string;
    readonly properties: Readonly<Record<string, Schema>>;
    readonly required: readonly string[];
    readonly additionalProperties: false;
}

/** An object whose property names are data, such as locales. */
export interface MapSchema {
    readonly type: 'object';
    readonly description?: string;
    readonly propertyNames: { readonly pattern: string };
    readonly minProperties?: number;
    /** Absent where anything may stand. */
    readonly additionalProperties?: Schema;
}

export interface UnionSchema {
    readonly description?: string;
    readonly oneOf: readonly ReferenceSchema[];
}

/** Named schemas; other schemas refer to them by `refer`. */
export type Definitions = Readonly<Record<string, Schema>>;

/** A property that may be left out. */
export interface Optional {
    readonly optional: Schema;
}

/** A property that may be left out. */
export function optional(schema: Schema): Optional {
    return { optional: schema };
}

/** A closed object; its properties are written in this order. */
export function object(description: string, properties: Readonly<Record<string, Schema | Optional>>): ObjectSchema {
    const entries = Object.entries(properties);
    return {
        type: 'object',
        description,
        properties: Object.fromEntries(
            entries.map(([name, value]) => [name, 'optional' in value ? value.optional : value]),
        ),
        required: entries.filter(([, value]) => !('optional' in value)).map(([name]) => name),
        additionalProperties: false,
    };
}

/** One of the named schemas; each can be told from the others by a property that only it has, or by its `type`. */
export function union(description: string, names: readonly string[]): UnionSchema {
    return { description, oneOf: names.map(name => refer(name)) };
}

export function refer(name: string, description?: string): ReferenceSchema {
    return { $ref: `#/$defs/${name}`, ...(description === undefined ? {} : { description }) };
}

export function list(items: Schema, description?: string): ListSchema {
    return { type: 'array', ...(description === undefined ? {} : { description }), items };
}

/** A list with at least one entry. */
export function someOf(items: Schema, description?: string): ListSchema {
    return { ...list(items, description), minItems: 1 };
}

export function words(description?: string): StringSchema {
    return { type: 'string', ...(description === undefined ? {} : { description }) };
}

export function oneWordOf(values: readonly string[], description?: string): StringSchema {
    return { type: 'string', ...(description === undefined ? {} : { description }), enum: values };
}

/** A property with one fixed value, by which a member of a union is told. */
export function fixed(value: string, description?: string): StringSchema {
    return { type: 'string', ...(description === undefined ? {} : { description }), const: value };
}

/** A fact that is left out where it does not hold. */
export function flag(description: string): TrueSchema {
    return { const: true, description };
}
