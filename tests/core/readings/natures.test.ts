/** How sums of pressures, voltages and levels are meant: every pair, as it is settled; and what that is called. */
import { describe, expect, test } from 'vitest';
import { calculated } from './calculated.js';

/** What the sum of two readings can be meant as; a finding where there is none. */
function natures(left: string, operator: string, right: string): string {
    const { type, problems } = calculated({ a: left, b: right }, 'ratio', `a ${operator} b`).typed;
    expect(problems.length).toBe(type ? 0 : 1);
    return type ? type.natures.join(' or ') : 'a finding';
}

// A gauge pressure is counted from the air, so that it becomes absolute when the pressure of the air is added (NIST SP 811, 8.4 of the
// 2008 edition has pressures absolute and gauge; from memory).
test.each([
    ['gauge', '-', 'gauge', 'difference'],
    ['absolute', '-', 'absolute', 'difference'],
    ['difference', '-', 'difference', 'difference'],
    ['gauge', '+', 'difference', 'gauge'],
    ['gauge', '-', 'difference', 'gauge'],
    ['difference', '+', 'gauge', 'gauge'],
    ['absolute', '+', 'difference', 'absolute'],
    ['absolute', '-', 'difference', 'absolute'],
    ['difference', '+', 'absolute', 'absolute'],
    ['difference', '+', 'difference', 'difference'],
    ['gauge', '+', 'absolute', 'absolute'],
    ['absolute', '+', 'gauge', 'absolute'],
    ['gauge', '+', 'gauge', 'gauge'],
    ['absolute', '+', 'absolute', 'absolute'],
    ['gauge', '-', 'absolute', 'a finding'],
    ['absolute', '-', 'gauge', 'a finding'],
    ['difference', '-', 'gauge', 'a finding'],
    ['difference', '-', 'absolute', 'a finding'],
])('a pressure %s %s one %s is %s', (left, operator, right, wanted) => {
    expect(natures(`pressure ${left}`, operator, `pressure ${right}`)).toBe(wanted);
});

const forms = ['DC', 'DC peak', 'AC', 'AC rms', 'AC peak'];

describe.each(forms)('a voltage %s', left => {
    test.each(forms)('and one %s', right => {
        const alike = left.replace(' rms', '') === right.replace(' rms', '');
        const wanted = alike ? left.replace(/^AC$/, 'AC rms') : 'a finding';
        expect(natures(`voltage ${left}`, '+', `voltage ${right}`)).toBe(wanted);
        expect(natures(`voltage ${left}`, '-', `voltage ${right}`)).toBe(wanted);
    });
});

test('a level less a level is in decibels, and decibels may be added to a level', () => {
    const typed = (expression: string) => {
        const { type, problems } = calculated({ a: 'signal', b: 'signal' }, 'signal', expression, '').typed;
        return [type?.dimension, type?.natures, problems.length];
    };
    expect(typed('-30 dBm - -40 dBm')).toEqual([{ level: 1 }, ['plain'], 0]);
    expect(typed('-30 dBm + 10 dB')).toEqual([{ powerLevel: 1 }, ['point'], 0]);
    expect(typed('-30 dBm + -40 dBm')).toEqual([undefined, undefined, 1]);
    expect(typed('2 * -30 dBm')).toEqual([undefined, undefined, 1]);
    expect(typed('-30 dBm - 100 dBµV')).toEqual([undefined, undefined, 1]);
});

test.each([
    ['voltage AC', 'a * b', ['plain'], 'plain'],
    ['voltage AC', '1.414 * a', ['DC', 'AC rms', 'AC peak', 'DC peak'], 'open'],
    ['voltage AC', 'a / 2 Ω', ['AC rms'], 'kept'],
    ['pressure gauge', '2 * a', ['gauge'], 'kept'],
    ['pressure absolute', 'a / b', ['plain'], 'plain'],
    ['temperature difference', '2 * a', ['difference'], 'kept'],
])('of a product of %s, %s', (quantity, expression, wanted) => {
    expect(calculated({ a: quantity, b: quantity }, 'ratio', expression).typed.type?.natures).toEqual(wanted);
});
