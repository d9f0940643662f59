// Compares a document with the shapes of the format and copies what is known, without recursion, so that no depth and no length of a
// document can exhaust a stack.

import {
    checkReferences,
    declare,
    noDeclarations,
    type Referred,
    type Scope,
    scopeWithin,
} from './check-references.js';
import type { LoadProblem } from './load.js';
import { type Form, formOf, type Member, type Property } from './read-shapes.js';

/** So deep may a document be nested; the exporter never writes anything near it. */
const mostDepth = 100;

/** So many values may a document have. */
const mostValues = 50_000_000;

export type Checked =
    | { readonly copy: unknown; readonly problem?: undefined }
    | { readonly problem: LoadProblem; readonly copy?: undefined };

/** A value that is still to be looked at, and where its copy goes. */
export interface Item {
    readonly value: unknown;
    readonly field: string;
    readonly key: string | number;
    readonly parent: Item | undefined;
    readonly into: object;
    readonly depth: number;
    readonly scope: Scope;
}

/** Checks a whole document and gives a copy of what is known of it. */
export function checkShapes(document: unknown): Checked {
    const top: { copy?: unknown } = {};
    const declared = noDeclarations();
    const referred: Referred[] = [];
    const scope: Scope = { owner: undefined, test: undefined, condition: undefined, procedure: undefined };
    const pending: Item[] = [
        { value: document, field: 'TreeDocument', key: 'copy', parent: undefined, into: top, depth: 0, scope },
    ];
    let count = 0;
    for (let item = pending.pop(); item; item = pending.pop()) {
        count += 1;
        if (count > mostValues) return { problem: problemAt(item, 'The document is too large.') };
        if (item.depth > mostDepth) return { problem: problemAt(item, 'The document is nested too deeply.') };
        const wrong = checkItem(item, pending, item => {
            if (item.key === 'id') return declare(declared, item);
            referred.push(item);
            return undefined;
        });
        if (wrong) return { problem: problemAt(wrong.item, wrong.why) };
    }
    const wrong = checkReferences(referred, declared);
    return wrong ? { problem: problemAt(wrong.item, wrong.why) } : { copy: top.copy };
}

/** A problem with the place of an item, as a JSON Pointer. */
export function problemAt(item: Item, why: string): LoadProblem {
    const keys: string[] = [];
    for (let at: Item | undefined = item; at?.parent; at = at.parent) keys.push(String(at.key));
    const where = keys
        .reverse()
        .map(key => `/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`)
        .join('');
    return { where, why };
}

/** A value that is wrong, and why. */
interface Wrong {
    readonly item: Item;
    readonly why: string;
}

type Note = (item: Item) => string | undefined;

/** Checks one value, copies it, and puts its members among the pending. Gives what is wrong with it. */
function checkItem(item: Item, pending: Item[], note: Note): Wrong | undefined {
    const { field, value } = item;
    const form = formOf(field);
    switch (form.sort) {
        case 'list':
            return checkList(item, form.item, form.mayBeEmpty, pending, note);
        case 'union': {
            const member = form.members.find(one => fits(value, one));
            return member === undefined
                ? { item, why: `Nothing that can stand here (${field}) looks like this.` }
                : checkObject({ ...item, field: member.name }, member.properties, pending, note);
        }
        case 'object':
            return checkObject(item, form.properties, pending, note);
        default: {
            const why = whyNotLeaf(item, form, note);
            return why === undefined ? undefined : { item, why };
        }
    }
}

type Leaf = Extract<Form, { sort: 'word' | 'plain' | 'id' }>;

/** Checks and copies what has no members. */
function whyNotLeaf(item: Item, form: Leaf, note: Note): string | undefined {
    const { field, value } = item;
    if (form.sort === 'plain') return checkPlain(item, form.type);
    if (form.sort === 'word') {
        if (typeof value !== 'string' || !form.words.includes(value)) return `Expected here: ${form.words.join(', ')}.`;
        put(item, value);
        return undefined;
    }
    if (typeof value !== 'string' || value === '') return `A name (${field}) is expected here.`;
    put(item, value);
    return note(item);
}

