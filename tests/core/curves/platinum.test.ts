/** Platinum sensors against the table of IEC 60751 (2008, table 1: resistance of a sensor of 100 Ω), seen second-hand in public copies. */

import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { image, inputAt, preimage, valueAt } from '../../../language/src/core/curves/curve.js';
import { exact } from '../quantities/read.js';
import { curveOf, kelvins, printed, printedCelsius, stretch } from './curves.js';

const pt100 = curveOf({ sort: 'platinum', atZero: 100 });
const pt1000 = curveOf({ sort: 'platinum', atZero: 1000 });

const table: readonly (readonly [celsius: number, ohms: string])[] = [
    [-200, '18.52'],
    [-190, '22.83'],
    [-150, '39.72'],
    [-100, '60.26'],
    [-60, '76.33'],
    [-50, '80.31'],
    [-20, '92.16'],
    [-10, '96.09'],
    [-1, '99.61'],
    [0, '100.00'],
    [1, '100.39'],
    [10, '103.90'],
    [20, '107.79'],
    [50, '119.40'],
    [60, '123.24'],
    [100, '138.51'],
    [150, '157.33'],
    [200, '175.86'],
    [300, '212.05'],
    [400, '247.09'],
    [500, '280.98'],
    [600, '313.71'],
    [850, '390.48'],
];

test.each(table)('at %d °C a sensor of 100 Ω has %s Ω', (celsius, ohms) => {
    expect(printed(pt100, kelvins(celsius), 2)).toBe(ohms);
    // Clause 4: the other sensors are multiples of it.
    expect(printed(pt1000, kelvins(celsius), 1)).toBe(new Fraction(ohms).mul(10).valueOf().toFixed(1));
});

test.each(table)('the temperature for the resistance at %d °C is that temperature again', (celsius, ohms) => {
    // The last digit of the table is worth 0.0125 °C at most, a half of the last place divided by 0.43 Ω/°C to 0.29 Ω/°C.
    const back = inputAt(pt100, exact(ohms));
    if (celsius !== -200 && celsius !== 850) {
        expect(Math.abs((back as Fraction).sub(kelvins(celsius)).valueOf())).toBeLessThan(0.018);
    }
    expect(inputAt(pt100, valueAt(pt100, kelvins(celsius)) as Fraction)).toEqual(kelvins(celsius));
});

test('the resistance is exact', () => {
    // 100 Ω × (1 + 3.9083e-3 × 25 − 5.775e-7 × 625), recomputed.
    expect(valueAt(pt100, kelvins(25))).toEqual(exact('109.73465625'));
    // 100 Ω × (1 − 3.9083e-3 × 50 − 5.775e-7 × 2500 − 4.183e-12 × (-150) × (-125000)), recomputed: 80.3062818…
    expect(valueAt(pt100, kelvins(-50))).toEqual(exact('80.306281875'));
});

test('the temperature for 108.5 Ω is 21.8189 °C', () => {
    // From the closed form of the inverse, seen second-hand.
    expect(printedCelsius(pt100, exact('108.5'), 4)).toBe('21.8189');
});

test('the mean slope from 0 °C to 100 °C is 3.851e-3 per °C', () => {
    // IEC 60751, definition of α, seen second-hand.
    const rise = (valueAt(pt100, kelvins(100)) as Fraction).sub(100).div(100 * 100);
    expect(rise.valueOf().toFixed(6)).toBe('0.003851');
});

describe('outside -200 °C to 850 °C', () => {
    test('there is no resistance', () => {
        expect(valueAt(pt100, kelvins('-200.01'))).toBeUndefined();
        expect(valueAt(pt100, kelvins('850.01'))).toBeUndefined();
        expect(inputAt(pt100, exact('18.5'))).toBeUndefined();
        expect(inputAt(pt100, exact('391'))).toBeUndefined();
    });

    test('a stretch says that it goes beyond, and gives what is inside', () => {
        expect(image(pt100, stretch(kelvins(0), kelvins(900)))).toEqual({
            outputs: stretch(exact('100'), exact('390.481125')),
            beyond: true,
        });
        expect(image(pt100, stretch(kelvins(860), kelvins(900)))).toEqual({ outputs: undefined, beyond: true });
        expect(preimage(pt100, stretch(exact('100'), exact('1000')))).toEqual({
            outputs: stretch(kelvins(0), kelvins(850)),
            beyond: true,
        });
    });
});

test('a stretch of temperatures gives a stretch of resistances, open where it is open', () => {
    const inputs = { low: { value: kelvins(0), closed: false }, high: { value: kelvins(25), closed: true } };
    const outputs = {
        low: { value: exact('100'), closed: false },
        high: { value: exact('109.73465625'), closed: true },
    };
    expect(image(pt100, inputs)).toEqual({ outputs, beyond: false });
});
