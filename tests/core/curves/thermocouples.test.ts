/**
 * Thermocouples against printed tables: millivolts, reference junction at 0 °C, to the last digit (1 µV).
 * Type T: NIST Standard Reference Database 60, table of type T, seen. Type K below 0 °C: ASTM E230, table 9, seen second-hand.
 * What is marked with 1 is from GOST R 8.585, which has the tables of IEC 60584-1, seen second-hand; the rest is from memory.
 */

import type Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { image, inputAt, preimage, valueAt } from '../../../language/src/core/curves/curve.js';
import type { ThermocoupleType } from '../../../language/src/core/curves/curve-shape.js';
import { exact } from '../quantities/read.js';
import { curveOf, kelvins, printed, printedCelsius, stretch } from './curves.js';

const tables: Readonly<Record<ThermocoupleType, string>> = {
    E: `
        -270 -9.835   -200 -8.825 1   -150 -7.279   -100 -5.237 1   -50 -2.787   0 0.000
        100 6.319 1   200 13.421 1   300 21.036 1   400 28.946 1   500 37.005 1   600 45.093 1
        700 53.112 1   800 61.017 1   900 68.787 1   1000 76.373 1`,
    J: `
        -210 -8.095 1   -100 -4.633   -60 -2.893 1   0 0.000   25 1.277   90 4.726 1   100 5.269   200 10.779
        240 13.000 1   390 21.297 1   500 27.393   540 29.647 1   690 38.512 1   750 42.281   760 42.919
        840 48.074 1   990 57.360 1   1000 57.953   1140 66.102 1   1200 69.553`,
    K: `
        -270 -6.458   -260 -6.441   -250 -6.404   -240 -6.344   -230 -6.262   -220 -6.158   -210 -6.035
        -200 -5.891   -190 -5.730   -180 -5.550   -170 -5.354   -160 -5.141   -150 -4.913   -140 -4.669
        -100 -3.554   -70 -2.587 1   0 0.000   20 0.798   25 1.000   30 1.203 1   50 2.023   100 4.096
        130 5.328 1   200 8.138   230 9.343 1   300 12.209   330 13.457 1   400 16.397   430 17.667 1
        500 20.644   530 21.924 1   630 26.179 1   730 30.382 1   830 34.501 1   930 38.522 1   1000 41.276
        1030 42.440 1   1130 46.249 1   1230 49.926 1   1330 53.451 1   1372 54.886`,
    N: `
        -270 -4.345   -200 -3.990 1   -120 -2.808 1   -100 -2.407   -50 -1.269   0 0.000   30 0.793 1
        180 5.259 1   330 10.413 1   480 15.984 1   630 21.784 1   780 27.669 1   930 33.541 1
        1080 39.326 1   1230 44.958 1   1300 47.513`,
    T: `
        -270 -6.258   -265 -6.248   -260 -6.232   -250 -6.180   -240 -6.105   -230 -6.007   -220 -5.888
        -210 -5.753   -200 -5.603   -190 -5.439   -180 -5.261   -150 -4.648   -120 -3.923   -100 -3.379
        -90 -3.089   -60 -2.153   -50 -1.819   -45 -1.648 1   -40 -1.475   0 0.000   30 1.196 1   105 4.513 1
        180 8.237 1   255 12.293 1   330 16.624 1   400 20.872`,
};

