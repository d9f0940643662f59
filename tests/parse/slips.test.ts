/** What is said of slips in spelling: one finding for each, at its place, with what could stand there. */

import { describe, expect, test } from 'vitest';
import { applyEdits } from '../../language/src/format/format-text.js';
import { lineStarts, positionAt } from '../../language/src/core/text/positions.js';
import { parseText } from '../../language/src/lower/parse/parse-text.js';

describe('a misspelt word', () => {
    test('is named with what could stand there and with the word of a similar spelling', () => {
        expect(slipsIn('tree t {\n  cmplaint flow absent, low when fan on\n  step a { go b }\n}')).toEqual([
            '2:3 `cmplaint` unexpected-text: Here stands `cmplaint`; a tree can hold `complaint`, `step`, `conclude`, ' +
                '`refer`, `still`, `disagree`, … | There is a word with a similar spelling: `complaint`.',
        ]);
    });

    test.each([
        ['step s {\n  doo "X" sets a b takes 1 min\n}', 'doo', 'do'],
        ['Step s { go b }', 'Step', 'step'],
        ['step s { test a { normal -> b } gat lockout }', 'gat', 'gate'],
    ])('in %s is mended by one edit', (inside, wrong, right) => {
        const text = `tree t {\n${inside}\n}`;
        const { findings } = parseText(text, 'file.fault');
        expect(findings.map(({ start, end }) => text.slice(start, end))).toEqual([wrong]);
        expect(findings.map(({ edits }) => edits.map(edit => edit.text))).toEqual([[right]]);
    });

    test('is found where the parser took it for a name and stopped later', () => {
        expect(placesIn('equipment e {\n  test t {\n    mesure voltage DC\n    normal yes\n  }\n}')).toEqual([
            '3:5 mesure',
        ]);
        expect(placesIn('equipment e {\n  option a { b sahre 30 % }\n}')).toEqual(['2:16 sahre']);
    });
});

describe('a slip in a heading', () => {
    test('is said with what the heading could go on with, and the block behind it is read', () => {
        const text = 'tree t "T" e {\n  step a Look here {\n    do "X"\n  }\n  stp b\n}';
        expect(messagesIn(text)).toEqual([
            'Here stands `e`; `of`, `for` or `{` can stand here.',
            'Here stands `Look`; a text in quotes, `for` or `{` can stand here.',
            'Here stands `stp`; a tree can hold `complaint`, `step`, `conclude`, `refer`, `still`, `disagree`, …',
        ]);
        expect(parseText(text, 'file.fault').root.declarations).toMatchObject([
            { members: [{ $type: 'Step', statements: [{ $type: 'Do' }] }] },
        ]);
    });

    test.each([
        ['equipment test "E" { }', '`test` is a word of the language, so it cannot be a name here.'],
        ['equipment 24v-box { }', '`24v` cannot be a name here: a name begins with a letter.'],
        ['equipment "E" { }', 'A text stands here, but a name is expected.'],
    ])('%s: %s', (text, message) => {
        expect(messagesIn(text)).toEqual([message]);
    });
});

describe('a statement that is not complete', () => {
    test.each([
        ['equipment e { test t { takes min } }', 'Here stands `min`, but a number with its unit is expected.'],
        ['equipment e { test t { normal < } }', 'The block ends here, but a number with its unit is expected.'],
        ['tree t { step s { test a { normal b } } }', 'Here stands `b`, but `,` or `->` is expected.'],
        ['tree t { step s { do } }', 'The block ends here, but a text in quotes is expected.'],
        ['tree t { step s { gate } }', 'The block ends here, but the name of a gate is expected.'],
        ['uses', 'The file ends here, but a text in quotes is expected.'],
    ])('%s', (text, message) => {
        expect(messagesIn(text)).toEqual([message]);
    });

    test('at the end of the file is marked at the last word', () => {
        expect(slipsIn('equipment e { }\nuses \n\n')).toEqual([
            '2:1 `uses` unexpected-text: The file ends here, but a text in quotes is expected.',
        ]);
    });
});

describe('braces that do not pair off', () => {
    test('a block that is not closed is named where it opens, with the place for its brace', () => {
        expect(slipsIn('equipment e {\n  part k1 {\n    fault f "F"\n  part k2 { }\n}\ntree t { }')).toEqual([
            '2:11 `{` unexpected-text: The block of `part k1` is not closed. | Write `}` before `part` in line 4.',
        ]);
    });

    test('a block that nothing opens is named where it should', () => {
        expect(slipsIn('equipment e {\n  part k1 "K1"\n    fault f "F"\n  }\n  part k2 { }\n}')).toEqual([
            '2:11 `"K1"` unexpected-text: The block of `part k1` has no `{`. | ' +
                'Write `{` in line 2 before what the block holds.',
        ]);
    });

    test('a brace too many is marked, and what follows is read in its block', () => {
        const text = 'equipment e {\n  part k1 {\n    fault f { }\n    }\n    fault g\n  }\n  part k2 { }\n}';
        expect(slipsIn(text)).toEqual([
            '4:5 `}` unexpected-text: This `}` closes no block. | Remove it, or write the `{` that it closes.',
        ]);
        expect(parseText(text, 'file.fault').root.declarations).toMatchObject([
            { members: [{ name: 'k1' }, { name: 'k2' }] },
        ]);
    });

    test('a file that breaks off gives one finding for all its open blocks', () => {
        expect(slipsIn('tree t {\n  step s {\n    do "X"')).toEqual([
            '2:10 `{` unexpected-text: The block of `step s` is not closed. | ' +
                'The file ends without 2 closing braces: write `}` where each block ends.',
        ]);
    });
});

