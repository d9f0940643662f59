/** Thermistors by one constant and by three, against worked values. */

import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { image, inputAt, makeCurve, preimage, valueAt } from '../../../language/src/core/curves/curve.js';
import type { CurveShape } from '../../../language/src/core/curves/curve-shape.js';
import { exact } from '../quantities/read.js';
import { curveOf, kelvins, printed, printedCelsius, stretch } from './curves.js';

const ntc = (beta: number): CurveShape => ({ sort: 'ntc', resistance: 10_000, temperature: 298.15, beta });

// R = 10 kΩ × exp(β(1/T − 1/298.15 K)), recomputed.
test.each([
    [3950, 0, '33620.6'],
    [3950, 25, '10000.0'],
    [3950, 50, '3588.2'],
    [3950, 60, '2486.2'],
    [3950, 100, '697.5'],
    [3435, 0, '28704.3'],
    [3435, 50, '4101.2'],
    [3435, 85, '1451.3'],
])('10 kΩ at 25 °C with a beta of %d K has at %d °C %s Ω', (beta, celsius, ohms) => {
    const curve = curveOf(ntc(beta));
    expect(curve.course).toBe('falling');
    // 1451.35 Ω was recomputed to 1451.349.
    expect(printed(curve, kelvins(celsius), 1)).toBe(ohms);
    expect(printedCelsius(curve, exact(ohms), 2)).toBe(celsius.toFixed(2));
});

test('at its own temperature it has its own resistance, with no noise', () => {
    expect(valueAt(curveOf(ntc(3950)), kelvins(25))).toEqual(exact('10000'));
    expect(inputAt(curveOf(ntc(3950)), exact('10000'))).toEqual(kelvins(25));
    expect(image(curveOf(ntc(3950)), stretch(kelvins(25), kelvins(25))).outputs).toEqual(
        stretch(exact('10000'), exact('10000')),
    );
});

describe('by three constants', () => {
    // The set that is quoted everywhere for one common 10 kΩ material; temperatures recomputed with the formula.
    const shape: CurveShape = { sort: 'steinhart-hart', a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 };
    const curve = curveOf(shape);

    test.each([
        ['32650', '0.0002'],
        ['10000', '24.9997'],
        ['1000', '87.1681'],
    ])('%s Ω is %s °C', (ohms, celsius) => {
        expect(printedCelsius(curve, exact(ohms), 4)).toBe(celsius);
        const back = valueAt(curve, inputAt(curve, exact(ohms)) as Fraction) as Fraction;
        expect(back.div(exact(ohms)).sub(1).abs().valueOf()).toBeLessThan(1e-10);
    });

    // Resistances of this material as sensor tables print them (10 kΩ, "type 2"), from memory; the set fits them to 0.1 K.
    test.each([
        [10, 19_900],
        [20, 12_490],
        [30, 8056],
        [40, 5326],
        [50, 3602],
        [70, 1751],
    ])('at %d °C it has about %d Ω', (celsius, ohms) => {
        expect((valueAt(curve, kelvins(celsius)) as Fraction).div(ohms).sub(1).abs().valueOf()).toBeLessThan(0.004);
    });

    test('with a negative third constant it is followed as far as it falls', () => {
        const bent = curveOf({ sort: 'steinhart-hart', a: 1.1e-3, b: 2.4e-4, c: -1e-7 });
        // 1/T is largest at ln R = √(b/(3 × 1e-7)) = 28.284; at 95 % of that, 26.870, 1/T is 1.1e-3 + 6.4488e-3 − 1.9400e-3 = 1/178.29 K.
        expect(bent.domain.low?.value.valueOf()).toBeCloseTo(178.29, 2);
        expect(bent.course).toBe('falling');
        expect(printedCelsius(bent, valueAt(bent, kelvins(-50)) as Fraction, 6)).toBe('-50.000000');
    });

    test('without the third constant it is the law of one constant', () => {
        const straight = curveOf({
            sort: 'steinhart-hart',
            a: 1 / 298.15 - Math.log(10_000) / 3950,
            b: 1 / 3950,
            c: 0,
        });
        for (const celsius of [-40, 0, 25, 60, 150]) {
            const expected = valueAt(curveOf(ntc(3950)), kelvins(celsius)) as Fraction;
            const ratio = (valueAt(straight, kelvins(celsius)) as Fraction).div(expected);
            expect(ratio.sub(1).abs().valueOf()).toBeLessThan(1e-10);
        }
    });

    test.each([
        [{ a: 1e-3, b: 0, c: 0 }, 'not-falling'],
        [{ a: 1e-3, b: -2e-4, c: 1e-7 }, 'not-falling'],
        [{ a: -1, b: 2e-4, c: -1e-7 }, 'not-falling'],
        [{ a: Number.NaN, b: 2e-4, c: 1e-7 }, 'out-of-reach'],
        [{ a: 1e-3, b: 1e-9, c: 0 }, 'out-of-reach'],
    ])('%o is no curve', (constants, problem) => {
        expect(makeCurve({ sort: 'steinhart-hart', ...constants })).toEqual({ problem });
    });
});

