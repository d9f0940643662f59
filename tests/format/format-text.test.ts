/** The layout of a file, form by form: text in, text out. */

import { describe, expect, test } from 'vitest';
import { formatText } from '../../language/src/format/format-text.js';
import { laidOut } from './support.js';

describe('blocks', () => {
    test('are indented by two spaces, whatever the file used', () => {
        expect(laidOut('part\tp {}\nequipment e\n{\n\tpart p\n{ fault f "F"\n\n\n fault g\n}\n}'.slice(9))).toBe(
            lines('equipment e {', '  part p {', '    fault f "F"', '', '    fault g', '  }', '}'),
        );
    });

    test('stay on one line where the writer put them on one that is not too long', () => {
        unchanged(
            'equipment e {',
            '  zone box "Box" { exposes mains  category III }',
            '  option filter "Filter" { bag "Bag"  cartridge "Cartridge" }',
            '  condition lid { shut open }',
            '  part p { }',
            '}',
        );
    });

    test('get one clause a line where one line is too narrow for them', () => {
        expect(
            laidOut(
                'equipment e {\n  test fan-runs "Does the fan run when the display says that it runs?" { observe by ear takes 1 min normal yes absent no }\n}',
            ),
        ).toBe(
            lines(
                'equipment e {',
                '  test fan-runs "Does the fan run when the display says that it runs?" {',
                '    observe by ear',
                '    takes 1 min',
                '    normal yes',
                '    absent no',
                '  }',
                '}',
            ),
        );
    });

    test('have no blank line at their beginning or end, and at most one between two lines', () => {
        expect(laidOut('\n\nequipment e {\n\n\n  part a\n\n\n\n  part b\n\n}\n\n\n')).toBe(
            lines('equipment e {', '  part a', '', '  part b', '}'),
        );
    });

    test('are spread over lines where only a part of them stood on one', () => {
        expect(laidOut('equipment e { part a\n part b }')).toBe(lines('equipment e {', '  part a', '  part b', '}'));
    });
});

describe('clauses that stand on one line', () => {
    test('are separated by two blanks, bare names by one', () => {
        expect(
            laidOut(
                'equipment e {\n condition c { on    off }\n test t {\n takes 3 min needs c on\n normal yes absent no }\n}',
            ),
        ).toBe(
            lines(
                'equipment e {',
                '  condition c { on off }',
                '  test t {',
                '    takes 3 min  needs c on',
                '    normal yes  absent no',
                '  }',
                '}',
            ),
        );
    });

    test('get a line each where together they are too wide', () => {
        expect(
            laidOut(
                lines(
                    'equipment e {',
                    '  gate g {',
                    '    prepare "Tell the people at the machine that it stops"   shut-down "Stop the fan and then wait for it"',
                    '  }',
                    '}',
                ),
            ),
        ).toBe(
            lines(
                'equipment e {',
                '  gate g {',
                '    prepare "Tell the people at the machine that it stops"',
                '    shut-down "Stop the fan and then wait for it"',
                '  }',
                '}',
            ),
        );
    });

    test('keep the comma of a list with what stands before it', () => {
        expect(laidOut('tree t {\n conclude c { a.b ,\n a.c , d repair "Mend" takes 3 min }\n}')).toBe(
            lines('tree t {', '  conclude c {', '    a.b,', '    a.c, d  repair "Mend" takes 3 min', '  }', '}'),
        );
    });
});

describe('headings', () => {
    test('are joined on one line where they fit', () => {
        expect(laidOut('tree t\n  "Title"\n of e\n for x\n{ }')).toBe('tree t "Title" of e for x { }\n');
    });

    test('go on at a clause, four spaces deeper, where they do not', () => {
        expect(
            laidOut(
                'equipment e {\n part p {\n  fault contacts-open "The contacts do not close" weakens at control rate 1.6 per 1e6 h for (a or b) and not c { causes q.r }\n }\n}',
            ),
        ).toBe(
            lines(
                'equipment e {',
                '  part p {',
                '    fault contacts-open "The contacts do not close" weakens at control rate 1.6 per 1e6 h',
                '        for (a or b) and not c {',
                '      causes q.r',
                '    }',
                '  }',
                '}',
            ),
        );
    });

    test('keep a long text beside the words before it', () => {
        const text = 'Follow the instructions of the maker and the rules of your country, which come before this text';
        unchanged('equipment e {', `  danger about mains "${text}"`, '}');
    });

    test('break a long list behind its commas', () => {
        expect(
            laidOut(
                'equipment e {\n zone z { exposes mains while lid open, fuel-gas, hot-water while lid open or case open, flue-gas while case open }\n}',
            ),
        ).toBe(
            lines(
                'equipment e {',
                '  zone z {',
                '    exposes mains while lid open, fuel-gas, hot-water while lid open or case open,',
                '        flue-gas while case open',
                '  }',
                '}',
            ),
        );
    });

    test('break flows before their arrows', () => {
        expect(
            laidOut(
                'equipment e {\n flow power: mains -> breaker -> contactor as main -> [line-out] -> (overload for bag or motor -> [motor-runs]) -> impeller -> hose feeds x in y\n}',
            ),
        ).toBe(
            lines(
                'equipment e {',
                '  flow power: mains -> breaker -> contactor as main -> [line-out]',
                '      -> (overload for bag or motor -> [motor-runs]) -> impeller -> hose feeds x in y',
                '}',
            ),
        );
    });
});

