/** Reading a text, whatever it is: it returns, its places lie in the text, and limits are findings. */

import { describe, expect, test } from 'vitest';
import {
    deepestNesting,
    longestCalculation,
    longestLine,
    longestText,
    mostFindings,
} from '../../language/src/lower/parse/limits.js';
import { createParserServices } from '../../language/src/lower/parse/parser-module.js';
import { parseText, type ParsedFile } from '../../language/src/lower/parse/parse-text.js';
import type { FaultParseResult } from '../../language/src/lower/parse/fault-parser.js';

describe('a text without slips', () => {
    test('gives its syntax tree and its comments with their places', () => {
        const text = '// One\nuses "a.fault" /* two */\nequipment e { }';
        const parsed = parseText(text, 'folder/e.fault');
        expect(parsed.file).toBe('folder/e.fault');
        expect(parsed.findings).toEqual([]);
        expect(parsed.root).toMatchObject({ uses: [{ path: '"a.fault"' }], declarations: [{ name: 'e' }] });
        expect(parsed.comments.map(({ start, end }) => text.slice(start, end))).toEqual(['// One', '/* two */']);
    });

    test('may begin with a byte order mark, which counts for the places', () => {
        const { root, findings } = parseText('\uFEFFequipment e { }', 'e.fault');
        expect(findings).toEqual([]);
        expect(root.declarations[0]?.$cstNode?.offset).toBe(1);
    });

    test('may end its lines in any way', () => {
        for (const end of ['\n', '\r\n', '\r']) {
            const { root, findings } = parseText(`equipment e {${end}  // p${end}  part p${end}}${end}`, 'e.fault');
            expect(findings).toEqual([]);
            expect(root.declarations).toMatchObject([{ members: [{ name: 'p' }] }]);
        }
    });

    test('may be empty', () => {
        expect(parseText('', 'e.fault')).toMatchObject({ findings: [], comments: [], root: { $type: 'File' } });
    });
});

describe('what is no text', () => {
    test('is refused at its first zero character', () => {
        expect(onlyFinding('equipment e \0 { }')).toMatchObject({
            code: 'unreadable-file',
            start: 12,
            end: 13,
            message: 'This is not a text file: it contains a zero character.',
        });
    });

    test('is refused where many characters are none of a text', () => {
        expect(onlyFinding('\u0001\u0002PK\u0003\u0004'.repeat(50))).toMatchObject({ code: 'unreadable-file' });
        expect(onlyFinding('\uFFFD\uFFFDabc'.repeat(50))).toMatchObject({ code: 'unreadable-file' });
    });

    test('is told apart from a text with one character that was not saved as UTF-8', () => {
        const text = `equipment e "Stra\uFFFDe" { } // ${'word '.repeat(20)}`;
        expect(onlyFinding(text)).toMatchObject({ code: 'unexpected-character', start: 17, end: 18 });
    });
});

describe('a limit', () => {
    test('is the length of the file', () => {
        const line = `${' '.repeat(99)}\n`;
        const allowed = line.repeat(Math.floor(longestText / line.length));
        expect(parseText(allowed, 'e.fault').findings).toEqual([]);
        expect(onlyFinding(allowed + line)).toMatchObject({ code: 'unreadable-file', start: 0, end: 1 });
    });

    test.each(['\n', '\r'])('is the length of a line, whose end is %j', end => {
        const before = `equipment e { }${end}`;
        expect(parseText(`${before}${' '.repeat(longestLine)}${end}`, 'e.fault').findings).toEqual([]);
        const start = before.length;
        expect(onlyFinding(`${before}${' '.repeat(longestLine + 1)}${end}`)).toMatchObject({
            code: 'unreadable-file',
            start,
            end: start + 1,
        });
    });

    test.each([
        ['brackets', '(', ')'],
        ['`not`', 'not ', ''],
        ['brackets with `not`', 'not (', ')'],
    ])('is the depth of %s', (_, open, close) => {
        const deep = (count: number): string => `tree t for ${open.repeat(count)}a${close.repeat(count)} { }`;
        const each = open === 'not (' ? 2 : 1;
        expect(parseText(deep(deepestNesting / each), 'e.fault').findings).toEqual([]);
        expect(onlyFinding(deep(deepestNesting / each + 1))).toMatchObject({ code: 'unreadable-file' });
        expect(onlyFinding(deep(15_000))).toMatchObject({ code: 'unreadable-file' });
    });

    test('is the depth of blocks, and what stands before it is read', () => {
        const parsed = parseText(`equipment e { }\n${'tree t {\n'.repeat(5000)}`, 'e.fault');
        expect(parsed.findings.map(({ code }) => code)).toEqual(['unreadable-file']);
        expect(parsed.root.declarations[0]).toMatchObject({ $type: 'Equipment', name: 'e' });
    });

    test('is the number of signs in a calculation', () => {
        const sum = (count: number): string =>
            `equipment e { test t { calculate x from a${' + reset\n'.repeat(count)} normal yes } }`;
        expect(parseText(sum(longestCalculation), 'e.fault').findings).toEqual([]);
        expect(onlyFinding(sum(longestCalculation + 1))).toMatchObject({ code: 'unreadable-file' });
        expect(onlyFinding(sum(100_000))).toMatchObject({ code: 'unreadable-file' });
    });

    test('is the number of findings', () => {
        const { findings } = parseText('equipment e {\n  prt a\n}\n'.repeat(500), 'e.fault');
        expect(findings).toHaveLength(mostFindings);
    });
});