test.each([
    [
        { resistance: 0, temperature: 298.15, beta: 3950 },
        { problem: 'not-positive', amount: 'resistance' },
    ],
    [
        { resistance: 10_000, temperature: -1, beta: 3950 },
        { problem: 'not-positive', amount: 'temperature' },
    ],
    [
        { resistance: 10_000, temperature: 298.15, beta: -3950 },
        { problem: 'not-positive', amount: 'beta' },
    ],
    [
        { resistance: 10_000, temperature: 298.15, beta: Number.NaN },
        { problem: 'not-positive', amount: 'beta' },
    ],
    [{ resistance: 10_000, temperature: 298.15, beta: 1e9 }, { problem: 'out-of-reach' }],
    [{ resistance: 1e300, temperature: 298.15, beta: 3950 }, { problem: 'out-of-reach' }],
])('%o is no curve', (amounts, problem) => {
    expect(makeCurve({ sort: 'ntc', ...amounts })).toEqual(problem);
});

test('a stretch of temperatures gives a stretch of resistances the other way round, and back', () => {
    const curve = curveOf(ntc(3950));
    const { outputs, beyond } = image(curve, stretch(kelvins(0), kelvins(25)));
    expect(beyond).toBe(false);
    expect(outputs?.low?.value).toEqual(exact('10000'));
    // 33620.60370… Ω, recomputed, rounded up.
    expect(outputs?.high?.value.valueOf()).toBeCloseTo(33_620.6037, 3);
    const inputs = preimage(curve, outputs ?? {}).outputs;
    expect(inputs?.high?.value).toEqual(kelvins(25));
    expect(inputs?.low?.value.sub(kelvins(0)).abs().valueOf()).toBeLessThan(2e-9);
});

test('the ends of a rounded stretch belong to it, because values beside an open end are rounded to the same digits', () => {
    const curve = curveOf(ntc(3950));
    const open = { low: { value: kelvins(25), closed: false }, high: { value: kelvins(30), closed: false } };
    const { outputs } = image(curve, open);
    const beside = kelvins(25).add(exact('1e-13'));
    expect(valueAt(curve, beside)).toEqual(exact('10000'));
    expect(outputs?.high).toEqual({ value: exact('10000'), closed: true });
});

test('limits of the author limit it further', () => {
    const curve = curveOf(ntc(3950), stretch(kelvins(-40), kelvins(125)));
    expect(valueAt(curve, kelvins(-41))).toBeUndefined();
    expect(inputAt(curve, exact('1000000'))).toBeUndefined();
    expect(curve.domain).toEqual(stretch(kelvins(-40), kelvins(125)));
    const hot = makeCurve(ntc(3950), stretch(kelvins(1500), kelvins(1600)));
    expect(hot).toMatchObject({ problem: 'nothing-within' });
});

test('a temperature of so many digits that no binary number holds them is taken all the same', () => {
    const curve = curveOf(ntc(3950));
    const tiny = new Fraction(1n, 10n ** 400n);
    expect(valueAt(curve, kelvins(25).add(tiny))).toEqual(exact('10000'));
});