/** A member waits until it comes; what has no members of its own is looked at at once, to keep the pending few. */
function takeUp(item: Item, pending: Item[], note: Note): Wrong | undefined {
    const form = formOf(item.field);
    if (form.sort === 'list' || form.sort === 'union' || form.sort === 'object') {
        pending.push(item);
        return undefined;
    }
    const why = whyNotLeaf(item, form, note);
    return why === undefined ? undefined : { item, why };
}

/** Sets a property of a copy. Its name comes from the shapes, or is the place in a list. */
function put({ into, key }: Item, value: unknown): void {
    (into as Record<string | number, unknown>)[key] = value;
}

function checkList(item: Item, field: string, mayBeEmpty: boolean, pending: Item[], note: Note): Wrong | undefined {
    const { value } = item;
    if (!Array.isArray(value)) return { item, why: 'A list is expected here.' };
    if (!mayBeEmpty && value.length === 0) return { item, why: 'This list may not be empty.' };
    // With its length from the start, since it is filled from the end.
    const copy = new Array<unknown>(value.length);
    put(item, copy);
    const depth = item.depth + 1;
    // The last is put first, so that the copies are made in order.
    for (let index = value.length - 1; index >= 0; index--) {
        const entry: unknown = value[index];
        const member: Item = { value: entry, field, key: index, parent: item, into: copy, depth, scope: item.scope };
        const wrong = takeUp(member, pending, note);
        if (wrong) return wrong;
    }
    return undefined;
}

function checkObject(item: Item, properties: readonly Property[], pending: Item[], note: Note): Wrong | undefined {
    const { value } = item;
    if (!isObject(value)) return { item, why: 'An object is expected here.' };
    const copy: object = {};
    put(item, copy);
    const depth = item.depth + 1;
    const scope = scopeWithin(item);
    for (let index = properties.length - 1; index >= 0; index--) {
        const { key, field, mayBeMissing } = properties[index] as Property;
        if (Object.hasOwn(value, key)) {
            const wrong = takeUp(
                { value: value[key], field, key, parent: item, into: copy, depth, scope },
                pending,
                note,
            );
            if (wrong) return wrong;
        } else if (!mayBeMissing) {
            return { item, why: `\`${key}\` is missing.` };
        }
    }
    return undefined;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
    return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Whether a value has what an object of this shape must have. */
function fits(value: unknown, { properties }: Member): boolean {
    return (
        isObject(value) &&
        properties.every(
            ({ key, field, mayBeMissing }) =>
                mayBeMissing ||
                (Object.hasOwn(value, key) && (!field.startsWith('=') || value[key] === field.slice(1))),
        )
    );
}

const locale = /^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$/;

function checkPlain(item: Item, field: string): string | undefined {
    const { value } = item;
    // What others put there has no say, and is not kept.
    if (field === 'Extensions') return isObject(value) ? undefined : 'An object is expected here.';
    if (field === 'Text') {
        if (!isObject(value)) return 'A text by locale is expected here.';
        const texts = Object.entries(value);
        if (texts.length === 0) return 'A text has at least one locale.';
        if (!texts.every(([name, text]) => locale.test(name) && typeof text === 'string')) {
            return 'A text has words for each locale (BCP 47).';
        }
        put(item, Object.fromEntries(texts));
        return undefined;
    }
    const why = whyNotPlain(field, value);
    if (why === undefined) put(item, value);
    return why;
}

function whyNotPlain(field: string, value: unknown): string | undefined {
    switch (field) {
        case 'Words':
            return typeof value === 'string' ? undefined : 'A text is expected here.';
        case 'Number':
            return typeof value === 'number' && Number.isFinite(value) ? undefined : 'A number is expected here.';
        case 'Boolean':
            return typeof value === 'boolean' ? undefined : '`true` or `false` is expected here.';
        case 'True':
            return value === true ? undefined : 'This is `true`, or it is left out.';
        case 'Digest':
            return typeof value === 'string' && /^[0-9a-f]{64}$/.test(value)
                ? undefined
                : 'A SHA-256 is expected here.';
        default:
            return typeof value === 'string' && /^[A-Z]{3}$/.test(value) ? undefined : 'A currency is expected here.';
    }
}
