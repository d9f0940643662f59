/** JSON with places: it reads what the platform's own reader (ECMAScript's JSON.parse) reads, and says where the rest is wrong. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type JsonTree, readJson } from '../../../language/src/core/text/json-tree.js';

/** The plain value of a tree. */
function toValue(tree: JsonTree): unknown {
    if (tree.sort === 'scalar') return tree.value;
    if (tree.sort === 'array') return tree.items.map(toValue);
    // As in JSON.parse, the later of two properties of one name counts.
    const value: Record<string, unknown> = {};
    for (const { name, value: inner } of tree.properties) {
        Object.defineProperty(value, name, {
            value: toValue(inner),
            enumerable: true,
            configurable: true,
            writable: true,
        });
    }
    return value;
}

function parse(text: string): unknown {
    try {
        return { value: JSON.parse(text) as unknown };
    } catch {
        return 'no JSON';
    }
}

function readValue(text: string): unknown {
    const tree = readJson(text);
    return tree.sort === 'problem' ? 'no JSON' : { value: toValue(tree) };
}

describe('compared with JSON.parse', () => {
    test('it gives the same values', () => {
        fc.assert(
            fc.property(fc.json({ maxDepth: 5 }), text => {
                expect(readValue(text)).toEqual(parse(text));
            }),
        );
    });

    test('it takes and refuses the same texts', () => {
        const pieces = [
            '{',
            '}',
            '[',
            ']',
            ',',
            ':',
            '"a"',
            '"\\u00e4"',
            '"',
            "'",
            '0',
            '01',
            '-',
            '1.5e3',
            '1.',
            'true',
            'nul',
            ' ',
            '\n',
            '\t',
            '//',
            '\u0007',
        ];
        const text = fc.array(fc.constantFrom(...pieces), { maxLength: 9 }).map(parts => parts.join(''));
        fc.assert(
            fc.property(text, written => {
                expect(readValue(written)).toEqual(parse(written));
            }),
            { numRuns: 5000 },
        );
    });

    test('it takes and refuses the same texts after one slip', () => {
        const slip = fc.tuple(fc.json({ maxDepth: 3 }), fc.nat(), fc.constantFrom('', '"', ',', '}', '\\', '0'));
        fc.assert(
            fc.property(slip, ([text, place, sign]) => {
                const at = place % (text.length + 1);
                const written = text.slice(0, at) + sign + text.slice(at + 1);
                expect(readValue(written)).toEqual(parse(written));
            }),
        );
    });
});

describe('places', () => {
    test('are those of the text', () => {
        const text = '{ "a": [1, "b"] }';
        const tree = readJson(text);
        expect(tree).toMatchObject({
            sort: 'object',
            start: 0,
            end: 17,
            properties: [
                {
                    name: 'a',
                    nameStart: 2,
                    nameEnd: 5,
                    start: 2,
                    end: 15,
                    value: {
                        sort: 'array',
                        start: 7,
                        end: 15,
                        items: [
                            { start: 8, end: 9 },
                            { start: 11, end: 14 },
                        ],
                    },
                },
            ],
        });
    });

    test.each([
        ['', 0, 'The text ends before a value.'],
        ['{', 1, 'A name in double quotes is expected here.'],
        ['{ "a" 1 }', 6, 'A colon is expected here.'],
        ['{ "a": }', 7, 'A value is expected here'],
        ['{ "a": 1 "b": 2 }', 9, 'A comma or a closing brace is expected here.'],
        ['[1 2]', 3, 'A comma or a closing bracket is expected here.'],
        ['{ "a": 1, }', 10, 'A name in double quotes is expected here.'],
        ["{ 'a': 1 }", 2, 'A name in double quotes is expected here.'],
        ['{ "a": \'b\' }', 7, 'JSON needs double quotation marks.'],
        ['// a\n{}', 0, 'JSON has no comments.'],
        ['{ "a": "b\n" }', 7, 'This text has no closing quotation mark'],
        ['{} {}', 3, 'Nothing may follow the closing brace.'],
    ])('of what is wrong in %j are exact', (text, start, message) => {
        const problem = readJson(text);
        expect(problem).toMatchObject({ sort: 'problem', start });
        expect(problem.sort === 'problem' ? problem.message : '').toContain(message);
    });
});

test('a byte order mark is passed over', () => {
    expect(readJson('\uFEFF{}')).toMatchObject({ sort: 'object', start: 1, end: 3 });
});

test('nesting that would exhaust the stack is refused', () => {
    expect(readJson('['.repeat(100_000))).toMatchObject({ sort: 'problem', start: 64 });
    expect(readJson(`${'['.repeat(64)}${']'.repeat(64)}`)).toMatchObject({ sort: 'array' });
});
