/** Calculations give what is published: unbalance, cold junctions, superheat, loops, windings; and what sums of amounts mean. */
import { describe, expect, test } from 'vitest';
import { calculated, valueOf } from './calculated.js';

describe('published worked examples', () => {
    // NEMA MG 1 (12.45 and 14.36 in older numbering), its own example, seen second-hand: 460 V, 467 V and 450 V have a mean of 459 V, a
    // largest distance of 9 V from it, and so an unbalance of 1.96 %.
    const lines = { a: 'voltage AC', b: 'voltage AC', c: 'voltage AC' };
    const volts = { a: '460 V', b: '467 V', c: '450 V' };

    test.each([
        ['voltage AC', 'mean(a, b, c)', 'V', '459'],
        ['voltage AC', 'deviation(a, b, c)', 'V', '9'],
        ['ratio', 'unbalance(a, b, c)', '%', '1.96078431373'],
        ['voltage AC', 'largest(a, b, c)', 'V', '467'],
        ['voltage AC', 'smallest(a, b, c)', 'V', '450'],
    ])('unbalance of voltages: %s from %s', (quantity, expression, unit, wanted) => {
        expect(valueOf(calculated(lines, quantity, expression), volts, unit)).toBe(wanted);
    });

    // NIST Monograph 175, from memory: the voltages are added, never the temperatures. Type K, terminals at 25 °C (1.000 mV), 3.096 mV
    // measured: 4.096 mV and so 100.0 °C; recomputed from the coefficients of the NIST database, seen second-hand.
    test('the cold junction of a thermocouple', () => {
        const element = 'curve element { follows thermocouple K }';
        const readings = { measured: 'voltage DC', terminals: 'temperature' };
        const one = calculated(readings, 'temperature', 'element(measured + element(terminals))', element);
        const given = { measured: '3.096 mV', terminals: '25 °C' };
        expect(valueOf(one, given, '°C', { digits: 4 })).toBe('100');
        // To add the temperatures instead gives another value: 3.096 mV alone is 75.9 °C.
        expect(
            valueOf(calculated(readings, 'temperature', 'element(measured)', element), given, '°C', { digits: 3 }),
        ).toBe('75.9');
    });

    // Saturation of R-134a: 25 °C at 665.4 kPa absolute, NIST, seen second-hand; 20 °C at 571.7 kPa and 30 °C at 770.2 kPa from memory.
    const saturation = `table saturation from temperature to pressure absolute linear {
        20 °C = 571.7 kPa  25 °C = 665.4 kPa  30 °C = 770.2 kPa
    }`;

    test('superheat by a table that is read from right to left', () => {
        const readings = { pipe: 'temperature', suction: 'pressure absolute' };
        const one = calculated(readings, 'temperature difference', 'pipe - saturation(suction)', saturation);
        expect(valueOf(one, { pipe: '35 °C', suction: '665.4 kPa' }, 'K', { asDifference: true })).toBe('10');
        expect(valueOf(one, { pipe: '35 °C', suction: '400 kPa' }, 'K')).toBe('none');
    });

    test('the same with a gauge and a barometer', () => {
        const readings = { pipe: 'temperature', suction: 'pressure gauge', air: 'pressure absolute' };
        const one = calculated(readings, 'temperature difference', 'pipe - saturation(suction + air)', saturation);
        const given = { pipe: '35 °C', suction: '564.075 kPa', air: '101.325 kPa' };
        expect(valueOf(one, given, 'K', { asDifference: true })).toBe('10');
    });

    // 4 mA to 20 mA: 12 mA is 50 %, 3.8 mA is -1.25 %, 20.5 mA is 103.125 %, what lies beyond counts for nothing (NAMUR NE 43); seen
    // second-hand.
    test.each([
        ['12 mA', '5'],
        ['4 mA', '0'],
        ['20 mA', '10'],
        ['3.8 mA', '-0.125'],
        ['20.5 mA', '10.3125'],
        ['3.6 mA', 'none'],
        ['21 mA', 'none'],
    ])('a current loop of %s', (current, bar) => {
        const loop = 'curve transmitter { follows loop pressure gauge 0 bar .. 10 bar }';
        const one = calculated({ signal: 'current DC' }, 'pressure gauge', 'transmitter(signal)', loop);
        expect(valueOf(one, { signal: current }, 'bar')).toBe(bar);
    });

    // IEC 60034-1 for copper, from memory: a winding of 1.000 Ω at 20 °C that has 1.200 Ω when hot is at 71.0 °C with k = 235, recomputed.
    test('the rise of a winding by its resistance', () => {
        const winding = 'curve winding { follows copper 1 Ω at 20 °C constant 235 K }';
        const one = calculated(
            { hot: 'resistance', air: 'temperature' },
            'temperature difference',
            'winding(hot) - air',
            winding,
        );
        expect(valueOf(one, { hot: '1.2 Ω', air: '20 °C' }, 'K', { asDifference: true })).toBe('51');
    });

    // Polarization index, IEEE 43, from memory: the insulation resistance after 10 min divided by that after 1 min.
    test('a polarization index', () => {
        const one = calculated({ first: 'resistance', tenth: 'resistance' }, 'ratio', 'tenth / first');
        expect(valueOf(one, { first: '2 GΩ', tenth: '5 GΩ' }, 'ratio')).toBe('2.5');
    });
});

describe('written temperatures', () => {
    // NIST SP 811, B.8: a difference of 9 °F is one of 5 K; as a temperature 9 °F is 260.372 K.
    test.each([
        ['temperature', 't + 9 °F', '30'],
        ['temperature', 't + 5 K', '30'],
        ['temperature', 't - 9 °F', '20'],
        ['temperature', 'mean(t, 77 °F)', '25'],
        ['temperature', 'mean(t, 35 °C)', '30'],
        ['temperature', '9 °F + t', '30'],
        ['temperature', 't + (20 °C - 15 °C)', '30'],
        ['temperature', 't + 2 * 5 °C', '35'],
    ])('%s from %s', (quantity, expression, celsius) => {
        expect(valueOf(calculated({ t: 'temperature' }, quantity, expression), { t: '25 °C' }, '°C')).toBe(celsius);
    });

    test.each([
        ['t - 68 °F', '5'],
        ['t - 20 °C', '5'],
        ['deviation(t, 35 °C)', '5'],
        ['0.5 * (t - 59 °F)', '5'],
    ])('temperature difference from %s', (expression, kelvins) => {
        const one = calculated({ t: 'temperature' }, 'temperature difference', expression);
        expect(valueOf(one, { t: '25 °C' }, 'K', { asDifference: true })).toBe(kelvins);
    });
});

test('a reading that is calculated itself is put in with its own calculation', () => {
    const one = calculated(
        { a: 'voltage DC', b: 'voltage DC' },
        'ratio',
        'drop / a  normal otherwise }\n  test drop { calculate voltage DC from a - b',
    );
    expect(valueOf(one, { a: '12 V', b: '9 V' }, '%')).toBe('25');
});

test('what is divided by zero, and a reading that is not there, have no value', () => {
    const one = calculated({ a: 'voltage DC', b: 'current DC' }, 'resistance', 'a / b');
    expect(valueOf(one, { a: '12 V', b: '0 A' }, 'Ω')).toBe('none');
    expect(valueOf(one, { a: '12 V' }, 'Ω')).toBe('none');
    const shares = calculated({ a: 'voltage DC', b: 'voltage DC' }, 'ratio', 'unbalance(a, b)');
    expect(valueOf(shares, { a: '0 V', b: '0 V' }, '%')).toBe('none');
});
