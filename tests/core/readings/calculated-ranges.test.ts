/** The readings that a calculated test can have, and how far one may be off, from what its instruments show. */
import { describe, expect, test } from 'vitest';
import { displayInterval } from '../../../language/src/core/quantities/interval-words.js';
import { findUnit } from '../../../language/src/core/quantities/unit-spellings.js';
import { uncertaintyOfCalculation } from '../../../language/src/core/readings/calculated-accuracy.js';
import { rangeOfCalculation } from '../../../language/src/core/readings/calculated-ranges.js';
import { neverWorkedOut } from '../../../language/src/core/readings/never-worked-out.js';
import { readingsOf } from '../../../language/src/core/readings/reading.js';
import { onlyFile } from '../../support/check.js';
import { calculated, inUnit, type Readings } from './calculated.js';

const instruments = `
instrument meter { measures voltage DC 0 V .. 600 V resolution 0.1 V accuracy 0.5 % + 3 digits }
instrument clamp { measures current DC 0 A .. 20 A resolution 0.1 A accuracy 2 % }
instrument probe { measures temperature -20 °C .. 120 °C resolution 0.1 °C accuracy 0.5 °C }
instrument gauges { measures pressure gauge -1 bar .. 9 bar resolution 0.1 bar accuracy 0.1 bar }
table boiling from temperature to pressure gauge { -10 °C = 1 bar  30 °C = 5 bar }
table belly from length to volume { 0 mm = 0 L  10 mm = 4 L  20 mm = 3 L }
instrument rule { measures length 0 mm .. 30 mm resolution 1 mm accuracy 1 mm }
`;

const bench: Readings = {
    u: 'voltage DC with meter',
    v: 'voltage DC with meter',
    w: 'voltage DC with meter',
    i: 'current DC with clamp',
    t: 'temperature with probe',
    p: 'pressure gauge with gauges',
    s: 'length with rule',
    r: 'resistance',
};

function rangeOf(quantity: string, expression: string, unit: string): string {
    const { method, model } = calculated(bench, quantity, expression, instruments);
    const range = rangeOfCalculation(method, model);
    if (!range) return 'unknown';
    const asDifference = quantity.endsWith('difference');
    const { interval, isTight, mayLackValue } = range;
    const shown = interval ? displayInterval(interval, { unit: findUnit(unit), asDifference }) : 'nothing';
    return [shown, ...(isTight ? [] : ['or less']), ...(mayLackValue ? ['or no value'] : [])].join(', ');
}

test.each([
    ['voltage DC', 'u - v', 'V', '-600 V .. 600 V'],
    ['voltage DC', 'u - u', 'V', '-600 V .. 600 V, or less'],
    ['voltage DC', 'mean(u, v, w)', 'V', '0 V .. 600 V'],
    ['voltage DC', 'largest(u, 24 V)', 'V', '24 V .. 600 V'],
    ['voltage DC', 'deviation(u, v)', 'V', '0 V .. 300 V'],
    ['voltage DC', 'deviation(u, v, w)', 'V', '0 V .. 400 V'],
    ['ratio', 'unbalance(u, v, w)', '%', '0 % .. 200 %, or no value'],
    ['ratio', 'unbalance(u + 1 V, v + 1 V)', '%', '0 % .. about 99.6678 %'],
    ['power', 'u * i', 'kW', '0 kW .. 12 kW'],
    ['resistance', 'u / i', 'Ω', '>= 0 Ω, or no value'],
    ['resistance', 'u / (i + 1 A)', 'Ω', '0 Ω .. 600 Ω'],
    ['resistance', 'u / (i - 1 A)', 'Ω', 'any value, or no value'],
    ['resistance', '(u + 1 V) / (i - 1 A)', 'Ω', 'any value, or less, or no value'],
    ['voltage DC', 'i * r', 'V', '>= 0 V'],
    ['temperature difference', 't - boiling(p)', 'K', '-50 K .. 130 K, or no value'],
    ['temperature', 't + 10 K', '°C', '-10 °C .. 130 °C'],
    ['volume', 'belly(s)', 'L', '0 L .. 4 L, or no value'],
    ['temperature', 't + t', '°C', 'unknown'],
])('%s from %s: %s', (quantity, expression, unit, wanted) => {
    expect(rangeOf(quantity, expression, unit)).toBe(wanted);
});

test('a test that is worked out from itself has no range', () => {
    expect(rangeOf('voltage DC', 'u + result', 'V')).toBe('unknown');
});

describe('how far a result may be off', () => {
    function uncertainty(quantity: string, expression: string, unit: string, bands: Readings): string {
        const readings = Object.fromEntries(
            Object.entries(bands).map(([name, band]) => [name, `${bench[name] ?? ''}  normal ${band}`]),
        );
        const { method, model } = calculated(readings, quantity, expression, instruments);
        const size = uncertaintyOfCalculation(method, model);
        return size ? `${inUnit(size, unit, true, 6)} ${unit}` : 'unknown';
    }

    // ±(0.5 % + 3 digits) at 230.0 V with steps of 0.1 V is 1.45 V: recomputed. Two of them are 2.9 V off at the worst.
    test.each([
        ['voltage DC', 'u + 0 V', 'V', { u: '230 V' }, '1.45 V'],
        ['voltage DC', 'u - v', 'V', { u: '230 V', v: '230 V' }, '2.9 V'],
        ['voltage DC', 'mean(u, v)', 'V', { u: '230 V', v: '230 V' }, '1.45 V'],
        // At the high end of the normal band the share of the reading is largest: 240 V ± 1.5 V.
        ['voltage DC', 'u + 0 V', 'V', { u: '220 V .. 240 V' }, '1.5 V'],
        // 0.5 °C and 0.1 bar, where the table has 10 K for each bar.
        ['temperature difference', 't - boiling(p)', 'K', { t: '20 °C', p: '3 bar' }, '1.5 K'],
        ['temperature difference', 't - boiling(p)', 'K', { t: '20 °C', p: '5 bar' }, 'unknown'],
        ['voltage DC', 'u + 0 V', 'V', { u: '> 220 V or < 3 V' }, '3.3 V'],
        ['voltage DC', 'u + 0 V', 'V', { u: '700 V' }, 'unknown'],
    ] as const)('%s from %s in %s, %o: %s', (quantity, expression, unit, bands, wanted) => {
        expect(uncertainty(quantity, expression, unit, bands as Readings)).toBe(wanted);
    });
});

describe('bands that can never come out', () => {
    function never(quantity: string, expression: string, bands: string): readonly (string | undefined)[] {
        const { model } = calculated(bench, quantity, `${expression}  ${bands}`, instruments);
        const file = model.files.get(onlyFile);
        const readings = file ? readingsOf(file, model) : [];
        return readings.flatMap(reading => neverWorkedOut(reading, model).map(({ taker }) => taker.entry.name));
    }

    test.each([
        ['voltage DC', 'u - v', 'low < -600 V  high > 500 V', ['low']],
        ['voltage DC', 'u - v', 'low <= -600 V  high > 600 V', ['high']],
        ['power', 'u * i', 'low < 0 W', ['low']],
        ['ratio', 'unbalance(u, v, w)', 'high > 200 %', ['high']],
        ['resistance', 'u / (i - i)', 'high > 1 Ω', []],
        ['volume', 'belly(s + 30 mm)', 'low < 1 L', ['low']],
        ['voltage DC', 'u + i', 'low < -600 V', []],
    ])('%s from %s: %s', (quantity, expression, bands, wanted) => {
        expect(never(quantity, expression, bands)).toEqual(wanted);
    });
});