describe('neighboring lines', () => {
    test('of choices are aligned by title and share', () => {
        expect(
            laidOut(
                'equipment e {\n option supply {\n single-phase "230 V" share 70 %\n three-phase "400 V, three phases" share 30 %\n}\n}',
            ),
        ).toBe(
            lines(
                'equipment e {',
                '  option supply {',
                '    single-phase "230 V"               share 70 %',
                '    three-phase  "400 V, three phases" share 30 %',
                '  }',
                '}',
            ),
        );
    });

    test('of outcomes, branches and rows are aligned by bands, arrows and equals signs', () => {
        expect(
            laidOut(
                lines(
                    'table t from temperature to resistance { 0 °C = 100 Ω',
                    '100 °C = 138.5 Ω }',
                    'equipment e { test t { normal 24 V +- 10 %',
                    'low otherwise } }',
                    'tree x { step s { test t { normal -> a',
                    'low, high -> b } } }',
                ),
            ),
        ).toBe(
            lines(
                'table t from temperature to resistance {',
                '  0 °C   = 100 Ω',
                '  100 °C = 138.5 Ω',
                '}',
                'equipment e {',
                '  test t {',
                '    normal 24 V ± 10 %',
                '    low    otherwise',
                '  }',
                '}',
                'tree x {',
                '  step s {',
                '    test t {',
                '      normal    -> a',
                '      low, high -> b',
                '    }',
                '  }',
                '}',
            ),
        );
    });

    test('leave a column empty where they have nothing in it', () => {
        unchanged(
            'equipment e {',
            '  part p {',
            '    fault a  "Alpha" rate 1 per 1 h',
            '    fault bb         rate 2 per 1 h',
            '    fault c  "A longer title that nothing follows"',
            '  }',
            '}',
        );
    });

    test('are compared only where no blank line, comment or block of several lines lies between', () => {
        unchanged(
            'equipment e {',
            '  condition a "A" { on off }',
            '',
            '  condition long-name "B" { on off }',
            '  // Something else begins.',
            '  condition c "C" { on off }',
            '  condition other {',
            '    on',
            '    off',
            '  }',
            '  condition d "D" { on off }',
            '}',
        );
    });

    test('are not aligned where a line would become too wide', () => {
        const title = 'A title that is so long that it leaves hardly any place for what stands behind it';
        unchanged(
            'equipment e {',
            `  zone a "${title}" { }`,
            `  zone long-name "B" { exposes mains  category III }`,
            '}',
        );
    });
});

describe('comments', () => {
    test('stay on their lines, behind what they stood behind, and between clauses', () => {
        expect(
            laidOut(
                lines(
                    '   // first',
                    'equipment e { // behind the brace',
                    '      // of the part',
                    'part p   "P"      // behind the part',
                    '/* before */ part q /* inside */ "Q"',
                    ' in box // behind the clause',
                    '   // between the clauses',
                    ' for a',
                    '   // at the end',
                    '}     // behind the block',
                    '// last',
                ),
            ),
        ).toBe(
            lines(
                '// first',
                'equipment e {  // behind the brace',
                '  // of the part',
                '  part p "P"  // behind the part',
                '  /* before */ part q /* inside */ "Q" in box  // behind the clause',
                '      // between the clauses',
                '      for a',
                '  // at the end',
                '}  // behind the block',
                '// last',
            ),
        );
    });

    test('of several lines move with what they stand at and keep their inner indentation', () => {
        expect(laidOut('equipment e {\n/* One\n     two\n       three */\npart p\n/*\n * Four\n */\npart q\n}')).toBe(
            lines(
                'equipment e {',
                '  /* One',
                '     two',
                '       three */',
                '  part p',
                '  /*',
                '   * Four',
                '   */',
                '  part q',
                '}',
            ),
        );
    });

    test('do not count for the width of the line that they stand behind', () => {
        const remark = `// ${'word '.repeat(30)}`.trimEnd();
        unchanged('equipment e {', `  part p "P" { fault f }  ${remark}`, '}');
    });
});

