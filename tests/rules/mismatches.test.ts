/** What does not fit among readings: each case by the one rule that tells it, with its sentence; and what is right is told by none. */
import { describe, expect, test } from 'vitest';
import { check, checkMend } from '../support/check.js';

const codes = [
    'unit-mismatch',
    'ac-dc-mismatch',
    'gauge-or-absolute',
    'difference-or-value',
    'curve-unclear',
    'quantity-unknown',
];

/** The findings of these rules without their places. */
function told(text: string): string[] {
    return check(text, { cost: 'fast' }).flatMap(line => {
        const [, code = '', message = ''] = /^(\S+) at \S+ (.*)$/.exec(line) ?? [];
        return codes.includes(code) ? [`${code}: ${message}`] : [];
    });
}

function bench(...lines: readonly string[]): string {
    return `equipment bench "Bench" {\n${lines.map(line => `  ${line}\n`).join('')}}`;
}

/** A calculation from readings a and b. */
function worked(
    a: string,
    b: string,
    quantity: string,
    expression: string,
    ...declarations: readonly string[]
): string {
    return bench(
        ...declarations,
        `test a { measure ${a}  normal otherwise }`,
        `test b { measure ${b}  normal otherwise }`,
        `test c { calculate ${quantity} from ${expression}  normal otherwise }`,
    );
}

describe('units', () => {
    test.each([
        ['normal 11 A .. 13 A', '`voltage` cannot be in `A`, which is a unit of electric current.'],
        ['normal 11 .. 13 A', '`voltage` cannot be in `A`, which is a unit of electric current.'],
        ['normal 12 V ± 1 A', '`voltage` cannot be in `A`, which is a unit of electric current.'],
        ['normal < 3 °C', '`voltage` cannot be in `°C`, which is a unit of temperature.'],
        ['normal 12 V ± 10 %', undefined],
        ['normal 11000 mV .. 13 V', undefined],
        ['normal 12 Vv', undefined],
    ])('in a band: %s', (band, message) => {
        expect(told(bench(`test a { measure voltage DC  ${band} }`))).toEqual(
            message ? [`unit-mismatch: ${message}`] : [],
        );
    });

    test('of one sort are told once, at the first, with the others beside it', () => {
        const text = bench('test a { measure voltage DC  normal 11 A .. 13 A  low < 11 A  high > 13 A }');
        expect(told(text)).toHaveLength(1);
    });

    test.each([
        ['measures pressure gauge 0 V .. 1 bar', '`pressure` cannot be in `V`, which is a unit of voltage.'],
        [
            'measures voltage DC 0 V .. 1 V resolution 1 mA',
            '`voltage` cannot be in `mA`, which is a unit of electric current.',
        ],
        ['measures voltage DC 0 V .. 1 V accuracy 1 % + 2 digits', undefined],
        ['measures voltage DC 0 V .. 1 V accuracy 1 % + 2 mV', undefined],
        ['measures voltage DC 0 V .. 1 V accuracy 2 Pa', '`voltage` cannot be in `Pa`, which is a unit of pressure.'],
        [
            'measures flow 0 L/min .. 9 L/min resolution 1 kg/h',
            '`kg/h` is a unit of mass flow, and the others here are units of volume flow: they cannot be compared.',
        ],
    ])('of an instrument: %s', (clause, message) => {
        expect(told(`instrument meter { ${clause} }`)).toEqual(message ? [`unit-mismatch: ${message}`] : []);
    });

    test.each([
        [
            'from temperature to resistance { 0 °C = 1 kΩ  10 V = 2 kΩ }',
            ['unit-mismatch: `temperature` cannot be in `V`, which is a unit of voltage.'],
        ],
        ['from temperature to resistance { 0 °C = 1 kΩ  50 °F = 2 kΩ }', []],
        ['from length to volume { 1 mm = 1 L  2 mm = 2 L }', []],
    ])('in a table %s', (table, wanted) => {
        expect(told(`table t ${table}`)).toEqual(wanted);
    });

    test('of the same size of things are turned into one that fits, exactly', () => {
        const text = bench('test a { measure torque  normal 2 J .. <|>4 kJ }').replace('kJ', 'J');
        expect(checkMend(text.replace('2 J', '<|>2 J').replace('.. <|>', '.. '), 'Write `2 N·m` for `2 J`')).toContain(
            'normal 2 N·m .. 4 N·m',
        );
    });
});

