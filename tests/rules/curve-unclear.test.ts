/** Curves and tables that cannot be read: each slip with its sentence, and what is right without one. */
import { describe, expect, test } from 'vitest';
import { check } from '../support/check.js';

/** The findings about curves and about units, without their places. */
function told(text: string): string[] {
    return check(text, { cost: 'fast' }).flatMap(line => {
        const [, code = '', message = ''] = /^(\S+) at \S+ (.*)$/.exec(line) ?? [];
        return ['curve-unclear', 'unit-mismatch', 'gauge-or-absolute'].includes(code) ? [`${code}: ${message}`] : [];
    });
}

test.each([
    'curve',
    'curve { follows }',
    'curve c { follows loop }',
    'curve c { follows ntc',
    'table from to',
    'table t from x to y {',
])('what is half written is told by the reading of the file at most at places that are there: %s', text => {
    const empty = check(text, { cost: 'fast' }).filter(line => /^curve-unclear at (\d+:\d+)-\1:/.test(line));
    expect(empty).toEqual([]);
});

describe('curves that cannot be read', () => {
    test.each([
        ['', '`c` does not say what it follows.'],
        ['follows platinum 100 Ω  follows platinum 1 kΩ', '`c` follows more than one law.'],
        ['follows platinum', '`platinum` needs a resistance.'],
        ['follows platinum 100', '`100` is no resistance, which `platinum` needs here.'],
        ['follows platinum 100 V', '`100 V` is no resistance, which `platinum` needs here.'],
        ['follows platinum 100 Ω at 0 °C', '`platinum` takes no `0 °C`.'],
        ['follows platinum 0 Ω', '`0 Ω` must be above zero.'],
        ['follows platinium 100 Ω', 'There is no law `platinium`.'],
        ['follows ntc 10 kΩ beta 3950 K', '`ntc` needs the temperature of that resistance behind `at`.'],
        ['follows ntc 10 kΩ at 25 °C', '`ntc` needs `beta 3950 K`.'],
        ['follows ntc 10 kΩ at 25 °C betta 3950 K', 'There is no property `betta`.'],
        ['follows ntc 10 kΩ at 25 °C beta 3950 V', '`3950 V` is no temperature, which `ntc` needs here.'],
        ['follows steinhart-hart 1.129148e-3 2.34125e-4', '`steinhart-hart` needs three plain numbers.'],
        ['follows steinhart-hart 1 2 3 4', '`steinhart-hart` takes no `4`.'],
        [
            'follows steinhart-hart 1e-3 -2e-4 -9e-8',
            'With these three numbers the resistance does not fall as it gets warmer.',
        ],
        ['follows thermocouple', '`thermocouple` needs the letter of the thermocouple.'],
        ['follows thermocouple X', 'There is no type of thermocouple `X`.'],
        ['follows thermocouple K 4 mV', '`thermocouple` takes no `4 mV`.'],
        ['follows copper 12.4 Ω', '`copper` needs the temperature of that resistance behind `at`.'],
        ['follows copper 12.4 Ω at 20 °C beta 235 K', 'There is no property `beta`.'],
        ['follows loop 0 bar .. 10 bar', '`loop` needs the quantity that the loop stands for.'],
        ['follows loop presure gauge 0 bar .. 10 bar', 'There is no quantity `presure`.'],
        ['follows loop pressure gauge 0 bar', '`loop` needs the values at 4 mA and at 20 mA.'],
        ['follows loop pressure gauge 5 bar .. 5 bar', 'The loop stands for `5 bar` at 4 mA and at 20 mA.'],
        ['follows loop pressure gauge 0 bar .. 10 V', '`10 V` is no pressure, which `loop` needs here.'],
        [
            'follows platinum 100 Ω  from 0 °C to 900 °C',
            '`900 °C` lies beyond the law, which holds for `-200 °C .. 850 °C`.',
        ],
        ['follows platinum 100 Ω  from 0 V to 90 °C', '`0 V` is no temperature, which `limits` needs here.'],
        ['follows platinum 100 Ω  from 0 °C to 90 °C  from 0 °C to 80 °C', '`c` is limited twice.'],
    ])('%s', (members, message) => {
        expect(told(`curve c { ${members} }`)).toEqual([`curve-unclear: ${message}`]);
    });

    test.each([
        'follows platinum 1000 Ω  from -50 °C to 100 °C',
        'follows ntc 10 kΩ at 77 °F beta 3950 K',
        'follows steinhart-hart 1.129148e-3 2.34125e-4 8.76741e-8',
        'follows thermocouple T',
        'follows copper 12.4 Ω at 20 °C constant 235 °C',
        'follows aluminum 12.4 Ω at 20 °C',
        'follows loop pressure gauge 0 .. 10 bar',
        'follows loop temperature difference 0 K .. 10 K',
        'follows loop pressure gauge 10 bar .. 0 bar  from 1 bar to 9 bar',
        // A unit that is not known is told by its own rule.
        'follows platinum 100 Ohmm',
    ])('not %s', members => {
        expect(told(`curve c { ${members} }`)).toEqual([]);
    });

    test.each([
        ['linear { 0 °C = 1 kΩ }', '`t` has less than two rows.'],
        ['linear { 0 °C = 1 kΩ  20 °C = 2 kΩ  10 °C = 3 kΩ }', '`10 °C` is out of order behind `20 °C`.'],
        ['linear { 0 °C = 1 kΩ  10 °C = 2 kΩ  50 °F = 3 kΩ }', '`50 °F` stands in the table before, as `10 °C`.'],
        ['logarithmic { 0 °C = 0 kΩ  10 °C = 2 kΩ }', '`0 kΩ` has no logarithm, and the table is `logarithmic`.'],
    ])('a table %s', (rows, message) => {
        expect(told(`table t from temperature to resistance ${rows}`)).toEqual([`curve-unclear: ${message}`]);
    });
});