describe.each(Object.keys(tables) as ThermocoupleType[])('type %s', type => {
    const curve = curveOf({ sort: 'thermocouple', type });
    const points = [...tables[type].matchAll(/(-?\d+) (-?\d+\.\d{3})/g)].map(([, celsius = '', millivolts = '']) => ({
        celsius,
        millivolts,
    }));

    test.each(points)('gives $millivolts mV at $celsius °C', ({ celsius, millivolts }) => {
        expect(printed(curve, kelvins(celsius), 3, '0.001')).toBe(millivolts);
    });

    test.each(points)('gives $celsius °C back', ({ celsius }) => {
        const voltage = valueAt(curve, kelvins(celsius)) as Fraction;
        const error = (inputAt(curve, voltage) as Fraction).sub(kelvins(celsius)).valueOf();
        // Near absolute zero 10⁻¹⁴ V is worth 3 × 10⁻⁸ K.
        expect(Math.abs(error)).toBeLessThan(Number(celsius) < -200 ? 3e-8 : 2e-9);
    });

    test('has at least three printed values on each stretch, and both ends of its range', () => {
        const turn = type === 'J' ? 760 : 0;
        expect(points.filter(({ celsius }) => Number(celsius) < turn).length).toBeGreaterThanOrEqual(3);
        expect(points.filter(({ celsius }) => Number(celsius) > turn).length).toBeGreaterThanOrEqual(3);
        expect(curve.domain).toEqual(stretch(kelvins(points[0]?.celsius ?? ''), kelvins(points.at(-1)?.celsius ?? '')));
    });

    test('rises over every degree', () => {
        expect(curve.course).toBe('rising');
        const [coldest, hottest] = [Number(points[0]?.celsius), Number(points.at(-1)?.celsius)];
        let before = valueAt(curve, kelvins(coldest)) as Fraction;
        for (let celsius = coldest + 1; celsius <= hottest; celsius++) {
            const next = valueAt(curve, kelvins(celsius)) as Fraction;
            expect(next.compare(before)).toBe(1);
            before = next;
        }
    });
});

describe('a type K with its reference junction at 25 °C', () => {
    const curve = curveOf({ sort: 'thermocouple', type: 'K' });

    test('that gives 3.096 mV is at 100.0 °C: voltages are added, not temperatures', () => {
        // The rule of NIST Monograph 175, from memory; the example is recomputed: 3.096 mV + 1.000 mV = 4.096 mV.
        const sum = exact('0.003096').add(valueAt(curve, kelvins(25)) as Fraction);
        expect(printedCelsius(curve, sum, 1)).toBe('100.0');
        expect(printedCelsius(curve, exact('0.003096'), 1)).not.toBe('75.0');
    });
});

test('at 0 °C the voltage is nothing, exactly, in both directions', () => {
    for (const type of Object.keys(tables) as ThermocoupleType[]) {
        const curve = curveOf({ sort: 'thermocouple', type });
        expect(valueAt(curve, kelvins(0))).toEqual(exact('0'));
        expect(inputAt(curve, exact('0'))).toEqual(kelvins(0));
    }
});

test('where two stretches meet, what lies between them leads to the temperature at which they meet', () => {
    // The stretches of type J are 7.5 × 10⁻¹¹ V apart at 760 °C, recomputed with 60 digits.
    const curve = curveOf({ sort: 'thermocouple', type: 'J' });
    const meeting = valueAt(curve, kelvins(760)) as Fraction;
    expect(inputAt(curve, meeting.add(exact('3e-11')))).toEqual(kelvins(760));
});

test('a voltage that no temperature gives leads nowhere', () => {
    const curve = curveOf({ sort: 'thermocouple', type: 'T' });
    expect(inputAt(curve, exact('-0.0063'))).toBeUndefined();
    expect(inputAt(curve, exact('0.021'))).toBeUndefined();
    expect(preimage(curve, stretch(exact('0.021'), exact('0.03')))).toEqual({ outputs: undefined, beyond: true });
});

test('a stretch has ends of 12 significant digits, rounded outward', () => {
    const curve = curveOf({ sort: 'thermocouple', type: 'K' });
    // 1.000242354567562… mV and 4.096230218723254… mV, recomputed with 60 digits.
    expect(image(curve, stretch(kelvins(25), kelvins(100)))).toEqual({
        outputs: stretch(exact('0.00100024235456'), exact('0.00409623021873')),
        beyond: false,
    });
    expect(valueAt(curve, kelvins(25))).toEqual(exact('0.00100024235457'));
});