describe('spelling', () => {
    test.each([
        ['normal 24V +/-10%', 'normal 24 V ± 10 %'],
        ['normal 24  V+-2 V', 'normal 24 V ± 2 V'],
        ['low <=3 V', 'low ≤ 3 V'],
        ['high >=3V ..<5V', 'high ≥ 3 V .. < 5 V'],
        ['normal -0.2 V..0.2 V', 'normal -0.2 V .. 0.2 V'],
        ['normal 1e3Pa .. 2.5e-3 MPa', 'normal 1e3 Pa .. 2.5e-3 MPa'],
        ['calculate x from a - b*2/(c+d.e)', 'calculate x from a - b * 2 / (c + d.e)'],
        ['calculate x from mean( a,b )−c', 'calculate x from mean(a, b) − c'],
        ['checks a . b as low , c', 'checks a.b as low, c'],
        ['needs not ( a on or b off )', 'needs not (a on or b off)'],
    ])('%s is written %s', (before, after) => {
        expect(laidOut(`equipment e { test t {\n${before}\n} }`)).toBe(
            lines('equipment e {', '  test t {', `    ${after}`, '  }', '}'),
        );
    });

    test('of names, texts and units is the writer’s own', () => {
        unchanged('equipment E-1 "Some  TEXT,  24V" {', '  test reset { normal 5 l/min .. 6 L/min }', '}');
    });

    test('keeps a bare number apart from the name in the next line', () => {
        const text = 'tree t {\n step s {\n do "X" takes 5\n in box } }';
        expect(laidOut(text)).toBe(lines('tree t {', '  step s {', '    do "X" takes 5', '        in box', '  }', '}'));
    });

    test('keeps a bare number apart from the name behind a blank that no amount can hold', () => {
        expect(laidOut('tree t {\n step s {\n do "X" takes 5 \uFEFFin box } }')).toBe(
            lines('tree t {', '  step s {', '    do "X" takes 5', '        in box', '  }', '}'),
        );
        expect(laidOut('equipment e {\n test t {\n normal < 2 \uFEFFΩ  open otherwise\n} }')).toBe(
            lines('equipment e {', '  test t {', '    normal < 2', '    Ω  open otherwise', '  }', '}'),
        );
    });
});

describe('texts of several lines', () => {
    test('stand below their statement with the value that they had', () => {
        expect(laidOut('equipment e {\nnote """\n      One\n        two\n\n      three\n   """ for a\n}')).toBe(
            lines('equipment e {', '  note """', '    One', '      two', '', '    three', '  """ for a', '}'),
        );
    });

    test('keep a first line beside their quotes and closing quotes behind their last', () => {
        expect(laidOut('equipment e { part p {\nnote """One\n   two"""\n} }')).toBe(
            lines('equipment e {', '  part p {', '    note """One', '      two"""', '  }', '}'),
        );
    });

    test('get their closing quotes on a line of their own where the text ends in a quote', () => {
        expect(laidOut('equipment e {\nnote """One\n   "two" """\n}')).toBe(
            lines('equipment e {', '  note """One', '    "two"', '  """', '}'),
        );
    });
});

describe('a file', () => {
    test('ends in one new line and has none at its beginning', () => {
        expect(laidOut('\n \n uses "a.fault"')).toBe('uses "a.fault"\n');
    });

    test('without anything stays empty', () => {
        expect(laidOut(' \n\n')).toBe('');
    });

    test('of comments only keeps them', () => {
        expect(laidOut('  // one\n\n\n\n/* two */')).toBe('// one\n\n/* two */\n');
    });

    test('keeps its carriage returns where every line has one, and only there', () => {
        expect(laidOut('uses "a"\r\n\r\n\r\nuses "b"')).toBe('uses "a"\r\n\r\nuses "b"\r\n');
        expect(laidOut('uses "a"\r\nuses "b"\n')).toBe('uses "a"\nuses "b"\n');
        expect(laidOut('uses "a" /* x\r\n   y */\r\n')).toBe('uses "a"\r\n/* x\r\n   y */\r\n');
    });

    test('loses a byte order mark', () => {
        expect(laidOut('\uFEFFuses "a"\n')).toBe('uses "a"\n');
    });

    test('with findings stays as it is', () => {
        const text = 'equipment   e {\n  prt p\n}';
        const { text: same, findings } = formatText(text);
        expect(same).toBe(text);
        expect(findings.map(({ code }) => code)).toEqual(['unexpected-text']);
    });
});

function lines(...all: string[]): string {
    return `${all.join('\n')}\n`;
}

function unchanged(...all: string[]): void {
    expect(laidOut(lines(...all))).toBe(lines(...all));
}
