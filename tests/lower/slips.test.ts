/** What lowering has to say of a text that reads well but says too much, too little, or in a way that has two meanings. */
import { expect, test } from 'vitest';
import { findingsOf } from '../support/lower.js';

const inEquipment = (text: string) => `equipment lamp { ${text} }`;

test.each([
    [
        'a clause that stands twice',
        'part bulb { fault open } test glow { observe by eye takes 1 min takes 2 min normal yes }',
        'said-twice',
    ],
    ['a number where a unit is needed', 'test glow { observe by eye takes 3 normal yes }', 'amount-without-unit'],
    ['joins that mix without brackets', 'flow light: a -> (b or c and d)', 'mixed-joins'],
    ['a test without `normal`', 'test glow { observe by eye absent no }', 'normal-missing'],
    ['a test without outcomes', 'test glow { observe by eye takes 1 min }', 'outcome-missing'],
    ['a test that says no method', 'test glow { normal yes absent no }', 'method-missing'],
])('%s is said once, with its place', (_, text, code) => {
    const findings = findingsOf(inEquipment(text));
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatch(new RegExp(`^${code} "[^"]+": .+\\.$`));
});

test('the first end of a range takes the unit of the second', () => {
    expect(findingsOf(inEquipment('test volts { measure voltage DC normal 21.6 .. 26.4 V low < 21.6 V }'))).toEqual([]);
});

test('the same clause may stand once for each build', () => {
    const text = 'option o { a b } test glow { observe by eye takes 1 min for a takes 2 min for b normal yes }';
    expect(findingsOf(inEquipment(text))).toEqual([]);
});

test('what follows a question in a step is reached by nobody', () => {
    const text = 'tree dark of lamp { step look { test glow { normal -> look } do "Wait." } }';
    expect(findingsOf(text)).toEqual([expect.stringMatching(/^step-goes-on "do "Wait\."": /)]);
});
