/** Short forms for tests of lowering: a text in, the core model and its facts as lines out. */
import type { AstNode } from 'langium';
import type { Reference, Span } from '../../language/src/core/model/written.js';
import { type Lowered, lowerFile, type LoweringOptions } from '../../language/src/lower/lower-file.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';

/** The file that texts are taken for. */
export const file = 'example.fault';

/** The model of a text, which need not be whole. */
export function lower(text: string, options?: LoweringOptions): Lowered {
    return lowerFile(parseText(text, file).root, file, options);
}

/** The model of a text that must be free of slips, so that a test does not rest on half of its text. */
export function lowerWhole(text: string): Lowered {
    const { root, findings } = parseText(text, file);
    if (findings.length > 0) throw new Error(`The text of the test is wrong: ${findings[0]?.message ?? ''}`);
    return lowerFile(root, file);
}

/** The findings of lowering as `code "place": message`. */
export function findingsOf(text: string): string[] {
    return lowerWhole(text).findings.map(({ code, start, end, message }) => {
        return `${code} "${text.slice(start, end)}": ${message}`;
    });
}

/** Every reference of a text as `role name`, in the order of their numbers. */
export function rolesOf(text: string): string[] {
    return referencesIn(lowerWhole(text).model).map(reference => `${reference.role} ${reference.text}`);
}

/** The references within a part of a model, in the order of their numbers. */
export function referencesIn(model: object): Reference[] {
    const references = objectsIn(model).filter(object => 'role' in object) as Reference[];
    return references.sort((a, b) => a.number - b.number);
}

/** All that has a place within a part of a model. */
export function spansIn(model: object): Span[] {
    return objectsIn(model).filter(object => 'start' in object && 'end' in object) as Span[];
}

/** Every object within a part of a model, itself included, lists left out. */
export function objectsIn(model: object): object[] {
    const objects: object[] = [];
    const pending: unknown[] = [model];
    for (let next = pending.pop(); pending.length > 0 || next !== undefined; next = pending.pop()) {
        if (typeof next !== 'object' || next === null) continue;
        if (!Array.isArray(next)) objects.push(next);
        pending.push(...(Object.values(next) as unknown[]).filter(value => typeof value === 'object'));
    }
    return objects;
}

/** Every node of a syntax tree. */
export function syntaxNodesIn(root: AstNode): AstNode[] {
    const nodes: AstNode[] = [];
    const pending: AstNode[] = [root];
    for (let next = pending.pop(); next; next = pending.pop()) {
        nodes.push(next);
        for (const [property, value] of Object.entries(next)) {
            if (property.startsWith('$')) continue;
            const values: unknown[] = Array.isArray(value) ? value : [value];
            pending.push(...values.filter(isSyntaxNode));
        }
    }
    return nodes;
}

function isSyntaxNode(value: unknown): value is AstNode {
    return typeof value === 'object' && value !== null && '$type' in value;
}