describe('sides of a calculation', () => {
    test.each([
        [
            'voltage DC',
            'current DC',
            'voltage DC',
            'a + b',
            'unit-mismatch: a DC voltage and a DC current cannot be added.',
        ],
        [
            'voltage DC',
            'voltage AC',
            'voltage DC',
            'a - b',
            'ac-dc-mismatch: a DC voltage and an AC voltage cannot be subtracted.',
        ],
        [
            'voltage AC',
            'voltage AC peak',
            'voltage AC',
            'mean(a, b)',
            'ac-dc-mismatch: an AC voltage and a peak value of an AC voltage cannot be put into one mean.',
        ],
        ['voltage AC', 'voltage AC rms', 'voltage AC', 'mean(a, b)', undefined],
        [
            'pressure gauge',
            'pressure absolute',
            'pressure difference',
            'a - b',
            'gauge-or-absolute: a gauge pressure and an absolute pressure cannot be subtracted.',
        ],
        ['pressure gauge', 'pressure absolute', 'pressure absolute', 'a + b', undefined],
        [
            'pressure gauge',
            'pressure gauge',
            'pressure gauge',
            'a - b',
            'gauge-or-absolute: This works out a pressure difference, not `pressure gauge`.',
        ],
        [
            'temperature',
            'temperature',
            'temperature',
            'a + b',
            'difference-or-value: a temperature and a temperature cannot be added.',
        ],
        [
            'temperature',
            'temperature',
            'temperature',
            'a - b',
            'difference-or-value: This works out a temperature difference, not `temperature`.',
        ],
        [
            'temperature',
            'temperature',
            'temperature difference',
            'mean(a, b)',
            'difference-or-value: This works out a temperature, not `temperature difference`.',
        ],
        [
            'temperature',
            'temperature',
            'temperature',
            'deviation(a, b)',
            'difference-or-value: This works out a temperature difference, not `temperature`.',
        ],
        ['temperature', 'temperature', 'ratio', 'a / b', 'difference-or-value: a temperature cannot be divided.'],
        [
            'temperature',
            'temperature',
            'ratio',
            'unbalance(a, b)',
            'difference-or-value: a temperature cannot be set against their mean.',
        ],
        [
            'temperature difference',
            'temperature',
            'temperature',
            'a - b',
            'difference-or-value: a temperature difference and a temperature cannot be subtracted.',
        ],
        ['voltage DC', 'current DC', 'power', 'a * b', undefined],
        ['voltage DC', 'current DC', 'resistance', 'a * b', 'unit-mismatch: This works out power, not `resistance`.'],
        ['force', 'area', 'pressure gauge', 'a / b', undefined],
        ['count', 'time', 'frequency', 'a / b', undefined],
        ['voltage AC', 'current DC', 'ratio', 'a / (1.35 * a)', undefined],
        [
            'current DC',
            'current DC',
            'ratio',
            'deviation(a, b)',
            'unit-mismatch: This works out a DC current, not `ratio`.',
        ],
    ])('a %s, b %s: %s from %s', (a, b, quantity, expression, wanted) => {
        expect(told(worked(a, b, quantity, expression))).toEqual(wanted ? [wanted] : []);
    });

    test('the mean, and the share of it, are offered where they are meant', () => {
        const sum = worked('temperature', 'temperature', 'temperature', '0.5 * <|>(a + b)');
        expect(checkMend(sum, 'Write `mean(a, b)`')).toContain('from 0.5 * mean(a, b)');
        const share = worked('current DC', 'current DC', '<|>ratio', 'deviation(a, b)');
        expect(checkMend(share, 'Write `unbalance`')).toContain('calculate ratio from unbalance(a, b)');
    });

    test('a test that is observed has no reading', () => {
        const text = bench(
            'test a { observe by eye  normal yes }',
            'test c { calculate ratio from 2 * a  normal otherwise }',
        );
        expect(told(text)).toEqual(['unit-mismatch: `a` has no reading: it is not measured.']);
    });

    test('one slip is told once, however far it reaches', () => {
        const text = worked('voltage DC', 'current DC', 'ratio', '((a + b) / a + mean(a, a)) * 3');
        expect(told(text)).toEqual(['unit-mismatch: a DC voltage and a DC current cannot be added.']);
    });
});

