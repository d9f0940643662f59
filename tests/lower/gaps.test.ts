/** Checks what lowering finds missing or beyond reach: units, outcomes, methods, statements behind the end of a step. */
import { expect, test } from 'vitest';
import { lower, lowerWhole } from '../support/lower.js';

const inEquipment = (text: string) => `equipment e { ${text} }`;
const inTest = (text: string) => inEquipment(`test t { ${text}\n }`);
const inStep = (text: string) => `tree t of e { step s { ${text} } }`;

const codesIn = (text: string) => lower(text).findings.map(({ code }) => code);

/** The places of the findings of one code. */
function found(code: string, text: string): string[] {
    const findings = lowerWhole(text).findings.filter(finding => finding.code === code);
    return findings.map(({ start, end }) => text.slice(start, end));
}

test.each([
    [inEquipment('option o { a share 70\n}'), '70'],
    [inEquipment('hazard h { thermal 85\n cools in 30\n}'), '85'],
    [inEquipment('zone z { category III 600\n}'), '600'],
    [inEquipment('part p { replace "x" takes 25 costs 48 EUR }'), '25'],
    [inEquipment('part p { fault f rate 1 per 1e6\n}'), '1e6'],
    [inTest('observe costs 3\n normal yes'), '3'],
    [inTest('measure voltage DC normal > 3\n'), '3'],
    [inTest('measure voltage DC normal 3 V .. 5\n'), '5'],
    ['table t from temperature to resistance { 0 = 100 Ω }', '0'],
    ['instrument m { measures voltage DC 0 V .. 600\n}', '600'],
    [inStep('wait 10\n'), '10'],
    ['scenario "x" of t { expect a within 60\n}', '60'],
])('in `%s` the unit of a number is missing', (text, place) => {
    expect(found('amount-without-unit', text)[0]).toBe(place);
});

test.each([
    ['a count', inTest('measure count normal 3 .. 5\n')],
    ['a reading of an unknown quantity, which is a finding of its own', inTest('measure pull normal 3\n')],
    ['a constant of a calculation', inTest('calculate ratio from a / 2\n normal < 3 %')],
    ['a rate', inEquipment('part p { fault f rate 0.9 per 1e6 h }')],
    ['a unit that ends with a digit', inTest('measure area normal 3 m2\n')],
])('%s may do without a unit', (_, text) => {
    expect(found('amount-without-unit', text)).toEqual([]);
});

test('an end of a range is offered the unit of the other', () => {
    const text = inTest('measure voltage DC normal 3 V .. 5\n');
    const [finding] = lowerWhole(text).findings;
    const [mend] = finding?.mends ?? [];
    const [edit] = mend?.edits ?? [];
    expect([mend?.title, mend?.safety]).toEqual(['Write `5 V`', 'suggestion']);
    expect(text.slice(0, edit?.start) + (edit?.text ?? '')).toMatch(/normal 3 V \.\. 5 V$/);
});

test('joins of one word, and brackets within brackets, are clear', () => {
    const text = inEquipment('flow f: (a or b or c) -> (a or (b and c))');
    expect(found('mixed-joins', text)).toEqual([]);
    expect(found('mixed-joins', inEquipment('flow f: (a or b with c)'))).toEqual(['with']);
});

test('a test that asks for the build needs no outcomes', () => {
    expect(codesIn(inTest('identify o by eye'))).toEqual([]);
});

test('a test within a kind is looked at like any other', () => {
    const text = inEquipment('kind k { test t { observe by eye  absent no } }');
    expect(found('normal-missing', text)).toEqual(['t']);
});

test('the findings about a test stand at its name, or where the name would be', () => {
    expect(found('method-missing', inTest('normal yes'))).toEqual(['t']);
    const text = 'equipment e { test { normal yes } }';
    const [finding] = lower(text).findings.filter(({ code }) => code === 'method-missing');
    expect(text.slice(finding?.start, finding?.end)).toBe('test');
});

test.each([
    'go a',
    'continue with u',
    'test t { low -> a }',
    'confirm t low -> a',
    'confirm t { low -> a }',
    'follow p { good -> a }',
])('nothing behind `%s` is reached', leaving => {
    const text = inStep(`${leaving} note "n" do "x" do "y"`);
    const [finding] = lowerWhole(text).findings;
    expect(found('step-goes-on', text)).toEqual(['do "x"']);
    expect(finding?.unnecessary).toBe(true);
    expect(finding?.related.map(({ start, end }) => text.slice(start, end))).toEqual([leaving]);
});

test.each([
    ['a statement that leaves for some builds', 'go a for b do "x"'],
    ['a procedure without branches', 'follow p do "x"'],
    ['a test without branches, which lacks them', 'test t do "x"'],
    ['remarks', 'go a note "n" see "s" danger "d"'],
])('%s does not end the step', (_, statements) => {
    expect(found('step-goes-on', inStep(statements))).toEqual([]);
});
