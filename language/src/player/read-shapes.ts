// The shapes as they are used: each field is read once.

import { plainTypes, type Shape, shapes } from './shapes.js';

/** What can stand at a field. */
export type Form =
    | { readonly sort: 'list'; readonly mayBeEmpty: boolean; readonly item: string }
    | { readonly sort: 'word'; readonly words: readonly string[] }
    | { readonly sort: 'plain'; readonly type: string }
    | { readonly sort: 'id' }
    | { readonly sort: 'object'; readonly properties: readonly Property[] }
    | { readonly sort: 'union'; readonly members: readonly Member[] };

export interface Property {
    readonly key: string;
    readonly field: string;
    readonly mayBeMissing: boolean;
}

export interface Member {
    readonly name: string;
    readonly properties: readonly Property[];
}

const known = new Map<string, Form>();

/** The form of a field. */
export function formOf(field: string): Form {
    const found = known.get(field) ?? readForm(field);
    known.set(field, found);
    return found;
}

function readForm(field: string): Form {
    const list = /^(list|some) (.*)$/.exec(field);
    if (list) return { sort: 'list', mayBeEmpty: list[1] === 'list', item: list[2] ?? '' };
    if (field.startsWith('=')) return { sort: 'word', words: [field.slice(1)] };
    if (field.includes('|')) return { sort: 'word', words: field.split('|') };
    if ((plainTypes as readonly string[]).includes(field)) return { sort: 'plain', type: field };
    const shape = shapeOf(field);
    if (shape === undefined) return { sort: 'id' };
    if (typeof shape === 'string') return formOf(shape);
    if (isUnion(shape)) {
        return { sort: 'union', members: shape.map(name => ({ name, properties: propertiesOf(shapeOf(name)) })) };
    }
    return { sort: 'object', properties: propertiesOf(shape) };
}

function shapeOf(name: string): Shape | undefined {
    return Object.hasOwn(shapes, name) ? shapes[name] : undefined;
}

function isUnion(shape: Shape): shape is readonly string[] {
    return Array.isArray(shape);
}

function propertiesOf(shape: Shape | undefined): readonly Property[] {
    if (shape === undefined || typeof shape === 'string' || isUnion(shape)) return [];
    return Object.entries(shape).map(([key, written]) => {
        const mayBeMissing = written.startsWith('?');
        const field = key === 'formatVersion' ? 'Words' : mayBeMissing ? written.slice(1) : written;
        return { key, field, mayBeMissing };
    });
}