describe('tables and curves', () => {
    const boiling = 'table boiling from pressure absolute to temperature { 1 bar = 0 °C  2 bar = 20 °C }';
    const turning = 'table turning from length to volume { 1 mm = 1 L  2 mm = 3 L  3 mm = 2 L }';

    test.each([
        ['pressure absolute', 'temperature', 'temperature', 'boiling(a)', []],
        ['pressure absolute', 'temperature', 'pressure absolute', 'boiling(b)', []],
        [
            'pressure gauge',
            'temperature',
            'temperature',
            'boiling(a)',
            [
                'gauge-or-absolute: `boiling` turns an absolute pressure into a temperature, and this is a gauge pressure.',
            ],
        ],
        [
            'pressure absolute',
            'temperature',
            'temperature',
            'boiling(b - b)',
            [
                'difference-or-value: `boiling` turns an absolute pressure into a temperature, and this is a temperature difference.',
            ],
        ],
        [
            'voltage DC',
            'temperature',
            'temperature',
            'boiling(a)',
            ['unit-mismatch: `boiling` turns an absolute pressure into a temperature, and this is a DC voltage.'],
        ],
        [
            'pressure absolute',
            'temperature',
            'temperature',
            'boiling(a, b)',
            ['curve-unclear: `boiling` takes one value.'],
        ],
        ['length', 'volume', 'volume', 'turning(a)', []],
        [
            'length',
            'volume',
            'length',
            'turning(b)',
            ['curve-unclear: `turning` gives some values twice, so that it cannot be read this way.'],
        ],
    ])('a %s, b %s: %s from %s', (a, b, quantity, expression, wanted) => {
        expect(told(worked(a, b, quantity, expression, boiling, turning))).toEqual(wanted);
    });

    test.each([
        ['temperature', 'pressure absolute', []],
        ['pressure absolute', 'temperature', []],
        [
            'temperature',
            'pressure gauge',
            ['gauge-or-absolute: `boiling` gives an absolute pressure here, and `c` reads a gauge pressure.'],
        ],
        [
            'temperature',
            'voltage DC',
            ['unit-mismatch: `boiling` gives an absolute pressure here, and `c` reads a DC voltage.'],
        ],
        [
            'pressure gauge',
            'temperature',
            [
                'gauge-or-absolute: `boiling` turns an absolute pressure into a temperature, and this is a gauge pressure.',
            ],
        ],
    ])('a band for a reading of %s in a test of %s', (given, own, wanted) => {
        const text = bench(
            boiling,
            `test a { measure ${given}  normal otherwise }`,
            `test c { measure ${own}  normal boiling of a ± 5 % }`,
        );
        expect(told(text)).toEqual(wanted);
    });

    test('the tolerance of such a band is a share, or in the unit of the test', () => {
        const text = bench(
            boiling,
            'test a { measure pressure absolute  normal otherwise }',
            'test c { measure temperature  normal boiling of a ± 5 V }',
        );
        expect(told(text)).toEqual(['unit-mismatch: `temperature` cannot be in `V`, which is a unit of voltage.']);
        expect(told(text.replace('5 V', '9 °F'))).toEqual([]);
    });
});

