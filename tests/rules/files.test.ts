/** Files that are named: where they are looked for, what is wrong with them, and circles of them. */
import { describe, expect, test } from 'vitest';
import { check } from '../support/check.js';

const codes = (texts: Readonly<Record<string, string>>) =>
    check(texts).map(line => line.replace(/ at .*?:\d.*?: /, ': '));

describe('a named file', () => {
    test('is looked for from the folder of the file that names it', () => {
        expect(codes({ 'a/b/c.fault': 'uses "../d.fault"', 'a/d.fault': '' })).toEqual([]);
        expect(codes({ 'a/b/c.fault': 'uses "d.fault"', 'a/d.fault': '' })).toEqual([
            'missing-file: There is no file `d.fault`.',
        ]);
    });

    test('must be a source to be used', () => {
        expect(codes({ 'a.fault': 'uses "notes.txt"', 'notes.txt': '' })).toEqual([
            'missing-file: The file `notes.txt` is there, but it is not read: a source has a name that ends in `.fault`.',
        ]);
    });

    test('may not lie outside the workspace', () => {
        expect(
            codes({ 'a/b.fault': 'uses "../../c.fault"\nuses "/c.fault"\nuses "file:///c.fault"\nuses "D:/c.fault"' }),
        ).toEqual([
            'path-outside: The path `../../c.fault` leads out of the workspace.',
            'path-outside: The path `/c.fault` begins at the top of a drive, which is another one on each computer.',
            'path-outside: `file:///c.fault` is an address and not a file of the workspace.',
            'path-outside: The path `D:/c.fault` begins at the top of a drive, which is another one on each computer.',
        ]);
    });

    test('can be a picture anywhere that pictures stand', () => {
        const picture = 'picture "x.svg"';
        const text = [
            `equipment e { ${picture} hazard h { thermal ${picture} } zone z { ${picture} } part p { ${picture} fault f { ${picture} } }`,
            `test t { observe ${picture} normal yes } gate g { ${picture} } instrument i { ${picture} } }`,
            `procedure q { ${picture} step s { ${picture} go r } result r }`,
        ].join('\n');
        expect(codes({ 'a.fault': text })).toEqual(
            Array.from({ length: 10 }, () => 'missing-picture: There is no picture `x.svg`.'),
        );
    });
});

describe('files that use each other', () => {
    test('in a circle are told once, with the way round', () => {
        expect(
            codes({
                'a.fault': 'uses "b.fault"',
                'b.fault': 'uses "c.fault"',
                'c.fault': 'uses "a.fault"\nuses "d.fault"',
                'd.fault': '',
            }),
        ).toEqual([
            'uses-circle: These files use each other in a circle: `a.fault` → `b.fault` → `c.fault` → `a.fault`.',
        ]);
    });

    test('in two circles are told twice', () => {
        expect(
            codes({ 'a.fault': 'uses "b.fault"', 'b.fault': 'uses "a.fault"', 'c.fault': 'uses "c.fault"' }),
        ).toEqual([
            'uses-circle: These files use each other in a circle: `a.fault` → `b.fault` → `a.fault`.',
            'uses-circle: This file uses itself.',
        ]);
    });
});