// Each of these took minutes or ended in an exception before something was done about it.
test.each([
    ['comments without an end', '/*\n'],
    ['quotes', '"\n'],
    ['three quotes', '""" " \n'],
    ['percent signs', 'a % b %\n'],
    ['stray signs', '@ @ @ §\n'],
    ['comments alone', '//\n'],
    ['comments between words', 'uses "a" // b\n'],
    ['opening braces', '{\n'],
    ['closing braces', '}\n'],
    ['slips at the top', 'x accept y\n'],
    ['prose', 'This machine is old and the test is fine, but no one knows why (see note).\n'],
    ['returns', '\r'],
    ['backslashes', `"${'\\\\'.repeat(40_000)}"\n`],
])('two million characters of %s are read within seconds', (_, unit) => {
    const started = performance.now();
    const text = unit.repeat(Math.floor(2_000_000 / unit.length));
    checkPlaces(text, parseText(text, 'e.fault'));
    expect(performance.now() - started).toBeLessThan(15_000);
});

describe('the parser as part of Langium', () => {
    test('words its errors as the findings do, in the language server too', () => {
        const text = 'tree t {\n  stp s { go a }\n  step “S” { go b }\n}';
        const parser = createParserServices().parser.LangiumParser;
        const { parserErrors, lexerErrors, findings } = parser.parse(text) as FaultParseResult;
        expect(findings).toEqual(parseText(text, 'e.fault').findings);
        expect([...parserErrors, ...lexerErrors].map(({ message }) => message)).toEqual(
            findings.map(({ message, mend }) => `${message}\n${mend ?? ''}`),
        );
        expect(lexerErrors).toMatchObject([{ line: 3, column: 8, length: 3 }]);
    });

    test('survives a failure of its own, says where, and reads the next file', () => {
        let fails = true;
        const convert = (written: string): string => {
            if (fails && written === 'trap') throw new Error('A failure that the test makes.');
            return written;
        };
        const parser = createParserServices({ parser: { ValueConverter: () => ({ convert }) } }).parser.LangiumParser;
        const text = 'equipment e {\n  part trap\n}';
        const { findings, value } = parser.parse(text) as FaultParseResult;
        expect(findings).toMatchObject([{ code: 'internal-failure' }]);
        expect(findings.every(({ start, end }) => start < end && end <= text.length)).toBe(true);
        expect(value).toMatchObject({ $type: 'File' });
        fails = false;
        expect(parser.parse(text)).toMatchObject({ findings: [], value: { declarations: [{ name: 'e' }] } });
    });
});

function onlyFinding(text: string): ParsedFile['findings'][number] | undefined {
    const parsed = parseText(text, 'e.fault');
    checkPlaces(text, parsed);
    expect(parsed.findings).toHaveLength(1);
    return parsed.findings[0];
}

function checkPlaces(text: string, { findings }: ParsedFile): void {
    expect(findings.filter(({ code }) => code === 'internal-failure')).toEqual([]);
    expect(findings.every(({ start, end }) => start >= 0 && start < end && end <= text.length)).toBe(true);
}
