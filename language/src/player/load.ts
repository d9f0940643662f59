// Reads a document that comes from anywhere: every shape, every reference, every limit. What is loaded is a copy, so that nothing
// that happens to the document later has a say.

import type { TreeDocument } from '../document/types.js';
import { checkShapes } from './check-shapes.js';
import { indexTree, type Tree } from './tree.js';

/** Something that keeps a document from being walked. */
export interface LoadProblem {
    /** The place in the document, as a JSON Pointer (RFC 6901); empty for the whole of it. */
    readonly where: string;
    /** One sentence. */
    readonly why: string;
}

export type Loaded =
    | { readonly tree: Tree; readonly problem?: undefined }
    | { readonly problem: LoadProblem; readonly tree?: undefined };

/**
 * Makes a tree of an exported document, as `JSON.parse` gives it. Properties that are not known are left out, so that a document of
 * a later version 1.x can be walked. It never throws.
 */
export function loadTree(document: unknown): Loaded {
    try {
        return load(document);
    } catch {
        // Plain data never comes here; a proxy or a property that runs code can.
        return { problem: { where: '', why: 'This is no plain data, as a JSON file gives it.' } };
    }
}

function load(document: unknown): Loaded {
    const problem = problemOfHeader(document);
    if (problem) return { problem };
    const checked = checkShapes(document);
    if (checked.problem) return { problem: checked.problem };
    // Every shape and every reference has been checked.
    return indexTree(checked.copy as TreeDocument);
}

function problemOfHeader(document: unknown): LoadProblem | undefined {
    if (typeof document !== 'object' || document === null || Array.isArray(document)) {
        return { where: '', why: 'A document is a JSON object.' };
    }
    const format: unknown = Object.hasOwn(document, 'format')
        ? (document as Record<string, unknown>)['format']
        : undefined;
    if (format !== 'halfsplit-tree') return { where: '/format', why: 'The format of a document is `halfsplit-tree`.' };
    const version: unknown = Object.hasOwn(document, 'formatVersion')
        ? (document as Record<string, unknown>)['formatVersion']
        : undefined;
    if (typeof version !== 'string' || !/^\d{1,6}\.\d{1,6}$/.test(version)) {
        return { where: '/formatVersion', why: 'The version is two numbers with a point between them.' };
    }
    return version.startsWith('1.')
        ? undefined
        : { where: '/formatVersion', why: `This is a document of version ${version}; only version 1 can be walked.` };
}
