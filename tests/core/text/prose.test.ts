/** What a written text says: quotes, escapes and the indentation of several lines. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { commonIndentation, textLines, textValue } from '../../../language/src/core/text/prose.js';

describe('a text of one line', () => {
    test.each([
        [String.raw`"Fan motor"`, 'Fan motor'],
        [String.raw`""`, ''],
        [String.raw`"a \"b\" c"`, 'a "b" c'],
        [String.raw`"a\\nb"`, String.raw`a\nb`],
        [String.raw`"a\nb\tc"`, 'a\nb\tc'],
        [String.raw`"C:\fans\q"`, String.raw`C:\fans\q`],
        [String.raw`"ends in a backslash\\"`, 'ends in a backslash\\'],
    ])('%s has its value', (written, value) => {
        expect(textValue(written)).toBe(value);
    });

    test.each([
        ['"never closed', 'never closed'],
        ['"', ''],
        [String.raw`"closed by an escaped quote\"`, 'closed by an escaped quote"'],
        ['“oddly quoted”', 'oddly quoted'],
    ])('%s has the value of what is there', (written, value) => {
        expect(textValue(written)).toBe(value);
    });
});

describe('a text of several lines', () => {
    test('loses the indentation that its lines share, the blanks at their ends, and empty lines at its quotes', () => {
        expect(textValue('"""\n    One  \n      two\n\n    three\n  """')).toBe('One\n  two\n\nthree');
    });

    test('keeps what stands beside its quotes', () => {
        expect(textValue('"""One\n    two\n      three"""')).toBe('One\ntwo\n  three');
        expect(textValue('""" One """')).toBe('One');
    });

    test('keeps empty lines other than the first and the last', () => {
        expect(textValue('"""\n\n  One\n\n"""')).toBe('\nOne\n');
    });

    test('ends its lines in line feeds, however they were written', () => {
        expect(textValue('"""\r\n  One\r  two\r\n"""')).toBe('One\ntwo');
    });

    test('may hold quotes, and escapes as a text of one line does', () => {
        expect(textValue('"""\n  "One" \\"two\\" \\\\\n"""')).toBe('"One" "two" \\');
        expect(textLines('"""\n  a\\nb\n"""')).toEqual(['a\\nb']);
    });

    test('has the value of what is there where its closing quotes are missing', () => {
        expect(textValue('"""\n  One\n  two')).toBe('One\ntwo');
    });

    test('says the same at any depth', () => {
        const line = fc.stringMatching(/^[a-z ]{0,8}[a-z]$/);
        fc.assert(
            fc.property(fc.array(line, { minLength: 1 }), fc.nat(12), (lines, depth) => {
                const written = (margin: string): string => `"""\n${lines.map(each => margin + each).join('\n')}\n"""`;
                expect(textValue(written(' '.repeat(depth)))).toBe(textValue(written('')));
            }),
        );
    });
});

test('the indentation that lines share is compared character by character', () => {
    expect(commonIndentation(['\t  a', '\t b', '', '   '])).toBe('\t ');
    expect(commonIndentation(['\ta', ' b'])).toBe('');
    expect(commonIndentation(['', ' '])).toBe('');
});

test('a long row of backslashes is read at once', () => {
    const started = performance.now();
    expect(textValue(`"${'\\'.repeat(200_000)}"`)).toHaveLength(100_000);
    expect(performance.now() - started).toBeLessThan(2000);
});
