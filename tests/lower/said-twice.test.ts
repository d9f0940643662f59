/** Checks every clause that may stand once for the same builds: which are found, and which may well stand twice. */
import { expect, test } from 'vitest';
import { lowerWhole } from '../support/lower.js';

const inEquipment = (text: string) => `equipment e { ${text} }`;
const inPart = (text: string) => inEquipment(`part p { ${text} }`);
const inFault = (text: string) => inPart(`fault f { ${text} }`);
const inTest = (text: string) => inEquipment(`test t { ${text} normal yes }`);
const inTree = (text: string) => `tree t of e { ${text} }`;
const inDo = (text: string) => inTree(`step s { do "x" ${text} }`);

/** Which clause is said twice, as `second place (first place)`. */
function saidTwice(text: string): string[] {
    const findings = lowerWhole(text).findings.filter(({ code }) => code === 'said-twice');
    return findings.map(({ start, end, related }) => {
        const first = related.map(place => text.slice(place.start, place.end)).join();
        return `${text.slice(start, end)} (${first})`;
    });
}

test.each([
    [inEquipment('option o { a share 70 % share 30 % }'), 'share 30 % (share 70 %)'],
    [inEquipment('hazard h { thermal 85 °C 90 °C }'), '90 °C (85 °C)'],
    [inEquipment('hazard h { thermal cools in 3 min cools in 4 min }'), 'cools in 4 min (cools in 3 min)'],
    [inEquipment('zone z { category III category II }'), 'category II (category III)'],
    [inEquipment('part p in z { in y }'), 'in y (z)'],
    [inPart('location "a" location "b"'), 'location "b" (location "a")'],
    [inPart('replace "x" takes 3 min takes 4 min'), '4 min (3 min)'],
    [inPart('fault f stops weakens'), 'weakens (stops)'],
    [inFault('rate 1 per 1e6 h only when caused'), 'only when caused (rate 1 per 1e6 h)'],
    [inTest('measure voltage DC observe by eye'), 'observe by eye (measure voltage DC)'],
    [inTest('observe costs 1 EUR costs 2 EUR'), 'costs 2 EUR (costs 1 EUR)'],
    [inTest('observe through f through g'), 'through g (through f)'],
    [inTest('observe during "a" during "b"'), 'during "b" (during "a")'],
    [inEquipment('gate g { takes 1 min takes 2 min }'), 'takes 2 min (takes 1 min)'],
    [inEquipment('gate g { prove "x" with a with b }'), 'b (a)'],
    [inTree('still wrong -> a still wrong -> b'), 'still wrong -> b (still wrong -> a)'],
    [inTree('cannot be read -> a cannot be read -> b'), 'cannot be read -> b (cannot be read -> a)'],
    [inTree('complaint a low mistaken 5 % complaint b low mistaken 6 %'), '6 % (5 %)'],
    [
        inTree('conclude c { unconfirmed because "a" unconfirmed because "b" }'),
        'unconfirmed because "b" (unconfirmed because "a")',
    ],
    [inDo('at p at q'), 'q (p)'],
    [inDo('cannot be done -> a cannot be done -> b'), 'b (a)'],
    ['instrument m { measures time resolution 1 s resolution 2 s }', 'resolution 2 s (resolution 1 s)'],
    ['scenario "s" of t { expect a expect b }', 'expect b (expect a)'],
])('in `%s` a clause is said twice', (text, found) => {
    expect(saidTwice(text)).toEqual([found]);
});

test.each([
    ['clauses for different builds', inTest('observe takes 1 min for a takes 2 min for b')],
    ['a clause for some builds beside one for all', inTest('observe takes 1 min takes 2 min for b')],
    ['two ways in which a hazard goes', inEquipment('hazard h { thermal cools in 3 min settles in 4 s }')],
    ['levels that are measured in different ways', inEquipment('hazard h { electrical 24 V DC 230 V AC }')],
    ['what cannot be read and what cannot be done', inTree('cannot be read -> a cannot be done -> b')],
    ['lists that add up', inTest('observe needs a on needs b on checks p checks q')],
    ['different repairs', inPart('replace "x" reset "y" reset "z"')],
    ['categories of an instrument at several voltages', 'instrument m { category III 600 V category II 1000 V }'],
])('%s may stand side by side', (_, text) => {
    expect(saidTwice(text)).toEqual([]);
});

test('the first of two counts where there can be only one', () => {
    const text = inDo('at p at q takes 1 min takes 2 min');
    const statement = lowerWhole(text).model.trees[0]?.steps[0]?.statements[0];
    if (statement?.sort !== 'do') throw new Error('The step has another statement.');
    expect([statement.at?.text, statement.takes?.written]).toEqual(['p', '1 min']);
});

test('a third one is found as well', () => {
    expect(saidTwice(inTest('observe takes 1 min takes 2 min takes 3 min'))).toEqual([
        'takes 2 min (takes 1 min)',
        'takes 3 min (takes 1 min)',
    ]);
});