describe('texts and comments without their end', () => {
    test('a text ends with its line, and the brace behind it opens the block', () => {
        expect(slipsIn('equipment e {\n  part k1 "K1 {\n    fault f\n  }\n}')).toEqual([
            '2:11 `"K1` unclosed-text: This text has no closing quote on its line. | ' +
                'Write `"` where the text ends. A text of several lines stands between three quotes: `"""`.',
        ]);
    });

    test('a line with an odd number of quotes is one slip', () => {
        expect(messagesIn('equipment e {\n  part k1 "K1 { fault f "F" }\n  part k2 { }\n}')).toEqual([
            'This line has an odd number of quotes: one of its texts has no closing quote.',
        ]);
    });

    test('a text of several lines between single quotes is told how to be written', () => {
        const text = 'equipment e {\n  note "One\n    two." for a\n  part p\n}';
        expect(messagesIn(text)).toEqual(['This text runs over several lines, but it stands between single quotes.']);
        expect(messagesIn(mended(text))).toEqual([]);
    });

    test('what has no end at all reaches to the end of the file and gives one finding', () => {
        expect(slipsIn('equipment e {\n  part p /* here\n  part q\n}')).toEqual([
            '2:10 `/*` unclosed-text: This comment has no end. | Write `*/` where the comment ends.',
        ]);
        expect(slipsIn('equipment e {\n  note """here\n  part q\n}')).toEqual([
            '2:8 `"""` unclosed-text: This text begins with three quotes, but no three quotes close it. | ' +
                'Write `"""` where the text ends.',
        ]);
    });
});

describe('signs that the language does not know', () => {
    test.each([
        ['equipment e { part p; }', ';', 'Remove it: a line needs no mark at its end.'],
        ['equipment e { flow f: a → b }', '→', 'Write the arrow as `->`.'],
        ['equipment e { part p “Pump” }', '“Pump”', 'Write straight double quotes around it: `"`.'],
        ["equipment e { part p 'Pump' }", "'Pump'", 'Write straight double quotes around it: `"`.'],
        ['# Parts of the pump\nequipment e { part p }', '#', 'A comment begins with `//`.'],
        ['equipment e { test t { calculate x from a – b } }', '–', 'Write the hyphen or minus sign as `-`.'],
    ])('in %s the sign %s is mended by its edit', (text, sign, mend) => {
        const { findings } = parseText(text, 'file.fault');
        expect(findings).toMatchObject([{ code: 'unexpected-character', mend }]);
        expect(findings.map(({ start, end }) => text.slice(start, end))).toEqual([sign]);
        expect(messagesIn(mended(text))).toEqual([]);
    });

    test('give one finding for a line', () => {
        expect(placesIn('equipment e {\n  part p @ § ^\n  part q @\n}')).toEqual(['2:10 @', '3:10 @']);
    });

    test('no single character stops the reading', () => {
        for (let code = 1; code <= 0xffff; code += 1) {
            const text = ` ${String.fromCharCode(code)} `;
            const { findings } = parseText(text, 'file.fault');
            expect(findings.length).toBeLessThanOrEqual(1);
            expect(findings.every(({ start, end }) => start >= 0 && start < end && end <= text.length)).toBe(true);
        }
    });
});

test('several slips give a finding each, in the order of the file', () => {
    expect(
        placesIn(
            'equipment e {\n  prt a\n  part b { falt f }\n  part c “C”\n  test t {\n    takes min\n    normal yes\n  }\n  fixed\n}',
        ),
    ).toEqual(['2:3 prt', '3:12 falt', '4:10 “C”', '6:11 min', '9:3 fixed']);
});

test('messages speak of nothing that a writer has not written', () => {
    const texts = [
        'tree',
        'tree t { step { } }',
        'x',
        '}',
        'equipment e { test t { normal 3 .. } }',
        'tree t { step s { test a {',
        '"',
        '/*',
    ];
    for (const { message, mend } of texts.flatMap(text => parseText(text, 'file.fault').findings)) {
        expect(`${message} ${mend ?? ''}`).not.toMatch(/token|EOF|production|expecting|undefined|NaN|\?|illegal/i);
    }
});

function slipsIn(text: string): string[] {
    const starts = lineStarts(text);
    return parseText(text, 'file.fault').findings.map(({ code, start, end, message, mend }) => {
        const { line, column } = positionAt(starts, start);
        const tail = mend === undefined ? '' : ` | ${mend}`;
        return `${line}:${column} \`${text.slice(start, end)}\` ${code}: ${message}${tail}`;
    });
}

function placesIn(text: string): string[] {
    return slipsIn(text).map(slip => slip.replace(/^(\d+:\d+) `([\s\S]*?)` un[\s\S]*$/, '$1 $2'));
}

function messagesIn(text: string): string[] {
    return parseText(text, 'file.fault').findings.map(({ message }) => message);
}

function mended(text: string): string {
    const edits = parseText(text, 'file.fault').findings.flatMap(finding => finding.edits);
    return applyEdits(text, edits);
}