describe('words beside a quantity', () => {
    test.each([
        ['voltage', 'ac-dc-mismatch: `voltage` does not say whether it is `DC` or `AC`.'],
        ['voltage AC DC', 'ac-dc-mismatch: `voltage` cannot be `AC` and `DC` at once.'],
        ['voltage AC rms peak', 'ac-dc-mismatch: `voltage` cannot be `rms` and `peak` at once.'],
        ['resistance AC', 'ac-dc-mismatch: `resistance` is not measured as `AC`.'],
        ['pressure', 'gauge-or-absolute: `pressure` does not say whether it is `gauge`, `absolute` or `difference`.'],
        ['pressure gauge absolute', 'gauge-or-absolute: `pressure` cannot be `gauge` and `absolute` at once.'],
        ['vacuum', 'gauge-or-absolute: `vacuum` does not say whether it is `gauge` or `absolute`.'],
        ['temperature gauge', 'gauge-or-absolute: `temperature` is not measured as `gauge`.'],
        ['humidity difference', 'difference-or-value: `humidity` is not measured as `difference`.'],
        ['voltag DC', 'quantity-unknown: There is no quantity `voltag`.'],
        ['voltage AC peak', undefined],
        ['temperature difference', undefined],
    ])('measure %s', (words, wanted) => {
        expect(told(bench(`test a { measure ${words}  normal otherwise }`))).toEqual(wanted ? [wanted] : []);
    });

    test('that a calculation is without are written safely where only one can come out', () => {
        const text = worked('voltage AC', 'voltage AC', '<|>voltage', 'a - b');
        expect(checkMend(text, 'Write `voltage AC`')).toContain('calculate voltage AC from a - b');
        const pressure = worked('pressure gauge', 'pressure gauge', '<|>pressure', 'a - b');
        expect(checkMend(pressure, 'Write `pressure difference`')).toContain('calculate pressure difference from');
    });
});

describe('a test and its instrument', () => {
    const instruments = [
        'instrument meter { measures voltage AC 0 V .. 9 V }',
        'instrument gauges { measures pressure gauge 0 bar .. 9 bar }',
        'instrument probe { measures temperature 0 °C .. 90 °C }',
        'instrument caliper { measures length 0 mm .. 90 mm }',
        'instrument anything',
    ];

    test.each([
        ['voltage AC rms with meter', undefined],
        ['voltage DC with meter', 'ac-dc-mismatch: `meter` measures `voltage AC`, not `voltage DC`.'],
        ['voltage AC peak with meter', 'ac-dc-mismatch: `meter` measures `voltage AC`, not `voltage AC peak`.'],
        [
            'pressure absolute with gauges',
            'gauge-or-absolute: `gauges` measures `pressure gauge`, not `pressure absolute`.',
        ],
        [
            'temperature difference with probe',
            'difference-or-value: `probe` measures `temperature`, not `temperature difference`.',
        ],
        ['temperature with meter', 'unit-mismatch: `meter` measures `voltage AC`, not `temperature`.'],
        ['gap with caliper', undefined],
        ['temperature with anything', undefined],
    ])('%s', (words, wanted) => {
        const text = `${instruments.join('\n')}\n${bench(`test a { measure ${words}  normal otherwise }`)}`;
        expect(told(text)).toEqual(wanted ? [wanted] : []);
    });
});

describe('a band that can only be a difference', () => {
    test.each([
        ['temperature', 'normal 4 K .. 8 K', true],
        ['temperature', 'normal > 9 °R', true],
        ['temperature', 'normal < 8 K', false],
        ['temperature', 'normal 290 K .. 300 K', false],
        ['temperature', 'normal 4 °C .. 8 °C', false],
        ['temperature difference', 'normal 4 K .. 8 K', false],
    ])('%s: %s', (quantity, band, isTold) => {
        const found = told(bench(`test a { measure ${quantity}  ${band} }`));
        expect(found.map(line => line.slice(0, 19))).toEqual(isTold ? ['difference-or-value'] : []);
    });

    test('is not told where an instrument goes so low', () => {
        const text = `instrument probe { measures temperature 2 K .. 300 K }\n${bench('test a { measure temperature with probe  normal 4 K .. 8 K }')}`;
        expect(told(text)).toEqual([]);
    });
});
