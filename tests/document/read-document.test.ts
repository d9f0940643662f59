/** Reading a document as strictly as a signature needs it, and the check by the schema against another implementation of JSON Schema. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson, prettyJson } from '../../language/src/document/canonical.js';
import { type DocumentReading, readDocument } from '../../language/src/document/read-document.js';
import { schemaProblem } from '../../language/src/document/schema/check.js';
import type { TreeDocument } from '../../language/src/document/types.js';
import { exportFrom, filesOf, schemaErrors } from './support.js';

const document = await exportFrom(filesOf('examples/dust-extractor'), 'no-airflow');

function read(text: string): DocumentReading {
    return readDocument(new TextEncoder().encode(text));
}

test('the pretty and the canonical form of a document have one canonical form', () => {
    const expected = { sort: 'document', document, canonical: canonicalJson(document) };
    expect(read(prettyJson(document))).toEqual(expected);
    expect(read(canonicalJson(document))).toEqual(expected);
    expect(read(`\r\n\t ${JSON.stringify(document)} `)).toEqual(expected);
});

describe('what is no document', () => {
    const pretty = prettyJson(document);
    test.each([
        ['nothing', '', 'This file is empty.'],
        ['only space', ' \n', 'This file is empty.'],
        ['a list', '[]', 'This is no object.'],
        ['null', 'null', 'This is no object.'],
        ['another object', '{"format":"other"}', 'Its `format` is not `halfsplit-tree`.'],
        ['no version', '{"format":"halfsplit-tree"}', 'It has no `formatVersion`.'],
        ['half a document', pretty.slice(0, -3), 'This is no JSON in UTF-8 that everybody reads alike.'],
        ['a byte order mark', `\uFEFF${pretty}`, 'This is no JSON in UTF-8 that everybody reads alike.'],
        ['a number that is too large', '{"format":1e999}', 'This is no JSON in UTF-8 that everybody reads alike.'],
        // RFC 7493 (I-JSON) section 2.1.
        ['half of a pair', String.raw`{"a":"\ud800"}`, 'This is no JSON in UTF-8 that everybody reads alike.'],
        // RFC 7493 section 2.3.
        ['a name twice', '{"a":1,"b":{"a":2},"a":1}', 'A name stands twice in one object.'],
        ['a name twice, written in two ways', String.raw`{"a":1,"\u0061" :2}`, 'A name stands twice in one object.'],
        ['brackets in brackets', '['.repeat(401) + ']'.repeat(401), 'The brackets stand too deep inside each other.'],
        ['more brackets', '['.repeat(5e6), 'The brackets stand too deep inside each other.'],
        [
            'a text without an end',
            `{"a":"${String.raw`\"`.repeat(1e6)}`,
            'This is no JSON in UTF-8 that everybody reads alike.',
        ],
        [
            'a million objects',
            `${'{"a":'.repeat(1e6)}1${'}'.repeat(1e6)}`,
            'The brackets stand too deep inside each other.',
        ],
    ])('%s', (_, text, why) => {
        expect(read(text)).toEqual({ sort: 'no document', why });
    });

    test('bytes that are no UTF-8', () => {
        expect(readDocument(new Uint8Array([0x7b, 0xff, 0x7d]))).toMatchObject({ sort: 'no document' });
    });

    test('names and brackets inside of texts count for nothing', () => {
        const title = { en: String.raw`{"a":1,"a":1} \" [[[ "a": ` };
        const odd = { ...document, tree: { ...document.tree, title } };
        expect(read(prettyJson(odd))).toMatchObject({ sort: 'document' });
    });

    test('no bytes stop it', () => {
        fc.assert(
            fc.property(fc.uint8Array({ maxLength: 200 }), bytes => {
                expect(readDocument(bytes).sort).toBe('no document');
            }),
        );
    });
});

describe('versions', () => {
    test.each([
        ['1.1', 'document'],
        ['1.12', 'document'],
        ['1', 'other version'],
        ['1.', 'other version'],
        ['1.01', 'other version'],
        ['2.0', 'other version'],
        ['10.0', 'other version'],
        ['1.0.0', 'other version'],
    ])('%s', (version, sort) => {
        const later = { ...document, formatVersion: version, news: true };
        const reading = read(JSON.stringify(later));
        expect(reading.sort).toBe(sort);
        if (reading.sort === 'document') {
            expect(reading.document).toBeUndefined();
            expect(reading.canonical).toBe(canonicalJson(later));
        }
    });
});

describe('the schema', () => {
    test('names the place of what is wrong', () => {
        const wrong = { ...document, tree: { ...document.tree, steps: [{ ...document.tree.steps[0], 'a/b~c': 1 }] } };
        expect(schemaProblem(wrong)).toEqual({
            where: '/tree/steps/0/a~1b~0c',
            why: 'Nothing of this name may stand here.',
        });
        expect(read(JSON.stringify(wrong))).toEqual({
            sort: 'no document',
            why: 'It is not as its schema says: Nothing of this name may stand here. (/tree/steps/0/a~1b~0c)',
        });
    });

    // The outside check: Ajv, a library for JSON Schema.
    test('finds something exactly where another implementation does', () => {
        let wrong = 0;
        fc.assert(
            fc.property(anyDamage(document), damaged => {
                const isWrong = schemaErrors(damaged).length > 0;
                if (isWrong) wrong += 1;
                expect(schemaProblem(damaged) !== undefined).toBe(isWrong);
            }),
            { numRuns: 200, seed: 20_260_131 },
        );
        expect(wrong).toBeGreaterThan(100);
        expect(wrong).toBeLessThan(200);
    });
});

/** The document with one value in it changed, taken out, or put beside under another name. */
function anyDamage(whole: TreeDocument): fc.Arbitrary<unknown> {
    const places = placesIn(whole, []);
    const values = fc.constantFrom<unknown>(
        true,
        false,
        null,
        0,
        1.5,
        '',
        'a',
        'normal',
        'test',
        [],
        {},
        ['a'],
        { en: 'a' },
        [],
    );
    const names = fc.constantFrom(
        'id',
        'type',
        'en',
        'test',
        'guard',
        'title',
        'constructor',
        '__proto__',
        'hasOwnProperty',
    );
    return fc
        .tuple(fc.constantFrom(...places), fc.constantFrom('set', 'cut', 'add'), values, names)
        .map(([at, how, value, name]) => {
            const copy = structuredClone(whole) as unknown;
            const last = at.at(-1) ?? '';
            const owner = at
                .slice(0, -1)
                .reduce<unknown>((inner, step) => (inner as Record<string, unknown>)[step], copy) as Record<
                string,
                unknown
            >;
            if (how === 'set') define(owner, last, value);
            else if (how === 'add') define(owner, Array.isArray(owner) ? String(owner.length) : name, value);
            else if (Array.isArray(owner)) owner.splice(Number(last), 1);
            else delete owner[last];
            return copy;
        });
}

/** Also for `__proto__`, which is a property like any other in what JSON gives. */
function define(owner: object, name: string, value: unknown): void {
    Object.defineProperty(owner, name, { value, enumerable: true, writable: true, configurable: true });
}

function placesIn(value: unknown, at: readonly string[]): readonly (readonly string[])[] {
    if (typeof value !== 'object' || value === null) return [at];
    return [
        ...(at.length === 0 ? [] : [at]),
        ...Object.entries(value).flatMap(([name, entry]) => placesIn(entry, [...at, name])),
    ];
}
