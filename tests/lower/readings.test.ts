/** Checks the bands of outcomes, calculations and amounts: each spelling has one form in the model. */
import { expect, test } from 'vitest';
import type { Band, Calculation } from '../../language/src/core/model/tests.js';
import { findingsOf, lower, lowerWhole } from '../support/lower.js';

function bandWords(band: Band): string {
    switch (band.sort) {
        case 'otherwise':
            return 'otherwise';
        case 'limit':
            return `${band.comparison} ${band.value.written}`;
        case 'range':
            return `${band.fromOpen ? ']' : '['}${band.from.written}, ${band.to.written}${band.toOpen ? '[' : ']'}`;
        case 'around':
            return `${band.value.written} +- ${band.tolerance?.written ?? 'nothing'}`;
        case 'from-table':
            return `${band.table.text} of ${band.input.owner.text} +- ${band.tolerance?.written ?? 'nothing'}`;
    }
}

const bandsOf = (bands: string) => {
    const text = `equipment e { test t { measure voltage DC\n normal ${bands}\n } }`;
    return lower(text).model.equipment[0]?.tests[0]?.outcomes[0]?.bands.map(bandWords);
};

test.each([
    ['< 3 V', '< 3 V'],
    ['≤ 3 V', '<= 3 V'],
    ['> 2 kV', '> 2 kV'],
    ['≥ 2 kV', '>= 2 kV'],
    ['21.6 V .. 26.4 V', '[21.6 V, 26.4 V]'],
    ['21.6 V .. < 26.4 V', '[21.6 V, 26.4 V['],
    ['> 21.6 V .. 26.4 V', ']21.6 V, 26.4 V]'],
    ['>= 21.6 V .. < 26.4 V', '[21.6 V, 26.4 V['],
    ['24 V ± 10 %', '24 V +- 10 %'],
    ['24 V +/- 2 V', '24 V +- 2 V'],
    ['24 V +- 2 V', '24 V +- 2 V'],
    ['0 V', '0 V +- nothing'],
    ['curve of warm ± 2 V', 'curve of warm +- 2 V'],
    ['otherwise', 'otherwise'],
])('the band `%s` is read as %s', (written, words) => {
    expect(bandsOf(written)).toEqual([words]);
});

test('bands joined by `or` stay in their order', () => {
    expect(bandsOf('< 3 V or 5 V .. 6 V or > 9 V')).toEqual(['< 3 V', '[5 V, 6 V]', '> 9 V']);
});

test.each([
    ['21.6 .. 26.4 V', '[21.6 V, 26.4 V]'],
    ['> 21.6 .. < 26.4 V', ']21.6 V, 26.4 V['],
    ['-5 .. 1e3 °C', '[-5 °C, 1e3 °C]'],
    ['24 ± 2 V', '24 V +- 2 V'],
    ['24 V ± 2', '24 V +- 2 V'],
])('in `%s` the number without a unit takes that of the other', (written, words) => {
    expect(bandsOf(written)).toEqual([words]);
});

test('the place of a number that has got its unit is that of the number', () => {
    const text = 'equipment e { test t { measure voltage DC normal 21.6 .. 26.4 V } }';
    const band = lowerWhole(text).model.equipment[0]?.tests[0]?.outcomes[0]?.bands[0];
    const from = band?.sort === 'range' ? band.from : undefined;
    expect([from?.written, text.slice(from?.start, from?.end)]).toEqual(['21.6 V', '21.6']);
});

test('a half-written band is left out', () => {
    expect(bandsOf('<')).toEqual([]);
});

test('a range that begins with `<` has two meanings', () => {
    const text = 'equipment e { test t { measure voltage DC normal < 3 V .. 5 V } }';
    expect(findingsOf(text)).toEqual([
        'unclear-range "< 3 V .. 5 V": This range begins with `<`, so it is not clear on which side of `3 V` the readings are.',
    ]);
});

function calculationWords(calculation: Calculation): string {
    switch (calculation.sort) {
        case 'operation':
            return `(${calculationWords(calculation.left)} ${calculation.operator} ${calculationWords(calculation.right)})`;
        case 'constant':
            return calculation.amount.written;
        case 'call':
            return `${calculation.function.text}(${calculation.arguments.map(calculationWords).join(', ')})`;
        case 'reading':
            return [calculation.test.owner, calculation.test.test].flatMap(name => name?.text ?? []).join('.');
    }
}

const calculationOf = (written: string) => {
    const text = `equipment e { test t { calculate ratio from ${written}\n normal yes } }`;
    const method = lower(text).model.equipment[0]?.tests[0]?.methods[0];
    return method?.sort === 'calculate' ? calculationWords(method.expression) : undefined;
};

test.each([
    ['a - b - c', '((a - b) - c)'],
    ['a + b × c', '(a + (b * c))'],
    ['(a + b) ÷ 2', '((a + b) / 2)'],
    ['a − (5 V)', '(a - 5 V)'],
    ['mean(a, k.b) / largest(c)', '(mean(a, k.b) / largest(c))'],
])('the calculation `%s` is read as %s', (written, words) => {
    expect(calculationOf(written)).toBe(words);
});

test('an operand that is not written yet is a constant without a number', () => {
    const method = lower('equipment e { test t { calculate ratio from a + } }').model.equipment[0]?.tests[0]
        ?.methods[0];
    expect(method?.sort === 'calculate' ? calculationWords(method.expression) : undefined).toBe('(a + )');
});

test('a rate or a duty may be counted by a unit alone', () => {
    const text = 'equipment e { option o { a duty 3 starts per h } part p { fault f rate 2 per 1e6 h } }';
    const equipment = lowerWhole(text).model.equipment[0];
    expect(equipment?.options[0]?.choices[0]?.duty?.per.written).toBe('1 h');
    expect(equipment?.parts[0]?.faults[0]?.rates[0]?.per?.written).toBe('1e6 h');
});

test('an answer is a word of the language or the words of the author', () => {
    const text = 'equipment e { test t { observe normal yes absent no slow "runs \\"slowly\\"" } }';
    const outcomes = lowerWhole(text).model.equipment[0]?.tests[0]?.outcomes ?? [];
    expect(outcomes.map(({ answer }) => [answer?.value, text.slice(answer?.start, answer?.end)])).toEqual([
        ['yes', 'yes'],
        ['no', 'no'],
        ['runs "slowly"', '"runs \\"slowly\\""'],
    ]);
});
