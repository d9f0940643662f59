// Reads the text of a document that comes from anywhere, as strictly as a signature needs it.

import { canonicalJson } from './canonical.js';
import { schemaProblem } from './schema/check.js';
import { formatName, formatVersion } from './schema/tree-document.js';
import type { TreeDocument } from './types.js';

export type DocumentReading =
    | {
          readonly sort: 'document';
          /** Valid by its schema; undefined for a later version 1.x, whose schema is not known here. */
          readonly document: TreeDocument | undefined;
          /** Canonical JSON (RFC 8785). */
          readonly canonical: string;
      }
    /** Why this is no document: one sentence. */
    | { readonly sort: 'no document'; readonly why: string }
    /** It is a document of a version that is not known here. */
    | { readonly sort: 'other version'; readonly version: string };

/** Versions that keep their meaning for a reader of version 1. */
const versionsRead = /^1\.(0|[1-9]\d{0,5})$/;

/** Deeper nesting is refused, so that no text can exhaust the stack. */
const deepestNesting = 400;

/**
 * Reads the bytes of a document. It must be I-JSON (RFC 7493): UTF-8, no name twice in one object; otherwise two readers
 * could read two things in it, and only one of these was signed. Never throws.
 */
export function readDocument(bytes: Uint8Array): DocumentReading {
    let value: unknown;
    let canonical: string;
    try {
        const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
        if (text.trim() === '') return noDocument('This file is empty.');
        if (isTooDeep(text)) return noDocument('The brackets stand too deep inside each other.');
        value = JSON.parse(text);
        if (hasNameTwice(text)) return noDocument('A name stands twice in one object.');
        canonical = canonicalJson(value);
    } catch {
        // What the parser says of a mistake can hold some of the text, which is of no use to anybody.
        return noDocument('This is no JSON in UTF-8 that everybody reads alike.');
    }
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return noDocument('This is no object.');
    const { format, formatVersion: version } = value as Readonly<Record<string, unknown>>;
    if (format !== formatName) return noDocument(`Its \`format\` is not \`${formatName}\`.`);
    if (typeof version !== 'string') return noDocument('It has no `formatVersion`.');
    if (!versionsRead.test(version)) return { sort: 'other version', version };
    if (version !== formatVersion) return { sort: 'document', document: undefined, canonical };
    const problem = schemaProblem(value);
    if (problem) return noDocument(`It is not as its schema says: ${problem.why} (${problem.where || '/'})`);
    return { sort: 'document', document: value as TreeDocument, canonical };
}

/** Whether brackets of a text stand deeper than they may, whatever else is wrong with it. */
function isTooDeep(text: string): boolean {
    let depth = 0;
    let isInText = false;
    for (let offset = 0; offset < text.length && depth <= deepestNesting; offset += 1) {
        const sign = text[offset];
        if (sign === '"') isInText = !isInText;
        else if (isInText && sign === '\\') offset += 1;
        else if (!isInText && (sign === '{' || sign === '[')) depth += 1;
        else if (!isInText && (sign === '}' || sign === ']')) depth -= 1;
    }
    return depth > deepestNesting;
}

/** Whether an object in a text that is JSON has two properties of one name: readers differ in which of them they take. */
function hasNameTwice(text: string): boolean {
    // Names of the objects that are open; undefined for a list.
    const open: (Set<string> | undefined)[] = [];
    for (const [token, colon] of text.matchAll(/"[^"\\]*(?:\\.[^"\\]*)*"(\s*:)?|[{}[\]]/gs)) {
        if (token === '}' || token === ']') open.pop();
        else if (token === '{' || token === '[') open.push(token === '{' ? new Set() : undefined);
        else if (colon !== undefined) {
            const name = JSON.parse(token.slice(0, -colon.length)) as string;
            if (open.at(-1)?.has(name)) return true;
            open.at(-1)?.add(name);
        }
    }
    return false;
}

function noDocument(why: string): DocumentReading {
    return { sort: 'no document', why };
}
