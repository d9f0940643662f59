/** Canonical JSON against the vectors of its standard and against another implementation, and digests against published ones. */
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson, canonicalSha256, prettyJson, sha256 } from '../../language/src/document/canonical.js';

test('the example of the standard comes out as the standard prints it', () => {
    // RFC 8785 sections 3.2.2 and 3.2.3; the input is from memory, the result was also reproduced with another library.
    const input = String.raw`{
        "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
    }`;
    expect(canonicalJson(JSON.parse(input))).toBe(
        String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
});

test('properties are sorted by the UTF-16 units of their names', () => {
    // RFC 8785 section 3.2.3, with one name of its published test data added. U+1F602 is two units, of which the first is below U+FB33.
    const input = {
        '\u20ac': 'Euro Sign',
        '\r': 'Carriage Return',
        '\ufb33': 'Hebrew Letter Dalet With Dagesh',
        '1': 'One',
        '\u{1f602}': 'Smiley',
        '\u0080': 'Control',
        '\u00f6': 'Latin Small Letter O With Diaeresis',
        '</script>': 'Browser Challenge',
    };
    expect([...canonicalJson(input).matchAll(/:"([^"]+)"/g)].map(match => match[1])).toEqual([
        'Carriage Return',
        'One',
        'Browser Challenge',
        'Control',
        'Latin Small Letter O With Diaeresis',
        'Euro Sign',
        'Smiley',
        'Hebrew Letter Dalet With Dagesh',
    ]);
    expect(canonicalJson({ b: 1, a: { d: 2, c: 3 } })).toBe('{"a":{"c":3,"d":2},"b":1}');
});

describe('numbers are written as ECMAScript writes them', () => {
    // RFC 8785 appendix B, from memory: the bits of a binary number of 64 bits, and its text.
    test.each([
        ['0000000000000000', '0'],
        ['8000000000000000', '0'],
        ['0000000000000001', '5e-324'],
        ['8000000000000001', '-5e-324'],
        ['7fefffffffffffff', '1.7976931348623157e+308'],
        ['ffefffffffffffff', '-1.7976931348623157e+308'],
        ['4340000000000000', '9007199254740992'],
        ['c340000000000000', '-9007199254740992'],
        ['4430000000000000', '295147905179352830000'],
        ['44b52d02c7e14af5', '9.999999999999997e+22'],
        ['44b52d02c7e14af6', '1e+23'],
        ['44b52d02c7e14af7', '1.0000000000000001e+23'],
        ['444b1ae4d6e2ef4e', '999999999999999700000'],
        ['444b1ae4d6e2ef4f', '999999999999999900000'],
        ['444b1ae4d6e2ef50', '1e+21'],
        ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
        ['3eb0c6f7a0b5ed8d', '0.000001'],
        ['41b3de4355555553', '333333333.3333332'],
        ['41b3de4355555554', '333333333.33333325'],
        ['41b3de4355555555', '333333333.3333333'],
        ['41b3de4355555556', '333333333.3333334'],
        ['41b3de4355555557', '333333333.33333343'],
        ['becbf647612f3696', '-0.0000033333333333333333'],
        ['43143ff3c1cb0959', '1424953923781206.2'],
    ])('%s is %s', (bits, text) => {
        expect(canonicalJson(numberOf(bits))).toBe(text);
    });
});

test.each([
    ['a number that is none', Number.NaN],
    ['a number without end', Number.POSITIVE_INFINITY],
    ['half of a surrogate pair', 'a\uD800b'],
    ['the second half of a pair alone', '\uDC00'],
    ['a half in a name', { 'a\uD800': 1 }],
    ['nothing at all', undefined],
    ['nothing in a list', [undefined]],
    ['a hole in a list', new Array(1)],
    ['a function', () => 1],
    ['a large whole number of its own type', 1n],
    ['a date', new Date(0)],
    ['a map', new Map([['a', 1]])],
])('%s has no canonical form', (_, value) => {
    expect(() => canonicalJson(value)).toThrow(TypeError);
});

test('a property that is undefined counts as left out', () => {
    expect(canonicalJson({ a: undefined, b: 1 })).toBe('{"b":1}');
});

test('a property named like one of every object is only a property', () => {
    const value: unknown = JSON.parse('{"__proto__":{"a":1},"constructor":2}');
    expect(canonicalJson(value)).toBe('{"__proto__":{"a":1},"constructor":2}');
});

test('any data comes out as another implementation writes it, and reads back the same', () => {
    // The npm package canonicalize, by one of the authors of the standard's test data.
    fc.assert(
        fc.property(fc.json({ maxDepth: 5 }), text => {
            const value: unknown = JSON.parse(text);
            const canonical = canonicalJson(value);
            expect(canonical).toBe(canonicalize(value));
            expect(canonicalJson(JSON.parse(canonical))).toBe(canonical);
        }),
    );
});

test('digests are those of the standard', async () => {
    // FIPS 180-4, the examples for SHA-256 that NIST publishes.
    expect(await sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(await sha256('')).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
    expect(await sha256(new Uint8Array([0x61, 0x62, 0x63]))).toBe(await sha256('abc'));
});

test('a document read back from its form for people has the same digest', async () => {
    const value = { b: [1.5, 'ö'], a: { d: true, c: 'line\nfeed' } };
    const pretty = prettyJson(value);
    expect(pretty.startsWith('{\n  "b": [\n    1.5,')).toBe(true);
    expect(pretty.endsWith('}\n')).toBe(true);
    expect(await canonicalSha256(JSON.parse(pretty))).toBe(await canonicalSha256(value));
});

function numberOf(bits: string): number {
    const view = new DataView(new ArrayBuffer(8));
    view.setBigUint64(0, BigInt(`0x${bits}`));
    return view.getFloat64(0);
}
